import { say, speak } from '../src/text/say.ts';
import { chosenLanguage, speechFor, type Drawer } from './language.ts';

/** What the first step needs of a browser. */
export interface Beginning {
  readonly page: Pick<Document, 'createElement'> & {
    readonly documentElement: Pick<HTMLElement, 'lang'>;
    readonly body: Pick<HTMLElement, 'prepend'>;
  };
  readonly drawer: () => Drawer;
  /** The browser's languages, most wanted first. */
  readonly wanted: readonly string[];
  /** Loads everything that holds sentences. */
  readonly load: () => Promise<unknown>;
}

/**
 * The page's first step: the language is fixed before any module is loaded that holds sentences, since
 * many keep them in constants. Where the rest does not come, the page says so instead of staying empty.
 *
 * @throws what the loading threw, for the browser's log, after that was said.
 */
export async function begin({ page, drawer, wanted, load }: Beginning): Promise<void> {
  const speech = await speechFor(chosenLanguage(drawer), wanted);
  speak(speech);
  page.documentElement.lang = speech.language;
  try {
    await load();
  } catch (error) {
    const trouble = page.createElement('p');
    trouble.setAttribute('role', 'alert');
    trouble.textContent = say(
      'This page could not be loaded whole. Load it again; what is saved on this device is still there. If that does not help, this browser may be too old for it.',
    );
    page.body.prepend(trouble);
    throw error;
  }
}
