import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, it } from 'vitest';
import { begin, type Beginning } from '../../components/begin.ts';
import { tokens } from '../../components/theme.ts';
import { speak, spokenLanguage } from '../../src/text/say.ts';

/** A page with nothing on it but a language and what is put at its top. */
function emptyPage() {
  const shown: { role: string; text: string }[] = [];
  const page = {
    documentElement: { lang: 'en' },
    createElement: () => {
      const attributes = new Map<string, string>();
      return {
        textContent: '',
        setAttribute: (name: string, value: string) => void attributes.set(name, value),
        role: () => attributes.get('role') ?? '',
      };
    },
    body: {
      prepend: (element: { textContent: string; role: () => string }) =>
        shown.push({ role: element.role(), text: element.textContent }),
    },
  };
  return { page: page as unknown as Beginning['page'], shown };
}

const drawer = (code: string | null) => () => ({
  getItem: () => code,
  setItem: () => undefined,
  removeItem: () => undefined,
});

afterEach(() => speak({ language: 'en', locale: 'en-GB', sentences: {} }));

describe('the first step of the page', () => {
  it('fixes the language, and says it of the page, before anything else is loaded', async () => {
    const { page, shown } = emptyPage();
    const atLoading: string[] = [];
    await begin({
      page,
      drawer: drawer('es'),
      wanted: ['en-GB'],
      load: async () => void atLoading.push(spokenLanguage(), page.documentElement.lang),
    });
    expect(atLoading).toEqual(['es', 'es']);
    expect(shown).toEqual([]);
  });

  it('says so where the rest does not come, and leaves the error to the browser’s log', async () => {
    const { page, shown } = emptyPage();
    const lost = new TypeError('Failed to fetch dynamically imported module');
    const beginning = begin({
      page,
      drawer: drawer('en'),
      wanted: [],
      load: () => Promise.reject(lost),
    });
    await expect(beginning).rejects.toBe(lost);
    expect(shown).toHaveLength(1);
    expect(shown[0]?.role).toBe('alert');
    expect(shown[0]?.text).toMatch(/^This page could not be loaded whole\. Load it again/);
  });
});

describe('the ground of the page before its parts have come', () => {
  const css = readFileSync(new URL('../../components/ground.css', import.meta.url), 'utf8');
  const valuesOf = (text: string, name: string): string[] =>
    [...text.matchAll(new RegExp(`[\\s{;]${name}: (#[0-9a-f]{6});`, 'g'))].map(
      ([, colour]) => colour ?? '',
    );

  it('has the colours that it has with them, on a light and on a dark screen', () => {
    // The tokens are given for light, dark and paper; the third is no screen.
    expect(valuesOf(css, 'background')).toEqual(valuesOf(tokens.cssText, '--paper').slice(0, 2));
    expect(valuesOf(css, 'color')).toEqual(valuesOf(tokens.cssText, '--ink').slice(0, 2));
    expect(valuesOf(css, 'background')).toHaveLength(2);
  });
});
