import { expect } from '@open-wc/testing';
import type { SdGrid } from '../../components/sd-grid.ts';
import { columnByKey, readingOf } from '../../src/notebook/read.ts';
import type { Session } from '../../src/session/session.ts';
import { demoSession, plainSession, typedIn } from './fake-session.ts';
import { cellAt, copied, focused, gridOf, paste, press, seen, settled } from './grid-fixture.ts';

async function at(grid: SdGrid, tag: string, key: string, day?: string): Promise<void> {
  cellAt(grid, tag, key, day).dispatchEvent(
    new MouseEvent('mousedown', { bubbles: true, composed: true, cancelable: true }),
  );
  await settled(grid);
}

async function plainGrid(): Promise<{ grid: SdGrid; session: Session }> {
  const { session } = await plainSession(5);
  const grid = await gridOf(session, 1600);
  grid.focus();
  await settled(grid);
  return { grid, session };
}

/** What holds of the whole notebook: its decimal mark, its unit of weight. */
async function setting(session: Session, key: string, value: string): Promise<void> {
  const path = ['about', 'notebook', key] as const;
  await session.dispatch({ label: key, source: 'typed', sets: [{ path, value }] });
}

/** Shows a column that the template hides. */
async function unhide(session: Session, key: string): Promise<void> {
  const path = ['columns', columnByKey(session.notebook, key)?.id ?? '', 'hidden'] as const;
  await session.dispatch({ label: key, source: 'typed', sets: [{ path, value: false }] });
}

function stored(session: Session, row: string, key: string): unknown {
  const column = columnByKey(session.notebook, key);
  return readingOf(session.notebook, session.openDay ?? '', row, column?.id ?? '');
}

describe('sd-grid: the clipboard and the editor under another decimal mark or unit', () => {
  it('cuts and pastes a weight with the unit it was typed in', async () => {
    const { grid, session } = await plainGrid();
    await unhide(session, 'weight');
    await settled(grid);
    await at(grid, 'A-001', 'weight');
    await press(grid, '73.5', 'Enter');
    await setting(session, 'weightUnit', 'lb');
    await at(grid, 'A-001', 'weight');
    const text = copied(grid, 'cut');
    expect(text).to.equal('73.5 kg');
    await settled(grid);
    expect(stored(session, 'A-001', 'weight')).to.equal(undefined);
    await at(grid, 'A-002', 'weight');
    await paste(grid, text);
    expect(stored(session, 'A-002', 'weight')).to.include({ value: 73.5, unit: 'kg' });
  });

  it('copies, pastes and edits a decimal typed with the mark that held before', async () => {
    const { grid, session } = await plainGrid();
    await unhide(session, 'condition');
    await settled(grid);
    await at(grid, 'A-001', 'condition');
    await press(grid, '3.5', 'Enter');
    await setting(session, 'decimalMark', ',');
    await at(grid, 'A-001', 'condition');
    expect(copied(grid)).to.equal('3,5');
    await at(grid, 'A-002', 'condition');
    await paste(grid, '3,5');
    expect(stored(session, 'A-002', 'condition')).to.include({ kind: 'number', value: 3.5 });
    await at(grid, 'A-001', 'condition');
    await press(grid, 'F2');
    expect(grid.editor.text).to.equal('3,5');
    await press(grid, 'End', 'Backspace', '0', 'Enter');
    expect(stored(session, 'A-001', 'condition')).to.include({ text: '3,0', value: 3 });
  });

  it('leaves what is stored as it was typed where the same is typed or pasted again', async () => {
    const { grid, session } = await plainGrid();
    await unhide(session, 'condition');
    await settled(grid);
    await at(grid, 'A-001', 'condition');
    await press(grid, '3.5', 'Enter');
    await setting(session, 'decimalMark', ',');
    const label = session.undoLabel;
    await at(grid, 'A-001', 'condition');
    await press(grid, 'F2', 'Enter');
    await at(grid, 'A-001', 'condition');
    await paste(grid, copied(grid));
    await press(grid, 'F2', 'Control+a', '3,5', 'Enter');
    expect(typedIn(session, 'A-001', 'condition')).to.equal('3.5');
    expect(session.undoLabel).to.equal(label);
    expect(focused(grid)).to.equal('A-002 condition');
  });
});

describe('sd-grid: words pasted', () => {
  it('keep each what was said: one status of a cup, two that differ both, and no word is dropped', async () => {
    const { grid, session } = await plainGrid();
    await at(grid, 'A-001', 'status');
    await paste(grid, 'spoiled\tns\t5\n\tns\t5\npooled\tpooled\t5');
    expect(typedIn(session, 'A-001', 'status')).to.equal('spoiled');
    expect(stored(session, 'A-001', 'chamber1')).to.include({ kind: 'fault', text: 'ns' });
    expect(typedIn(session, 'A-002', 'status')).to.equal('not sampled');
    expect(typedIn(session, 'A-003', 'status')).to.equal('pooled');
    expect(typedIn(session, 'A-003', 'chamber1')).to.equal(undefined);
    // 3 statuses, 3 counts of chamber 2, and the word that is marked.
    expect(session.undoLabel).to.equal('pasting of 7 cells');
  });

  it('keep a dash in a note, which means nothing there but itself', async () => {
    const { grid, session } = await plainGrid();
    await at(grid, 'A-001', 'note');
    await paste(grid, '–');
    expect(typedIn(session, 'A-001', 'note')).to.equal('–');
    await at(grid, 'A-001', 'chamber1');
    await press(grid, '7', 'Enter', 'ArrowUp');
    await paste(grid, '–');
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal(undefined);
  });
});

describe('sd-grid: figures of other days on the clipboard', () => {
  it('have all their digits and no marks between thousands', async () => {
    const { session } = await demoSession();
    const grid = await gridOf(session, 1600, 2200);
    const large = [...grid.renderRoot.querySelectorAll<HTMLElement>('.cell.past')].find((cell) =>
      /^\d,\d{3}$/.test(seen(cell)),
    );
    if (!large) throw new Error('No figure of a thousand or more is drawn.');
    await at(grid, large.dataset['animal'] ?? '', 'epg', large.dataset['day']);
    expect(copied(grid)).to.equal(seen(large).replace(',', ''));
  });
});
