import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { OpenPage } from './open-page.ts';
import { openPage } from './open-page.ts';

const spanish = JSON.parse(
  readFileSync(new URL('../../languages/es.json', import.meta.url), 'utf8'),
) as Readonly<Record<string, string>>;

/** Every text of a page that is seen or read aloud, shadow roots included. */
async function wordsOn(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    const look = (root: Document | ShadowRoot | Element): void => {
      for (const node of root.childNodes) {
        if (node instanceof Text) found.push(node.data.trim());
        if (!(node instanceof Element) || node.matches('script, style, code, noscript')) continue;
        for (const name of ['aria-label', 'title', 'placeholder'])
          if (node.hasAttribute(name)) found.push(node.getAttribute(name) ?? '');
        look(node);
        if (node.shadowRoot) look(node.shadowRoot);
      }
    };
    look(document);
    return found.filter((text) => text !== '');
  });
}

/** English sentences without places whose Spanish is another one: none of them may be seen. */
const english = new Set(
  Object.entries(spanish)
    .filter(([one, other]) => !one.includes('{') && one !== other && /[a-z]{3}/.test(one))
    // One word may be a person's own, such as the name of a group.
    .filter(([one]) => one.includes(' '))
    .map(([one]) => one.trim()),
);

async function englishOn(page: Page): Promise<readonly string[]> {
  return (await wordsOn(page)).filter((text) => english.has(text));
}

describe('the page in Spanish', () => {
  let open: OpenPage;
  let page: Page;

  const cell = (tag: string, column: string) =>
    page.locator(`sd-grid .cell[data-animal="${tag}"][data-column="${column}"]:not(.past)`);

  beforeAll(async () => {
    open = await openPage({ viewport: { width: 1280, height: 900 }, locale: 'es-ES' });
    ({ page } = open);
  });
  afterAll(() => open.close());

  it('greets in the language of the browser, and says which it is', async () => {
    await page.getByRole('button', { name: 'Empezar el cuaderno' }).waitFor();
    expect(await page.locator('html').getAttribute('lang')).toBe('es');
    expect(await englishOn(page)).toEqual([]);
  });

  it('takes a sampling day from the first tag to the herd mean', async () => {
    await page.getByRole('textbox', { name: 'Nombre' }).fill('Majada');
    await page.getByRole('button', { name: 'Empezar el cuaderno' }).click();
    await page.getByRole('button', { name: 'Añadir animales' }).click();
    await page.getByRole('textbox', { name: /^Aretes/ }).fill('M-1\nM-2\nM-3');
    await page.getByRole('button', { name: 'Añadir 3 animales' }).click();
    await page.getByText('Se añadieron 3 animales.').waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Añadir un día de muestreo' }).click();
    await page.getByRole('button', { name: 'Añadir el día' }).click();
    await cell('M-1', 'chamber1').click();
    for (const count of ['4', '6', 'demasiados']) {
      await page.keyboard.type(count);
      await page.keyboard.press('Enter');
    }
    await cell('M-1', 'chamber2').click();
    await page.keyboard.type('2');
    await page.keyboard.press('Enter');
    // 6 eggs seen × 50 = 300: the dilution arithmetic of the slide, in any language.
    await expect.poll(() => cell('M-1', 'epg').innerText()).toMatch(/^300/);
    await expect.poll(() => cell('M-3', 'chamber1').innerText()).toBe('demasiados');
  });

  it('writes decimals with a comma, as Spain does', async () => {
    await cell('M-1', 'weight').click();
    await page.keyboard.type('41,5');
    await page.keyboard.press('Enter');
    await expect.poll(() => cell('M-1', 'weight').innerText()).toBe('41,5');
  });

  it('knows the word for a cup without a sample', async () => {
    await cell('M-2', 'status').click();
    await page.keyboard.type('sin muestra');
    await page.keyboard.press('Enter');
    await expect.poll(() => cell('M-2', 'status').innerText()).toBe('sin muestra');
  });

  it('says what cannot be read', async () => {
    await cell('M-2', 'chamber2').click();
    await page.keyboard.type('12?');
    await page.keyboard.press('Enter');
    await page
      .getByText('está en duda, así que no se cuenta. Quite el signo de interrogación', {
        exact: false,
      })
      .first()
      .waitFor();
  });

  it('leaves nothing on the page in English', async () => {
    await page.waitForTimeout(500);
    expect(await englishOn(page)).toEqual([]);
    expect(open.errors).toEqual([]);
  });

  it('goes back to English on request, and stays there', async () => {
    await page.goto(open.address);
    await page.getByRole('combobox', { name: 'Idioma' }).selectOption({ label: 'English' });
    await page.getByRole('button', { name: /English/ }).click();
    await page.getByRole('button', { name: 'Start the notebook' }).waitFor();
    expect(await page.locator('html').getAttribute('lang')).toBe('en');
    await page.reload();
    await page.getByRole('button', { name: 'Start the notebook' }).waitFor();
  });

  it('reads in English what was typed in Spanish, since words with a meaning are kept as codes', async () => {
    await page
      .getByRole('button', { name: /Majada/ })
      .first()
      .click();
    await expect.poll(() => cell('M-3', 'chamber1').innerText()).toBe('too many');
    await expect.poll(() => cell('M-2', 'status').innerText()).toBe('not sampled');
  });
});

describe('dates', () => {
  let open: OpenPage | undefined;
  afterEach(() => open?.close());

  // How Unicode's CLDR writes 19 July in each place.
  it.each([
    ['en-US', 'July 19'],
    ['en-GB', '19 July'],
    ['es-ES', '19 de julio'],
    ['de-DE', '19 July'],
  ])('are written as in %s: %s', async (locale, words) => {
    open = await openPage({ viewport: { width: 1280, height: 900 }, locale });
    await open.page.goto(`${open.address}?demo`);
    await open.page
      .getByRole('tab', { name: words })
      .or(open.page.getByText(words, { exact: true }))
      .first()
      .waitFor();
  });
});
