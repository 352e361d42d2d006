import { speak } from '../src/text/say.ts';
import { chosenLanguage, speechFor } from './language.ts';

/**
 * The page's first step: the language is fixed before any module is loaded that holds sentences, since
 * many keep them in constants. Everything else begins in `main.ts`.
 */
const speech = await speechFor(
  chosenLanguage(() => localStorage),
  navigator.languages,
);
speak(speech);
document.documentElement.lang = speech.language;
await import('./main.ts');
