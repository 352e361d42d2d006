import type { Page } from 'playwright-core';

/** What stands under "More to do" and opens a dialog. */
const FURTHER = [
  'Import',
  'Export',
  'Functions',
  'Bring in a second copy',
  'Where two copies differ',
  'Start the next season',
  'Save as a template',
];

/** Does one thing that stands under "More to do". */
export async function doFurther(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: 'More to do', exact: true }).click();
  await page.getByRole('menuitem', { name, exact: true }).click();
}

/**
 * Opens everything that a notebook's page has to show: every block, every fold, every dialog and menu of the header,
 * every sheet of paper. `look` looks at each dialog and sheet.
 */
export async function goThrough(
  page: Page,
  look: () => Promise<void> = async () => undefined,
): Promise<void> {
  await page.getByRole('grid').first().waitFor();
  const blocks = page.locator('sd-block');
  for (let at = 0; at < (await blocks.count()); at++) {
    const block = blocks.nth(at);
    await block.scrollIntoViewIfNeeded();
    await block.getByText('Opening…').first().waitFor({ state: 'detached' });
    await block.getByText('Working…').first().waitFor({ state: 'detached' });
  }
  await page.evaluate(() => {
    const open = (root: Document | ShadowRoot): void => {
      for (const fold of root.querySelectorAll('details')) fold.open = true;
      for (const part of root.querySelectorAll('*')) if (part.shadowRoot) open(part.shadowRoot);
    };
    open(document);
  });
  for (const name of ['Animals', 'Settings', 'Columns']) {
    await page.getByRole('button', { name, exact: true }).first().click();
    const dialog = page.getByRole('dialog', { name });
    await dialog.waitFor();
    for (const tab of await page.getByRole('tab').all())
      if (await tab.isVisible()) await tab.click();
    await look();
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'hidden' });
  }
  const tools = page.getByRole('button', { name: 'Show and sort' }).first();
  await tools.click();
  await tools.click();
  for (const name of FURTHER) {
    await doFurther(page, name);
    const dialog = page.locator('dialog[open]');
    await dialog.waitFor();
    await look();
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'hidden' });
  }
  for (const name of ['More to do', 'Add a block']) {
    await page.getByRole('button', { name, exact: true }).first().click();
    await page.getByRole('menuitem').first().waitFor();
    await page.keyboard.press('Escape');
  }
  await doFurther(page, 'Print');
  const paper = page.locator('sd-paper');
  const kind = paper.getByRole('combobox').first();
  await kind.waitFor();
  for (const option of await kind.locator('option').all()) {
    await kind.selectOption((await option.getAttribute('value')) ?? '');
    await paper.getByText('Working…').first().waitFor({ state: 'detached' });
    await look();
  }
  await paper.getByRole('button', { name: 'Back to the page' }).click();
}

/** What must never be in the page: things that run, links that run, attributes that run. One line for each. */
export async function thingsThatRun(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    const look = (root: Document | ShadowRoot): void => {
      for (const part of root.querySelectorAll('*')) {
        const name = part.localName;
        const isOwnScript = name === 'script' && part.getAttribute('src')?.includes('assets/');
        if (['img', 'iframe', 'object', 'embed', 'base', 'script'].includes(name) && !isOwnScript)
          found.push(part.outerHTML.slice(0, 200));
        for (const attribute of part.attributes)
          if (/^on/.test(attribute.name) || /^\s*javascript:/i.test(linked(attribute)))
            found.push(`${name} ${attribute.name}="${attribute.value}"`);
        if (part.shadowRoot) look(part.shadowRoot);
      }
    };
    const linked = ({ name, value }: Attr): string =>
      /^(href|src|action|formaction|xlink:href|data)$/.test(name) ? value : '';
    look(document);
    return found;
  });
}

/** All words of the page, those in shadow roots too. */
export async function allWords(page: Page): Promise<string> {
  return page.evaluate(() => {
    const words = (root: Node): string => {
      if (root.nodeType === Node.TEXT_NODE) return root.textContent ?? '';
      const inner = root instanceof Element && root.shadowRoot ? words(root.shadowRoot) : '';
      return inner + [...root.childNodes].map(words).join(' ');
    };
    return words(document.body);
  });
}
