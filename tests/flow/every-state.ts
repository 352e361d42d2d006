import type { Page } from 'playwright-core';

/** One state of the page that a person can be in. */
export interface PageState {
  readonly name: string;
  /** Begins at the start page; else in the demo. */
  readonly isOfStart?: boolean;
  /** One press of Escape brings the demo back as it was. */
  readonly isLeftByEscape?: boolean;
  /** Comes to it, from the start page or from the demo with nothing open. */
  readonly reach: (page: Page) => Promise<void>;
}

/** Opens the demo and waits until its list and its figures are there. */
export async function openDemo(page: Page, address: string): Promise<void> {
  await page.goto(`${address}?demo`);
  await page.locator('sd-treatment-list').getByText('over your criteria').first().waitFor();
  await page.locator('sd-figures').getByText('counted').first().waitFor();
}

/** Goes from state to state in one page, opening it anew only where the state before left something behind. */
export class Wanderer {
  private isAsItWas = false;

  constructor(
    private readonly page: Page,
    private readonly address: string,
  ) {}

  /** Comes to a state, does something there, and leaves it. */
  async visit(state: PageState, there: () => Promise<void>): Promise<void> {
    const wasAsItWas = this.isAsItWas;
    this.isAsItWas = false;
    if (state.isOfStart) await this.page.goto(this.address);
    else if (!wasAsItWas) await openDemo(this.page, this.address);
    await state.reach(this.page);
    await there();
    if (!state.isLeftByEscape) return;
    await this.page.keyboard.press('Escape');
    // A list of names that is open over the dialog takes the first press for itself.
    if (await this.page.getByRole('dialog').isVisible()) await this.page.keyboard.press('Escape');
    await this.page.getByRole('dialog').waitFor({ state: 'hidden' });
    this.isAsItWas = true;
  }
}

/** Does one of the header's actions, wherever it stands at this width. */
export async function act(page: Page, label: string): Promise<void> {
  const direct = page.locator('sd-page-header').getByRole('button', { name: label, exact: true });
  if (await direct.isVisible()) await direct.click();
  else {
    await page.getByRole('button', { name: 'More to do' }).click();
    await page.getByRole('menuitem', { name: label, exact: true }).click();
  }
}

async function dialog(page: Page, name: string | RegExp): Promise<void> {
  await page.getByRole('dialog', { name }).waitFor();
}

/** A dialog of the header, at one of its tabs where it has any. */
function fromHeader(label: string, heading: string | RegExp = label, tab?: string): PageState {
  return {
    name: tab === undefined ? `dialog: ${label}` : `dialog: ${label}, ${tab}`,
    isLeftByEscape: true,
    reach: async (page) => {
      await act(page, label);
      await dialog(page, heading);
      if (tab !== undefined) await page.getByRole('tab', { name: tab }).click();
    },
  };
}

/** A state of the demo that leaves something behind. */
function inDemo(name: string, reach: PageState['reach']): PageState {
  return { name, reach };
}

/** A dialog of the demo. */
function inDialog(name: string, reach: PageState['reach']): PageState {
  return { name, reach, isLeftByEscape: true };
}

/** One animal at a time, instead of the grid. */
export async function showCard(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'One animal' }).click();
  await page.locator('sd-card').getByRole('button', { name: 'Next' }).waitFor();
}

/** All animals at once, the focus in the grid. */
export async function showGrid(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'All animals' }).click();
  await page.getByRole('grid').first().waitFor();
  await page.locator('sd-grid').evaluate((grid: HTMLElement) => grid.focus());
}

/** Brings a block of the page to the eye, so that it is fetched and drawn. */
async function bring(page: Page, block: string): Promise<void> {
  await page.locator(block).scrollIntoViewIfNeeded();
}

/** Every screen and dialog of the program, with the states of them that look different. */
export const everyState: readonly PageState[] = [
  {
    name: 'start',
    isOfStart: true,
    reach: async (page) => {
      await page.getByRole('heading', { name: 'Start a notebook' }).waitFor();
    },
  },
  {
    name: 'start, a notebook without a name refused',
    isOfStart: true,
    reach: async (page) => {
      await page.getByRole('button', { name: 'Start the notebook' }).click();
      await page.getByText('Give the notebook a name').waitFor();
    },
  },
  {
    name: 'start, what a template holds',
    isOfStart: true,
    reach: async (page) => {
      await page.getByText('What it holds').click();
      await page.locator('sd-template-preview').getByText('Figures of the herd').waitFor();
    },
  },
  inDemo('page', async (page) => {
    for (const block of ['sd-season-trend', 'sd-products', 'sd-treatment-log'])
      if ((await page.locator(block).count()) > 0) await bring(page, block);
  }),
  inDemo('page, everything unfolded', async (page) => {
    await page.evaluate(() => {
      const open = (root: Document | ShadowRoot): void => {
        for (const fold of root.querySelectorAll('details')) fold.open = true;
        for (const part of root.querySelectorAll('*')) if (part.shadowRoot) open(part.shadowRoot);
      };
      open(document);
    });
  }),
  inDemo('page, animals shown and sorted', async (page) => {
    await showGrid(page);
    await page
      .locator('sd-grid-tools')
      .getByRole('button', { name: /^Show( and sort)?$/ })
      .click();
    await page
      .locator('sd-grid-tools')
      .getByRole('combobox', { name: 'Group', exact: true })
      .selectOption('lambs');
    await page.getByRole('button', { name: 'Show all in order' }).waitFor();
  }),
  inDemo('grid: a cell being edited', async (page) => {
    await showGrid(page);
    await page.keyboard.type('12?');
  }),
  inDemo('grid: what can be chosen in a cell', async (page) => {
    await showGrid(page);
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('Alt+ArrowDown');
    await page.getByRole('listbox').waitFor();
  }),
  inDemo('grid: the menu of a column', async (page) => {
    await showGrid(page);
    await page.keyboard.press('Shift+F10');
    await page.getByRole('menuitem', { name: 'Hide' }).waitFor();
  }),
  inDemo('grid: a block selected', async (page) => {
    await showGrid(page);
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Shift+Space');
  }),
  inDemo('card', showCard),
  inDemo('card, in the yard', async (page) => {
    await showCard(page);
    await page.getByRole('button', { name: 'In the yard' }).click();
  }),
  inDemo('card, a fault and a status', async (page) => {
    await showCard(page);
    await page.locator('sd-card').getByLabel('chamber 1').fill('12?');
    await page.locator('sd-card').getByLabel('chamber 2').focus();
    await page.locator('sd-card').getByText('in doubt').first().waitFor();
    await page.getByRole('button', { name: 'Could not count' }).click();
    await page.getByRole('button', { name: 'The one before' }).click();
    await page.getByText('This cup: could not count').waitFor();
  }),
  inDemo('card, animals found', async (page) => {
    await showCard(page);
    await page.getByLabel('Find an animal by part of its tag').fill('L-0');
    await page.getByRole('button', { name: 'Add L-0 as a new animal' }).waitFor();
  }),
  inDemo('menu of the page', async (page) => {
    await page.getByRole('button', { name: 'More to do' }).click();
    await page.getByRole('menuitem').first().waitFor();
  }),
  fromHeader('Animals'),
  fromHeader('Animals', 'Animals', 'Add many'),
  fromHeader('Animals', 'Animals', 'Add one'),
  inDemo('dialog: Animals, one that leaves', async (page) => {
    await act(page, 'Animals');
    await page.getByRole('tab', { name: /^Animals/ }).click();
    await page.getByRole('checkbox', { name: /W-101/ }).click();
    await page.getByRole('button', { name: 'Left the farm' }).click();
    await page.getByLabel('Why').waitFor();
  }),
  ...['Notebook', 'How you count', 'Limits', 'Criteria', 'Egg types'].map((tab) =>
    fromHeader('Settings', 'Settings', tab),
  ),
  fromHeader('Import', 'Import a list'),
  inDialog('dialog: Import, a list looked at', async (page) => {
    await act(page, 'Import');
    await dialog(page, 'Import a list');
    // One date that can be read in two ways, one that cannot be read, a new animal and a count in doubt.
    await page
      .getByLabel('Or paste a list')
      .fill('tag,date,chamber1\nW-101,03/04/2026,5\nX-001,04/05/2026,12?\nX-002,31/02/2026,7');
    await page.getByRole('button', { name: 'Look at it' }).click();
    await page.getByText('Which comes first in this list?').first().waitFor();
  }),
  fromHeader('Export'),
  fromHeader('Functions'),
  fromHeader('Bring in a second copy'),
  fromHeader('Where two copies differ'),
  fromHeader('Start the next season'),
  fromHeader('Save as a template'),
  inDemo('print', async (page) => {
    await act(page, 'Print');
    await page.getByRole('region', { name: 'What will be printed' }).waitFor();
    await page.locator('sd-paper').getByText('Working…').first().waitFor({ state: 'detached' });
  }),
  inDialog('dialog: Add a sampling day', async (page) => {
    await page.locator('sd-day-bar').getByRole('button', { name: 'Add a day' }).click();
    await dialog(page, 'Add a sampling day');
  }),
  inDialog('dialog: Columns', async (page) => {
    await showGrid(page);
    await page.getByRole('button', { name: 'Columns', exact: true }).click();
    await page.getByRole('dialog').waitFor();
  }),
  inDialog('dialog: Add a figure', async (page) => {
    await page.getByRole('button', { name: 'Add a figure' }).click();
    await dialog(page, 'Add a figure');
    await page.getByLabel('Formula', { exact: true }).fill('HERDMEAN(herd.epg');
  }),
  inDialog('dialog: where a figure comes from', async (page) => {
    await page.locator('sd-figures').getByRole('button', { name: 'mean, all:' }).click();
    await page.getByRole('dialog').waitFor();
  }),
  inDialog('dialog: History', async (page) => {
    await page
      .locator('sd-treatment-list')
      .getByRole('button', { name: 'History' })
      .first()
      .click();
    await dialog(page, /^History of/);
  }),
  inDemo('products: one being typed', async (page) => {
    await bring(page, 'sd-products');
    await page.getByRole('button', { name: 'Type a product' }).click();
    await page.locator('sd-product-form').waitFor();
  }),
  inDemo('treatment list: some ticked', async (page) => {
    const list = page.locator('sd-treatment-list');
    await list.getByRole('button', { name: /^Tick all/ }).click();
    await list.getByText(/ticked and not yet in the log/).waitFor();
    await list.getByLabel('Dose all ticked with').selectOption({ index: 1 });
    await list.getByRole('button', { name: /^Write .* to the log/ }).waitFor();
  }),
  inDialog('dialog: Rename the block', async (page) => {
    await page.getByRole('button', { name: 'More about The flock today' }).click();
    await page.getByRole('menuitem', { name: 'Rename' }).click();
    await dialog(page, 'Rename the block');
  }),
  // The last, because it takes the newest day off.
  inDemo('a message with undo', async (page) => {
    await page.getByRole('button', { name: 'More about 19 July 2026' }).click();
    await page.getByRole('menuitem', { name: /^Take off/ }).click();
    await page.locator('.message').getByRole('button', { name: 'Undo' }).waitFor();
  }),
];
