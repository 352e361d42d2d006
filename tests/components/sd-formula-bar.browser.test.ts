import { expect, waitUntil } from '@open-wc/testing';
import { sendKeys } from '@web/test-runner-commands';
import axe from 'axe-core';
import '../../components/sd-counts.ts';
import type { SdCounts } from '../../components/sd-counts.ts';
import type { SdFormulaField } from '../../components/sd-formula-field.ts';
import type { SdFormulaBar } from '../../components/sd-formula-bar.ts';
import { columnByKey, readingOf } from '../../src/notebook/read.ts';
import type { Session } from '../../src/session/session.ts';
import { demoSession, plainSession, sessionAgain, typedIn, wrongFormula } from './fake-session.ts';
import { allText, says } from './treating-page.ts';
import { cellAt, focused, press, SessionGiver, settled } from './grid-fixture.ts';
import type { SdGrid } from '../../components/sd-grid.ts';

interface Parts {
  readonly giver: SessionGiver;
  readonly counts: SdCounts;
  readonly grid: SdGrid;
  readonly bar: SdFormulaBar;
}

async function countsOf(session: Session): Promise<Parts> {
  const giver = new SessionGiver();
  document.body.append(giver);
  giver.session = session;
  const counts = document.createElement('sd-counts');
  counts.style.height = '640px';
  giver.append(counts);
  await counts.updateComplete;
  const grid = counts.renderRoot.querySelector('sd-grid');
  const bar = counts.renderRoot.querySelector('sd-formula-bar');
  if (!grid || !bar) throw new Error('counts have no grid or no bar');
  grid.focus();
  await settled(grid);
  await bar.updateComplete;
  return { giver, counts, grid, bar };
}

function pressOn(cell: Element | null | undefined): void {
  cell?.dispatchEvent(
    new MouseEvent('mousedown', { bubbles: true, composed: true, cancelable: true }),
  );
}

function words(bar: SdFormulaBar): string {
  return bar.renderRoot.textContent?.replace(/\s+/g, ' ').trim() ?? '';
}

/** Opens the formula of the column epg in the line, with the cursor behind it. */
async function openFormula(grid: SdGrid, bar: SdFormulaBar): Promise<SdFormulaField> {
  pressOn(cellAt(grid, 'A-002', 'epg'));
  await settled(grid);
  await bar.updateComplete;
  bar.renderRoot.querySelector<HTMLButtonElement>('.formula')?.click();
  await waitUntil(() => bar.renderRoot.querySelector('sd-formula-field'), 'the field opens');
  await settled(grid);
  const field = bar.renderRoot.querySelector('sd-formula-field');
  if (!field) throw new Error('the line has no field');
  await waitUntil(
    () => field.shadowRoot?.activeElement?.localName === 'input',
    'the field has the focus',
  );
  return field;
}

afterEach(() => document.querySelectorAll('sd-session-giver').forEach((giver) => giver.remove()));

describe('sd-formula-bar', () => {
  it('says whose cell has the focus and what was typed in it', async () => {
    const { session } = await plainSession(3);
    const { grid, bar } = await countsOf(session);
    await press(grid, '12?', 'Enter', 'ArrowUp');
    await bar.updateComplete;
    expect(words(bar)).to.contain('A-001 · 3 May · chamber 1');
    expect(words(bar)).to.contain('12?');
    expect(words(bar)).to.contain('in doubt');
  });

  it('shows where an epg comes from: 31 eggs × 50 = 1,550, and what was weighed and poured', async () => {
    const { session } = await plainSession(3);
    const { grid, bar } = await countsOf(session);
    await press(grid, '14', 'Tab', '17', 'Enter', 'ArrowUp', 'ArrowRight', 'ArrowRight');
    await bar.updateComplete;
    expect(words(bar)).to.contain('= EPG(eggs, factor)');
    expect(words(bar)).to.contain('31 eggs × 50 = 1,550');
    expect(words(bar)).to.contain('2 of 2 chambers');
  });

  it('asks which lanes were counted of a grid with too many, and gives the focus back to their count', async () => {
    const { session } = await plainSession(3);
    const { grid, bar } = await countsOf(session);
    const lanes = () => bar.renderRoot.querySelector<HTMLSelectElement>('.lanes select');
    await press(grid, '7', 'Enter', 'ArrowUp');
    await bar.updateComplete;
    expect(lanes()).to.equal(null);
    await sendKeys({ type: 'TNTC' });
    await press(grid, 'Enter', 'ArrowUp');
    await waitUntil(() => lanes() !== null);
    const list = lanes();
    expect([...(list?.options ?? [])].map(({ text }) => text.trim())).to.deep.equal([
      'the whole grid',
      ...[1, 2, 3, 4, 5].map((n) => `${n} of 6 lanes`),
    ]);
    if (!list) throw new Error('no lanes');
    list.focus();
    list.value = '3/6';
    list.dispatchEvent(new Event('change'));
    await settled(grid);
    const part = columnByKey(session.notebook, 'part1')?.id ?? '';
    const reading = readingOf(session.notebook, session.openDay ?? '', 'A-001', part);
    expect(reading).to.deep.include({ kind: 'number', text: '3/6', value: 0.5 });
    expect(focused(grid)).to.equal('A-001 chamber1');
    await sendKeys({ type: '40' });
    await press(grid, 'Enter');
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal('40');
  });

  it('stays in the list of lanes while arrows choose, and goes back to their count on Enter', async () => {
    const { session } = await plainSession(3);
    const { grid, bar } = await countsOf(session);
    const lanes = () => bar.renderRoot.querySelector<HTMLSelectElement>('.lanes select');
    await sendKeys({ type: 'TNTC' });
    await press(grid, 'Enter', 'ArrowUp');
    await waitUntil(() => lanes() !== null);
    const part = columnByKey(session.notebook, 'part1')?.id ?? '';
    const typed = (): string | undefined =>
      readingOf(session.notebook, session.openDay ?? '', 'A-001', part)?.text;
    lanes()?.focus();
    for (const text of ['1/6', '2/6', '3/6']) {
      await sendKeys({ press: 'ArrowDown' });
      await waitUntil(() => typed() === text, text);
      await settled(grid);
      expect(bar.shadowRoot?.activeElement === lanes()).to.equal(true);
    }
    await sendKeys({ press: 'Enter' });
    await settled(grid);
    expect(focused(grid)).to.equal('A-001 chamber1');
    await sendKeys({ type: '40' });
    await press(grid, 'Enter');
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal('40');
    expect(typed()).to.equal('3/6');
  });

  it('changes a column’s formula once for all animals, and refuses a wrong one with its sentence', async () => {
    const { session } = await plainSession(3);
    const { grid, bar } = await countsOf(session);
    pressOn(cellAt(grid, 'A-002', 'epg'));
    await settled(grid);
    await bar.updateComplete;
    bar.renderRoot.querySelector<HTMLButtonElement>('.formula')?.click();
    await waitUntil(() => bar.renderRoot.querySelector('sd-formula-field'), 'the field opens');
    await settled(grid);
    await sendKeys({ press: 'Control+a' });
    await sendKeys({ type: 'epq' });
    await sendKeys({ press: 'Enter' });
    const field = bar.renderRoot.querySelector('sd-formula-field');
    if (!field) throw new Error('the line has no field');
    await says(field, wrongFormula.sentence);
    await new Promise((done) => setTimeout(done, 800));
    expect(allText(bar).split(wrongFormula.sentence)).to.have.length(2);
    expect(session.undoLabel).to.equal(null);
    await sendKeys({ press: 'Control+a' });
    await sendKeys({ type: 'eggs * 100' });
    await sendKeys({ press: 'Enter' });
    await waitUntil(() => session.undoLabel !== null, 'the formula is kept');
    const stored = columnByKey(session.notebook, 'epg')?.formula;
    expect(stored).to.equal('{c:c-eggs} * 100');
    await session.undo();
    expect(session.undoLabel).to.equal(null);
  });

  it('takes the name of a clicked cell, of another day’s cell, and of a column into the formula', async () => {
    const { session } = await demoSession();
    const { grid, bar } = await countsOf(session);
    pressOn(cellAt(grid, 'W-102', 'epg'));
    await settled(grid);
    await bar.updateComplete;
    bar.renderRoot.querySelector<HTMLButtonElement>('.formula')?.click();
    await waitUntil(() => bar.renderRoot.querySelector('sd-formula-field'), 'the field opens');
    await settled(grid);
    const field = bar.renderRoot.querySelector('sd-formula-field');
    const taken = async (cell: Element | null | undefined): Promise<string> => {
      await sendKeys({ press: 'Control+a' });
      pressOn(cell);
      await field?.updateComplete;
      return field?.value ?? '';
    };
    expect(await taken(cellAt(grid, 'W-105', 'chamber1'))).to.equal('chamber1');
    const days = grid.model.sheet.layout.days.map((day) => day.id);
    const before = days.at(-2) ?? '';
    const first = days[0] ?? '';
    expect(await taken(cellAt(grid, 'W-105', 'epg', before))).to.equal('previous.epg');
    expect(await taken(cellAt(grid, 'W-105', 'epg', first))).to.equal(`herd[${first}].epg`);
    const head = [...grid.renderRoot.querySelectorAll('[role="columnheader"]')].find((h) =>
      h.textContent.includes('weight'),
    );
    expect(await taken(head)).to.equal('herd.weight');
    await sendKeys({ press: 'Escape' });
    await sendKeys({ press: 'Escape' });
    await settled(grid);
    pressOn(cellAt(grid, 'W-105', 'chamber1'));
    await settled(grid);
    expect(grid.hand.active?.row).to.equal('a-W-105');
  });

  it('keeps the room of what a formula gives, so that nothing below moves when it is said', async () => {
    const { session } = await plainSession(3);
    const { grid, bar } = await countsOf(session);
    const field = await openFormula(grid, bar);
    await sendKeys({ press: 'Control+a' });
    await sendKeys({ type: 'eggs * 100' });
    expect(allText(field)).not.to.contain('gives');
    const top = grid.getBoundingClientRect().top;
    field.shadowRoot?.querySelector('input')?.blur();
    await says(field, 'gives');
    expect(grid.getBoundingClientRect().top).to.equal(top);
  });

  it('has a formula that was typed and not kept there again, whatever took the line away', async () => {
    const { session } = await plainSession(3);
    const { counts, grid, bar } = await countsOf(session);
    const field = await openFormula(grid, bar);
    const kept = field.value;
    await sendKeys({ press: 'Control+a' });
    await sendKeys({ type: 'eggs * 100' });
    // Another column takes the line away.
    grid.hand.go({ row: 1, column: 0 }, false);
    await waitUntil(() => bar.renderRoot.querySelector('sd-formula-field') === null);
    const again = await openFormula(grid, bar);
    expect(again.value).to.equal('eggs * 100');
    expect(words(bar)).to.contain('This was typed before and is not kept yet.');
    await sendKeys({ type: ' + 1' });
    // One animal's card takes the whole line away.
    const views = [...counts.renderRoot.querySelectorAll<HTMLButtonElement>('.views button')];
    views[1]?.click();
    await waitUntil(() => counts.renderRoot.querySelector('sd-card'));
    views[0]?.click();
    await waitUntil(() => counts.renderRoot.querySelector('sd-formula-bar'));
    const [nextGrid, nextBar] = [
      counts.renderRoot.querySelector('sd-grid'),
      counts.renderRoot.querySelector('sd-formula-bar'),
    ];
    if (!nextGrid || !nextBar) throw new Error('counts have no grid or no bar');
    nextGrid.focus();
    await settled(nextGrid);
    const third = await openFormula(nextGrid, nextBar);
    expect(third.value).to.equal('eggs * 100 + 1');
    const afresh = [...nextBar.renderRoot.querySelectorAll('button')].find((one) =>
      one.textContent.includes('Start afresh'),
    );
    afresh?.click();
    await nextBar.updateComplete;
    await third.updateComplete;
    expect(third.value).to.equal(kept);
    expect(words(nextBar)).not.to.contain('This was typed before');
    expect(session.undoLabel).to.equal(null);
  });

  it('has it there again in another session of the same notebook, as when another tab took over', async () => {
    const { session } = await plainSession(3);
    const { giver, grid, bar } = await countsOf(session);
    await openFormula(grid, bar);
    await sendKeys({ press: 'Control+a' });
    await sendKeys({ type: 'eggs * 100' });
    const next = sessionAgain(session);
    giver.session = next;
    await next.open(session.openDay ?? '');
    await settled(grid);
    grid.hand.go({ row: 1, column: 0 }, false);
    await waitUntil(() => bar.renderRoot.querySelector('sd-formula-field') === null);
    expect((await openFormula(grid, bar)).value).to.equal('eggs * 100');
    expect(words(bar)).to.contain('This was typed before and is not kept yet.');
  });

  it('keeps a formula in the line where another tab has taken the writing over', async () => {
    const { session } = await plainSession(3);
    const { giver, grid, bar } = await countsOf(session);
    const field = await openFormula(grid, bar);
    await sendKeys({ press: 'Control+a' });
    await sendKeys({ type: 'eggs * 100' });
    const next = sessionAgain(session, 'following');
    giver.session = next;
    await next.open(session.openDay ?? '');
    await settled(grid);
    field.shadowRoot?.querySelector('input')?.focus();
    await sendKeys({ press: 'Enter' });
    await settled(grid);
    expect(bar.renderRoot.querySelector('sd-formula-field')?.value).to.equal('eggs * 100');
  });

  it('leaves a formula as it was with Enter on that button, and has nothing left over then', async () => {
    const { session } = await plainSession(3);
    const { grid, bar } = await countsOf(session);
    const field = await openFormula(grid, bar);
    const kept = field.value;
    await sendKeys({ press: 'Control+a' });
    await sendKeys({ type: 'eggs * 100' });
    const leave = [...bar.renderRoot.querySelectorAll('button')].find((one) =>
      one.textContent.includes('Leave as it was'),
    );
    leave?.focus();
    await sendKeys({ press: 'Enter' });
    await waitUntil(() => bar.renderRoot.querySelector('sd-formula-field') === null);
    await settled(grid);
    expect(session.undoLabel).to.equal(null);
    expect((await openFormula(grid, bar)).value).to.equal(kept);
    expect(words(bar)).not.to.contain('This was typed before');
  });

  it('has no axe violations, shut and while a formula is written', async () => {
    const { session } = await plainSession(3);
    const { grid, bar, counts } = await countsOf(session);
    pressOn(cellAt(grid, 'A-002', 'epg'));
    await settled(grid);
    await bar.updateComplete;
    const check = async (): Promise<readonly string[]> => {
      const { violations } = await axe.run(counts, { rules: { region: { enabled: false } } });
      return violations.map((v) => `${v.id}: ${v.nodes[0]?.html}`);
    };
    expect(await check()).to.deep.equal([]);
    bar.renderRoot.querySelector<HTMLButtonElement>('.formula')?.click();
    await settled(grid);
    expect(await check()).to.deep.equal([]);
  });
});
