import { expect } from '@open-wc/testing';
import { html } from 'lit';
import { naming } from '../../components/naming.ts';
import type { SdFigures } from '../../components/sd-figures.ts';
import '../../components/sd-figures.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { figuresOf } from '../../src/notebook/read.ts';
import type { Session } from '../../src/session/session.ts';
import { summerNotebook } from '../build-notebook.ts';
import { openSession } from './open-notebook.ts';
import { allText, button, deep, onPage, says, type, until } from './treating-page.ts';

const day = '2026-06-14';

/** Two groups: ewes 50 and 150 epg (1 and 3 eggs of factor 50); lambs 1,000 and one not counted. */
function small(): Notebook {
  return summerNotebook({
    animals: {
      E1: { group: 'ewes' },
      E2: { group: 'ewes' },
      L1: { group: 'lambs' },
      L2: { group: 'lambs' },
    },
    days: { [day]: { grams: 2, fluidMl: 28, fluidIs: 'added', areaMl: 0.15, areas: 2 } },
    counts: {
      [day]: {
        E1: { chamber1: '1', chamber2: '0' },
        E2: { chamber1: '1', chamber2: '2' },
        L1: { chamber1: '10', chamber2: '10' },
      },
    },
  });
}

async function open(notebook = small()): Promise<{ session: Session; figures: SdFigures }> {
  const session = await openSession(notebook);
  const figures = await onPage<SdFigures>(session, html`<sd-figures blockId="b"></sd-figures>`);
  // As wide as the column beside the counts: figures down, groups across.
  figures.style.width = '344px';
  await says(figures, 'median');
  await until(
    () => figures.renderRoot.querySelector('tbody th')?.textContent?.includes('counted') === true,
    () => allText(figures),
  );
  return { session, figures };
}

/** The line of a figure: what stands in its cells, group by group. */
function line(figures: SdFigures, name: string): readonly string[] {
  const rows = [...figures.renderRoot.querySelectorAll('tbody tr')];
  const row = rows.find((one) => one.querySelector('th')?.textContent?.trim().startsWith(name));
  return [...(row?.querySelectorAll('td') ?? [])].map((cell) =>
    (cell.textContent ?? '').replace(/\s+/g, ' ').trim(),
  );
}

function formulaOf(dialog: Element): HTMLInputElement {
  return deep<HTMLInputElement>(deep(dialog, 'sd-formula-field'), 'input');
}

describe('<sd-figures>', () => {
  it('gives each figure for every group and for all animals last, worked by hand', async () => {
    const { figures } = await open();
    const heads = [...figures.renderRoot.querySelectorAll('thead th')].map((one) =>
      one.textContent?.trim(),
    );
    expect(heads.slice(-3)).to.deep.equal(['ewes', 'lambs', 'all']);
    expect(line(figures, 'counted')).to.deep.equal(['2of 2', '1of 2', '3of 4']);
    expect(line(figures, 'mean')).to.deep.equal(['100', '1,000', '400']);
    expect(line(figures, 'median')).to.deep.equal(['100', '1,000', '150']);
  });

  it('gives the name of a figure into a formula by its label as by its number, and lets the formula keep the focus', async () => {
    const { figures } = await open();
    const taken: string[] = [];
    const take = (name: string): unknown => taken.push(name);
    const row = [...figures.renderRoot.querySelectorAll('tbody tr')].find((one) =>
      one.querySelector('th')?.textContent?.trim().startsWith('mean'),
    );
    const press = (): boolean =>
      row
        ?.querySelector('th .name > span')
        ?.dispatchEvent(
          new MouseEvent('mousedown', { bubbles: true, composed: true, cancelable: true }),
        ) === false;
    expect(press(), 'no formula is being written').to.equal(false);
    naming.begin(take);
    expect(press(), 'the formula keeps the focus').to.equal(true);
    const said: string[] = [];
    figures.addEventListener('page-message', (event) =>
      said.push((event as CustomEvent<{ sentence: string }>).detail.sentence),
    );
    // The name stands for the figure of all: that of one group is not what it would give.
    row?.querySelector<HTMLElement>('button.figure')?.click();
    expect(said.join()).to.contain('Of one group alone a figure has no name in formulas.');
    row?.querySelector<HTMLElement>('td.all button.figure')?.click();
    naming.end(take);
    const key = figuresOf(small()).find(({ label }) => label === 'mean')?.key;
    expect(taken).to.deep.equal([key, key]);
  });

  it('names whose the highest is, and how many a share stands for', async () => {
    const { figures } = await open();
    expect(line(figures, 'highest')).to.deep.equal(['150 E2', '1,000 L1', '1,000 L1']);
    expect(line(figures, 'at your limit')).to.deep.equal([
      '0 % 0 of 2',
      '100 % 1 of 1',
      '33 % 1 of 3',
    ]);
    expect(line(figures, 'shed 80 %').at(-1)).to.equal('1 of 3');
  });

  it('shows a dash everywhere and says "no counts yet" on a day without counts', async () => {
    const empty = summerNotebook({ animals: { E1: {}, E2: {} }, days: { [day]: {} } });
    const { figures } = await open(empty);
    expect(allText(figures)).to.contain('no counts yet, 2 present');
    for (const name of ['mean', 'median', 'highest', 'at your limit', 'shed 80 %'])
      expect(line(figures, name), name).to.deep.equal(['–']);
  });

  it('follows a typed count, and an animal that is added', async () => {
    const { session, figures } = await open();
    await session.dispatch({
      label: 'count of L2',
      source: 'typed',
      sets: [
        {
          path: ['readings', day, 'L2', 'c-chamber1'],
          value: { kind: 'number', text: '4', value: 4 },
        },
        {
          path: ['readings', day, 'L2', 'c-chamber2'],
          value: { kind: 'number', text: '4', value: 4 },
        },
      ],
    });
    // 20 and 8 eggs of factor 50: 1,000 and 400; with 50 and 150 the mean of four is 400.
    await until(
      () => line(figures, 'mean').join() === '100,700,400',
      () => line(figures, 'mean').join(),
    );
    expect(line(figures, 'counted').at(-1)).to.equal('4of 4');
  });

  it('refuses a figure that cannot stand at its place, loses nothing, and takes it once mended', async () => {
    const { session, figures } = await open();
    button(figures, 'Add a figure').click();
    const dialog = figures.renderRoot.querySelector('sd-figure-dialog');
    if (!dialog) throw new Error('no dialog');
    await until(
      () => deep<HTMLDialogElement>(dialog, 'dialog').open,
      () => 'the dialog is closed',
    );
    type(deep<HTMLInputElement>(dialog, 'input[name="label"]'), 'doubled');
    type(formulaOf(dialog), 'SUM(herd.epg*2)');
    button(dialog, 'Add the figure').click();
    await until(
      () => dialog.renderRoot.querySelector('[role="alert"]') !== null,
      () => allText(dialog),
    );
    expect(figuresOf(session.notebook).some(({ label }) => label === 'doubled')).to.be.false;
    expect(deep<HTMLInputElement>(dialog, 'input[name="label"]').value).to.equal('doubled');
    type(formulaOf(dialog), 'SUM(herd.epg)');
    button(dialog, 'Add the figure').click();
    await until(
      () => line(figures, 'doubled').at(-1) === '1,200',
      () => allText(figures),
    );
    const added = figuresOf(session.notebook).find(({ label }) => label === 'doubled');
    expect(added?.key).to.equal('doubled');
    expect(added?.formula).to.equal('SUM(herd.{c:c-epg})');
  });

  it('opens a figure again with what was typed and not kept, and another one without it', async () => {
    const { session, figures } = await open();
    const dialog = figures.renderRoot.querySelector('sd-figure-dialog');
    const [mean, median] = figuresOf(session.notebook).slice(1, 3);
    if (!dialog || !mean || !median) throw new Error('no dialog, or no figures');
    const opened = async (id: string): Promise<HTMLInputElement> => {
      deep<HTMLDialogElement>(dialog, 'dialog').close();
      await dialog.open(id);
      await dialog.updateComplete;
      return deep<HTMLInputElement>(dialog, 'input[name="unit"]');
    };
    type(await opened(mean.id), 'eggs in a gram');
    expect((await opened(median.id)).value).to.equal(median.unit);
    expect((await opened(mean.id)).value).to.equal('eggs in a gram');
    button(dialog, 'Start afresh').click();
    await dialog.updateComplete;
    expect(deep<HTMLInputElement>(dialog, 'input[name="unit"]').value).to.equal(mean.unit);
    expect((await opened(mean.id)).value).to.equal(mean.unit);
  });

  it('puts figures elsewhere and takes them off, each undone by one step', async () => {
    const { session, figures } = await open();
    const labels = (): string =>
      figuresOf(session.notebook)
        .map((one) => one.label)
        .join(' | ');
    const before = labels();
    button(figures, 'Change figures').click();
    await figures.updateComplete;
    button(figures, 'Move down').click();
    await until(() => labels() !== before, labels);
    expect(labels().startsWith('median | mean')).to.be.true;
    await session.undo();
    expect(labels()).to.equal(before);
    button(figures, 'Remove').click();
    await until(() => !labels().includes('mean'), labels);
    await session.undo();
    expect(labels()).to.equal(before);
  });

  it('has a line for each group where there is room for it', async () => {
    const { figures } = await open();
    figures.style.width = '900px';
    const lines = (): string =>
      [...figures.renderRoot.querySelectorAll('tbody th')]
        .map((head) => head.textContent?.trim())
        .join(' | ');
    await until(() => lines() === 'ewes | lambs | all animals', lines);
  });

  it('has no barrier that axe can find', async () => {
    const { figures } = await open();
    await expect(figures).to.be.accessible();
  });
});
