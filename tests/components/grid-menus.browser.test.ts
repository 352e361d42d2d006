import { expect } from '@open-wc/testing';
import type { SdGrid } from '../../components/sd-grid.ts';
import { columnByKey } from '../../src/notebook/read.ts';
import type { Session } from '../../src/session/session.ts';
import { plainSession, typedIn } from './fake-session.ts';
import { cellAt, gridOf, press, settled } from './grid-fixture.ts';

async function at(grid: SdGrid, tag: string, key: string): Promise<void> {
  cellAt(grid, tag, key).dispatchEvent(
    new MouseEvent('mousedown', { bubbles: true, composed: true, cancelable: true }),
  );
  await settled(grid);
}

async function conditionGrid(count = 5): Promise<{ grid: SdGrid; session: Session }> {
  const { session } = await plainSession(count);
  const column = columnByKey(session.notebook, 'condition')?.id ?? '';
  await session.dispatch({
    label: 'condition',
    source: 'typed',
    sets: [{ path: ['columns', column, 'hidden'], value: false }],
  });
  const grid = await gridOf(session, 1600);
  grid.focus();
  await settled(grid);
  await at(grid, 'A-001', 'condition');
  return { grid, session };
}

function list(grid: SdGrid): HTMLElement | null {
  return grid.renderRoot.querySelector('[role="listbox"]');
}

function marked(grid: SdGrid): string | undefined {
  return list(grid)?.querySelector('[aria-selected="true"]')?.textContent.trim();
}

async function scrolledBy(grid: SdGrid, pixels: number): Promise<void> {
  const scroller = grid.renderRoot.querySelector('.scroller');
  if (scroller) scroller.scrollTop += pixels;
  for (let frame = 0; frame < 2; frame += 1)
    await new Promise((done) => requestAnimationFrame(done));
  await settled(grid);
}

describe('sd-grid: the list of choices of a cell', () => {
  it('marks none for a blank cell, so that Enter types nothing, and begins at either end', async () => {
    const { grid, session } = await conditionGrid();
    await press(grid, 'Alt+ArrowDown');
    expect(marked(grid)).to.equal(undefined);
    expect(grid.editor.input.hasAttribute('aria-activedescendant')).to.equal(false);
    await press(grid, 'Enter');
    expect(list(grid)).to.equal(null);
    expect(typedIn(session, 'A-001', 'condition')).to.equal(undefined);
    await press(grid, 'Alt+ArrowDown', 'ArrowDown');
    expect(marked(grid)).to.match(/^1\b/);
    await press(grid, 'Escape', 'Alt+ArrowDown', 'ArrowUp');
    expect(marked(grid)).to.equal('blank');
  });

  it('marks none for what is in no list, and leaves it as it is with Enter', async () => {
    const { grid, session } = await conditionGrid();
    await press(grid, 'thin', 'Enter', 'ArrowUp', 'Alt+ArrowDown');
    expect(marked(grid)).to.equal(undefined);
    await press(grid, 'Enter');
    expect(typedIn(session, 'A-001', 'condition')).to.equal('thin');
  });

  it('marks a score by its value, however it was typed and whichever decimal mark holds now', async () => {
    const { grid, session } = await conditionGrid();
    await press(grid, '3.50', 'Enter', 'ArrowUp');
    await session.dispatch({
      label: 'mark',
      source: 'typed',
      sets: [{ path: ['about', 'notebook', 'decimalMark'], value: ',' }],
    });
    await press(grid, 'Alt+ArrowDown');
    expect(marked(grid)).to.match(/^3,5\b/);
  });

  it('stays at its cell when the grid is scrolled, and closes once that is out of sight', async () => {
    const { grid } = await conditionGrid(60);
    await at(grid, 'A-005', 'jaw');
    await press(grid, 'Alt+ArrowDown');
    const gap = (): number =>
      (list(grid)?.getBoundingClientRect().top ?? 0) -
      (grid.editor.cell?.getBoundingClientRect().bottom ?? 0);
    const before = gap();
    await scrolledBy(grid, 60);
    expect(gap()).to.be.closeTo(before, 1);
    await scrolledBy(grid, 1500);
    expect(list(grid)).to.equal(null);
  });

  it('opens the lanes of a grid at the second press of a mouse, and says the share counted below the epg', async () => {
    const { session } = await plainSession(3);
    const part = columnByKey(session.notebook, 'part1')?.id ?? '';
    const edit = { label: 'part', source: 'typed' } as const;
    await session.dispatch({
      ...edit,
      sets: [{ path: ['columns', part, 'hidden'], value: false }],
    });
    const grid = await gridOf(session, 1600);
    const press2 = async (key: string): Promise<void> => {
      const cell = cellAt(grid, 'A-001', key);
      for (const type of ['mousedown', 'mouseup', 'click'])
        cell.dispatchEvent(
          new MouseEvent(type, { bubbles: true, composed: true, cancelable: true }),
        );
      await settled(grid);
    };
    await press2('part1');
    expect(list(grid)).to.equal(null);
    await press2('part1');
    const lanes = [...(list(grid)?.querySelectorAll('[role="option"]') ?? [])];
    expect(lanes.map((option) => option.textContent?.trim())).to.include('2 of 6 lanes');
    await press(grid, 'ArrowDown', 'ArrowDown', 'Enter');
    expect(typedIn(session, 'A-001', 'part1')).to.equal('2/6');
    await at(grid, 'A-001', 'chamber1');
    await press(grid, '4', 'Enter');
    await at(grid, 'A-001', 'chamber2');
    await press(grid, '6', 'Enter');
    const epg = cellAt(grid, 'A-001', 'epg');
    // 2 of 6 lanes of one grid and the whole other: (1/3 + 1) of 2.
    expect(epg.querySelector('small')?.textContent).to.equal('67 % counted');
    expect(epg.title).to.contain('1.33 of 2 chambers');
    const note = epg.querySelector('small');
    expect(note?.scrollWidth).to.be.at.most(note?.clientWidth ?? 0);
  });
});
