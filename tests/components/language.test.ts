import { describe, expect, it } from 'vitest';
import {
  chooseLanguage,
  chosenLanguage,
  languages,
  speechFor,
  type Drawer,
  type Language,
} from '../../components/language.ts';

/** A drawer that keeps what is put in, as a browser's store does. */
function drawerWith(code: string | null = null): Drawer {
  const held = new Map<string, string>();
  const drawer: Drawer = {
    getItem: (key) => held.get(key) ?? null,
    setItem: (key, value) => void held.set(key, value),
    removeItem: (key) => void held.delete(key),
  };
  if (code !== null) chooseLanguage(() => drawer, code);
  return drawer;
}

/** A browser that keeps nothing: reading its store throws, as with cookies blocked. */
const refused = (): Drawer => {
  throw new DOMException('Access is denied for this document.', 'SecurityError');
};

const invented: readonly Language[] = [
  {
    code: 'en',
    name: 'English',
    locale: 'en-GB',
    sentences: () => Promise.resolve({}),
  },
  {
    code: 'es',
    name: 'Español',
    locale: 'es',
    sentences: () => Promise.resolve({ ewe: 'oveja' }),
  },
];

describe('the language chosen on this device', () => {
  it('is none before one was chosen, and none again where the browser is to decide', () => {
    const drawer = drawerWith();
    expect(chosenLanguage(() => drawer)).toBeNull();
    expect(chooseLanguage(() => drawer, 'es')).toBe(true);
    expect(chosenLanguage(() => drawer)).toBe('es');
    expect(chooseLanguage(() => drawer, null)).toBe(true);
    expect(chosenLanguage(() => drawer)).toBeNull();
  });

  it('is none where a language is kept that this version does not have', () => {
    const drawer = drawerWith('xx');
    expect(chosenLanguage(() => drawer)).toBeNull();
  });

  it('cannot be kept, and is none, where the browser refuses its store', () => {
    expect(chosenLanguage(refused)).toBeNull();
    expect(chooseLanguage(refused, 'es')).toBe(false);
    expect(chooseLanguage(refused, null)).toBe(false);
  });

  it('cannot be kept where the store is full', () => {
    const full: Drawer = {
      ...drawerWith(),
      setItem: () => {
        throw new DOMException('The quota has been exceeded.', 'QuotaExceededError');
      },
    };
    expect(chooseLanguage(() => full, 'es')).toBe(false);
  });
});

describe('how the page speaks', () => {
  const spoken = async (chosen: string | null, ...wanted: string[]): Promise<string> =>
    (await speechFor(chosen, wanted, invented)).language;

  it('follows the choice before the browser', async () => {
    expect(await spoken('es', 'en-GB')).toBe('es');
    expect(await spoken('en', 'es-PE', 'es')).toBe('en');
  });

  it('takes the first of the browser’s languages that there is', async () => {
    expect(await spoken(null, 'qu-PE', 'es-PE', 'en')).toBe('es');
    expect(await spoken(null, 'fr', 'en-US', 'es')).toBe('en');
  });

  it('is English where the browser wants none that there is, or names none', async () => {
    expect(await spoken(null, 'fr-CA', 'de')).toBe('en');
    expect(await spoken(null)).toBe('en');
    expect(await spoken('xx', 'fr')).toBe('en');
  });

  it('brings the sentences of that language, and none for English', async () => {
    expect((await speechFor('es', [], invented)).sentences).toEqual({ ewe: 'oveja' });
    expect((await speechFor('en', [], invented)).sentences).toEqual({});
  });

  it('falls back to English, dates and all, where the file cannot be fetched', async () => {
    const [english, spanish] = invented as readonly [Language, Language];
    const lost = { ...spanish, sentences: () => Promise.reject(new TypeError('Failed to fetch')) };
    expect(await speechFor('es', ['es-PE'], [english, lost])).toEqual({
      language: 'en',
      locale: 'en-GB',
      sentences: {},
    });
  });

  it('writes dates as in the browser’s region, where that language is spoken there', async () => {
    const locale = async (chosen: string | null, ...wanted: string[]): Promise<string> =>
      (await speechFor(chosen, wanted, invented)).locale;
    expect(await locale(null, 'es-PE', 'es', 'en')).toBe('es-PE');
    expect(await locale('es', 'en-US', 'es-MX')).toBe('es-MX');
    expect(await locale('es', 'en-US')).toBe('es');
    expect(await locale(null, 'en-US')).toBe('en-US');
    expect(await locale(null, 'de-DE')).toBe('en-GB');
  });

  it('passes over what is no locale: `Intl` would throw at it', async () => {
    const speech = await speechFor(null, ['en-US@posix', 'C', 'es-PE'], invented);
    expect(speech).toMatchObject({ language: 'es', locale: 'es-PE' });
    expect(new Intl.DateTimeFormat(speech.locale).resolvedOptions().locale).toBe('es-PE');
  });
});

describe('the languages there are', () => {
  it('have each a name of their own, a locale in that language and a file that can be read', async () => {
    for (const { code, name, locale, sentences } of languages) {
      expect(name).toMatch(/^\p{Lu}/u);
      expect(new Intl.Locale(locale).language).toBe(code);
      expect(await sentences()).toBeTypeOf('object');
    }
    expect(new Set(languages.map(({ code }) => code)).size).toBe(languages.length);
  });
});
