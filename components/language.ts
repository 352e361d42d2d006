import type { Sentences, Speech } from '../src/text/say.ts';

/** A language the page can speak, by the name its own speakers give it. */
export interface Language {
  readonly code: string;
  readonly name: string;
  /** How dates are written where the browser names no region in which the language is spoken. */
  readonly locale: string;
  readonly sentences: () => Promise<Sentences>;
}

const english: Language = {
  code: 'en',
  name: 'English',
  locale: 'en-GB',
  sentences: () => Promise.resolve({}),
};

/** The languages there are. One more is one more file in `languages/` and one more line here. */
export const languages: readonly Language[] = [
  english,
  {
    code: 'es',
    name: 'Español',
    locale: 'es',
    sentences: async () => (await import('../languages/es.json')).default,
  },
];

/** Where this device keeps the language chosen on it. */
const kept = 'sampling-daybook.language';

/** The part of a browser's store that is needed; reading it throws where the browser refuses to keep anything. */
export type Drawer = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/** The language chosen on this device; `null` where none was, and the browser's own holds. */
export function chosenLanguage(drawer: () => Drawer): string | null {
  try {
    const code = drawer().getItem(kept);
    return languages.some((language) => language.code === code) ? code : null;
  } catch {
    return null;
  }
}

/** Keeps a choice for this device; `null` goes back to the browser's language. False where nothing can be kept. */
export function chooseLanguage(drawer: () => Drawer, code: string | null): boolean {
  try {
    if (code === null) drawer().removeItem(kept);
    else drawer().setItem(kept, code);
    return true;
  } catch {
    return false;
  }
}

/** The language of a locale: `es` of `es-PE`; `null` of what no calendar or number format would take. */
function languageOf(locale: string): string | null {
  try {
    return new Intl.Locale(locale).language;
  } catch {
    return null;
  }
}

/**
 * How the page is to speak: the language chosen, else the first of the browser's that there is, else
 * English. Dates follow the browser's region where it speaks that language (`es-PE`), else the language.
 */
export async function speechFor(
  chosen: string | null,
  wanted: readonly string[],
  offered: readonly Language[] = languages,
): Promise<Speech> {
  const find = (code: string | null): Language | undefined =>
    offered.find((language) => language.code === code);
  const language =
    find(chosen) ??
    wanted.map((locale) => find(languageOf(locale))).find((one) => one !== undefined) ??
    english;
  // A language whose file cannot be fetched must not keep anybody from their counts.
  const sentences = await language.sentences().catch(() => null);
  const spoken = sentences ? language : english;
  const locale = wanted.find((one) => languageOf(one) === spoken.code) ?? spoken.locale;
  return { language: spoken.code, locale, sentences: sentences ?? {} };
}
