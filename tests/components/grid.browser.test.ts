import { expect } from '@open-wc/testing';
import axe from 'axe-core';
import { noFilter } from '../../components/grid-rows.ts';
import type { SdGrid } from '../../components/sd-grid.ts';
import type { Session } from '../../src/session/session.ts';
import { demoSession, plainSession, typedIn } from './fake-session.ts';
import { cellAt, focused, gridOf, press, seen, settled } from './grid-fixture.ts';

async function at(grid: SdGrid, tag: string, key: string): Promise<void> {
  const cell = cellAt(grid, tag, key);
  cell.dispatchEvent(
    new MouseEvent('mousedown', { bubbles: true, composed: true, cancelable: true }),
  );
  await settled(grid);
}

async function plainGrid(
  count = 20,
  days?: readonly string[],
): Promise<{ grid: SdGrid; session: Session }> {
  const { session } = await plainSession(count, days);
  const grid = await gridOf(session);
  grid.focus();
  await settled(grid);
  return { grid, session };
}

/** Waits until a scrolling has been heard of. */
async function scrolled(grid: SdGrid): Promise<void> {
  for (let frame = 0; frame < 2; frame += 1)
    await new Promise((done) => requestAnimationFrame(done));
  await settled(grid);
}

describe('sd-grid: what it shows', () => {
  it('has a row for each animal present and a cell for each column, named by tag, day and key', async () => {
    const { session } = await demoSession();
    const grid = await gridOf(session);
    const cell = cellAt(grid, 'W-102', 'chamber1');
    expect(cell.dataset).to.include({ animal: 'W-102', day: session.openDay, column: 'chamber1' });
    expect(seen(cell)).to.equal('9');
    expect(grid.renderRoot.querySelectorAll('[role="columnheader"][data-animal]').length).to.equal(
      0,
    );
  });

  it('says a missing count with a dash, never with 0', async () => {
    const { grid } = await plainGrid();
    const cell = cellAt(grid, 'A-001', 'chamber1');
    expect(seen(cell)).to.equal('–');
    expect(cell.getAttribute('aria-label')).to.equal('not counted');
    expect(seen(cellAt(grid, 'A-001', 'epg'))).to.equal('–');
  });

  it('shows other days by their epg alone, and asks the engine once for each', async () => {
    const { session, engine } = await demoSession();
    const grid = await gridOf(session);
    await settled(grid);
    // W-102 had 5 and 9 eggs on the second day: 14 eggs at a factor of 50 (common practice).
    const day = '2026-06-07';
    const days = new Set(engine.asked.map((asked) => asked.split(' ')[0]));
    expect(engine.asked.length).to.equal(days.size);
    const past = [...grid.renderRoot.querySelectorAll<HTMLElement>('[data-animal="W-102"].past')];
    expect(past.map((cell) => cell.dataset['column'])).to.deep.equal(['epg', 'epg', 'epg']);
    expect(past.map(seen)).to.deep.equal(['150', '700', '850']);
    expect(day).to.match(/^2026/);
  });

  it('strikes out counts of a spoiled cup and gives it no epg', async () => {
    const { session } = await demoSession();
    const grid = await gridOf(session);
    expect(cellAt(grid, 'W-107', 'chamber1').querySelector('s')?.textContent).to.equal('4');
    expect(seen(cellAt(grid, 'W-107', 'epg'))).to.equal('– spoiled');
  });

  it('marks one of two chambers, and too many to count, in words', async () => {
    const { session } = await demoSession();
    const grid = await gridOf(session, 1100, 2200);
    // One egg in one chamber: 1 × 100, where two chambers would give a factor of 50.
    expect(seen(cellAt(grid, 'L-003', 'epg'))).to.equal('100 1 of 2 chambers');
    expect(seen(cellAt(grid, 'G-013', 'epg'))).to.equal('too many');
  });

  it('shows `>40` as typed and its epg as "at least": 41 eggs × 100 in one of two chambers', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, '>40', 'Enter');
    expect(seen(cellAt(grid, 'A-001', 'chamber1'))).to.equal('>40');
    expect(seen(cellAt(grid, 'A-001', 'epg'))).to.equal('at least 4,100');
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal('>40');
  });

  it('has no axe violations, in the light and with every odd cup of the demo', async () => {
    const { session } = await demoSession();
    const grid = await gridOf(session, 1100, 2200);
    const { violations } = await axe.run(grid, { rules: { region: { enabled: false } } });
    expect(violations.map((v) => `${v.id}: ${v.nodes[0]?.html}`)).to.deep.equal([]);
  });
});

describe('sd-grid: 200 animals', () => {
  it('scrolled to the 150th, says 201 rows and that this one is the 151st', async () => {
    const { grid } = await plainGrid(200);
    const scroller = grid.renderRoot.querySelector('.scroller');
    if (!scroller) throw new Error('no scroller');
    scroller.scrollTop = 149 * grid.rowHeight;
    await new Promise((done) => requestAnimationFrame(done));
    await settled(grid);
    const inner = grid.renderRoot.querySelector('[role="grid"]');
    expect(inner?.getAttribute('aria-rowcount')).to.equal('201');
    const row = cellAt(grid, 'A-150', 'chamber1').closest('[role="row"]');
    expect(row?.getAttribute('aria-rowindex')).to.equal('151');
    expect(
      grid.renderRoot
        .querySelector('[role="columnheader"]')
        ?.closest('[role="row"]')
        ?.getAttribute('aria-rowindex'),
    ).to.equal('1');
    expect(grid.renderRoot.querySelectorAll('.row').length).to.be.below(60);
  });

  it('brings a cell that was scrolled away back below the headings before it changes', async () => {
    const { grid } = await plainGrid(200);
    const scroller = grid.renderRoot.querySelector('.scroller');
    if (!scroller) throw new Error('no scroller');
    const isWhole = (): boolean => {
      const cell = grid.editor.cell?.getBoundingClientRect();
      const head = grid.renderRoot.querySelector('.head')?.getBoundingClientRect();
      if (!cell || !head) return false;
      return cell.top >= head.bottom - 1 && cell.bottom <= scroller.getBoundingClientRect().bottom;
    };
    for (const key of ['4', 'F2', 'Delete']) {
      scroller.scrollTop = 2000;
      await scrolled(grid);
      expect(isWhole(), `before ${key}`).to.equal(false);
      await press(grid, key);
      await scrolled(grid);
      expect(isWhole(), `after ${key}`).to.equal(true);
      await press(grid, 'Escape');
    }
  });

  it('takes the focus to an animal whose row is not drawn yet, so that nothing typed is lost', async () => {
    const { grid } = await plainGrid(200);
    const elsewhere = document.createElement('button');
    document.body.append(elsewhere);
    elsewhere.focus();
    grid.showAnimal('A-150');
    await settled(grid);
    elsewhere.remove();
    expect(focused(grid)).to.equal('A-150 chamber1');
  });

  it('does not take the focus back from elsewhere when rows come back', async () => {
    const { grid } = await plainGrid(3);
    grid.model.filterBy({ ...grid.model.filter, group: 'nobody is in this group' });
    await settled(grid);
    expect(grid.renderRoot.querySelectorAll('.row').length).to.equal(0);
    const elsewhere = document.createElement('button');
    document.body.append(elsewhere);
    elsewhere.focus();
    grid.model.filterBy(noFilter);
    await settled(grid);
    expect(grid.renderRoot.querySelectorAll('.row').length).to.equal(3);
    expect(document.activeElement === elsewhere).to.equal(true);
    elsewhere.remove();
  });

  it('keeps the focus on its animal when that is scrolled away; an arrow brings it back', async () => {
    const { grid } = await plainGrid(200);
    const scroller = grid.renderRoot.querySelector('.scroller');
    if (!scroller) throw new Error('no scroller');
    scroller.scrollTop = 5000;
    await new Promise((done) => requestAnimationFrame(done));
    await settled(grid);
    expect(focused(grid)).to.equal('A-001 chamber1');
    await press(grid, 'ArrowDown');
    expect(focused(grid)).to.equal('A-002 chamber1');
    expect(scroller.scrollTop).to.be.at.most(grid.rowHeight);
  });

  it('moves by a screen less one row with Page Down, and back with Page Up', async () => {
    const { grid } = await plainGrid(200);
    const page = grid.page;
    await press(grid, 'PageDown');
    expect(focused(grid)).to.equal(`A-${String(page).padStart(3, '0')} chamber1`);
    await press(grid, 'PageUp');
    expect(focused(grid)).to.equal('A-001 chamber1');
  });
});

describe('sd-grid: keys', () => {
  it('moves with arrows and does not wrap', async () => {
    const { grid } = await plainGrid();
    await press(grid, 'ArrowUp');
    expect(focused(grid)).to.equal('A-001 chamber1');
    await press(grid, 'ArrowRight', 'ArrowDown', 'ArrowLeft', 'ArrowLeft', 'ArrowLeft');
    expect(focused(grid)).to.equal('A-002 status');
  });

  it('goes to row ends with Home and End, to the corners with Control', async () => {
    const { grid } = await plainGrid();
    await press(grid, 'ArrowDown', 'End');
    expect(focused(grid)).to.equal('A-002 note');
    await press(grid, 'Home');
    expect(focused(grid)).to.equal('A-002 status');
    await press(grid, 'Control+End');
    expect(focused(grid)).to.equal('A-020 note');
    await press(grid, 'Control+Home');
    expect(focused(grid)).to.equal('A-001 status');
  });

  it('types over what stands there, and Enter takes it and goes down', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, '14', 'Enter');
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal('14');
    expect(focused(grid)).to.equal('A-002 chamber1');
    await press(grid, 'ArrowUp', '9', 'Enter');
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal('9');
  });

  it('opens what stands there with F2 or Enter, where arrows are the text’s', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, '14', 'Enter', 'ArrowUp', 'F2', 'End', '5', 'ArrowLeft', 'Enter');
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal('145');
  });

  it('gives the old value back with Escape: `12x` leaves no trace', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, '7', 'Enter', 'ArrowUp', '12x', 'Escape');
    expect(seen(cellAt(grid, 'A-001', 'chamber1'))).to.equal('7');
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal('7');
    expect(focused(grid)).to.equal('A-001 chamber1');
  });

  it('goes right with Tab, and Enter goes under where the Tabs began', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, '14', 'Tab', '17', 'Enter');
    expect(typedIn(session, 'A-001', 'chamber2')).to.equal('17');
    expect(focused(grid)).to.equal('A-002 chamber1');
    expect(seen(cellAt(grid, 'A-001', 'epg'))).to.equal('1,550');
  });

  it('leaves out worked-out columns in a run of Tabs, goes left and up with Shift', async () => {
    const { grid } = await plainGrid();
    await press(grid, 'ArrowRight', 'ArrowDown', '3', 'Tab');
    expect(focused(grid)).to.equal('A-002 eyelid');
    await press(grid, '2', 'Shift+Tab');
    expect(focused(grid)).to.equal('A-002 chamber2');
    await press(grid, '4', 'Shift+Enter');
    expect(focused(grid)).to.equal('A-001 chamber2');
  });

  it('leaves the grid with Tab when nothing is being typed', async () => {
    const { grid } = await plainGrid();
    const after = document.createElement('button');
    grid.after(after);
    await press(grid, 'Tab');
    expect(focused(grid)).to.equal('');
    expect(document.activeElement).to.equal(after);
  });

  it('clears with Delete, takes back with Control+Z, does again with Control+Y', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, '14', 'Enter', 'ArrowUp', 'Delete');
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal(undefined);
    await press(grid, 'Control+z');
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal('14');
    await press(grid, 'Control+y');
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal(undefined);
    await press(grid, 'Control+z', 'Control+z');
    expect(session.undoLabel).to.equal(null);
    await press(grid, 'Control+Shift+Z');
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal('14');
  });

  it('leaves no step of undo for typing the same again', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, '14', 'Enter', 'ArrowUp', '14', 'Enter', 'ArrowUp', 'F2', 'Enter');
    await session.undo();
    expect(session.undoLabel).to.equal(null);
  });

  it('finds the next empty count with Control and an arrow', async () => {
    const { grid } = await plainGrid();
    await press(grid, '1', 'Enter', '2', 'Enter', '3', 'Enter', 'Control+Home', 'ArrowRight');
    expect(focused(grid)).to.equal('A-001 chamber1');
    await press(grid, 'Control+ArrowDown');
    expect(focused(grid)).to.equal('A-004 chamber1');
  });

  it('fills the selection down with Control+D, as one step', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, '5', 'Enter', 'ArrowUp', 'Shift+ArrowDown', 'Shift+ArrowDown', 'Control+d');
    expect(['A-002', 'A-003'].map((tag) => typedIn(session, tag, 'chamber1'))).to.deep.equal([
      '5',
      '5',
    ]);
    await session.undo();
    expect(typedIn(session, 'A-003', 'chamber1')).to.equal(undefined);
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal('5');
  });

  it('selects rows, columns and all, and says so to screen readers', async () => {
    const { grid } = await plainGrid(6);
    const selected = (): number =>
      grid.renderRoot.querySelectorAll('[aria-selected="true"]').length;
    const columns = grid.renderRoot.querySelectorAll('[role="columnheader"]').length - 1;
    await press(grid, 'Shift+Space');
    expect(selected()).to.equal(columns);
    await press(grid, 'ArrowDown', 'Control+Space');
    expect(selected()).to.equal(6);
    await press(grid, 'Control+a');
    expect(selected()).to.equal(6 * columns);
    await press(grid, 'Escape');
    expect(selected()).to.equal(0);
  });
});

describe('sd-grid: typing', () => {
  it('keeps what cannot be read, marks it, and gives the reason', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, '12?', 'Enter', 'ArrowUp');
    const cell = cellAt(grid, 'A-001', 'chamber1');
    expect(seen(cell)).to.equal('12?');
    expect(cell.querySelector('.wrong')).to.not.equal(null);
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal('12?');
    const id = grid.shadowRoot?.activeElement?.getAttribute('aria-describedby') ?? '';
    expect(grid.renderRoot.querySelector(`#${id}`)?.textContent).to.contain('in doubt');
    expect(seen(cellAt(grid, 'A-001', 'epg'))).to.equal('–');
  });

  it('says "chamber 1 only so far" while the row is typed, and counts it once the row is left', async () => {
    const { grid } = await plainGrid();
    await press(grid, '5', 'Tab');
    expect(seen(cellAt(grid, 'A-001', 'epg'))).to.equal('– chamber 1 only so far');
    await press(grid, 'ArrowDown');
    expect(seen(cellAt(grid, 'A-001', 'epg'))).to.equal('500 1 of 2 chambers');
  });

  it('does not type into a column that is worked out, and says why', async () => {
    const { grid, session } = await plainGrid();
    await at(grid, 'A-001', 'epg');
    await press(grid, '5');
    await settled(grid);
    expect(grid.renderRoot.querySelector('[role="status"]')?.textContent).to.contain('worked out');
    expect(typedIn(session, 'A-001', 'epg')).to.equal(undefined);
    expect(cellAt(grid, 'A-001', 'epg').getAttribute('aria-readonly')).to.equal('true');
  });

  it('begins by input alone, as a phone’s keyboard sends it', async () => {
    const { grid, session } = await plainGrid();
    const input = grid.shadowRoot?.activeElement as HTMLInputElement;
    expect(input.inputMode).to.equal('numeric');
    expect(input.type).to.equal('text');
    // No keydown at all: what soft keyboards give is beforeinput, then input.
    document.execCommand('insertText', false, '23');
    await settled(grid);
    expect(input.value).to.equal('23');
    input.dispatchEvent(
      new InputEvent('beforeinput', {
        inputType: 'insertLineBreak',
        bubbles: true,
        cancelable: true,
      }),
    );
    await settled(grid);
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal('23');
    expect(focused(grid)).to.equal('A-002 chamber1');
  });

  it('keeps what is being typed when the grid is left', async () => {
    const { grid, session } = await plainGrid();
    const other = document.createElement('button');
    grid.after(other);
    await press(grid, '31');
    other.focus();
    await settled(grid);
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal('31');
    expect(session.typingRow).to.equal(null);
  });

  it('takes a status word typed in the place of a count as the cup’s status', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, 'not sampled', 'Enter');
    expect(typedIn(session, 'A-001', 'status')).to.equal('not sampled');
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal(undefined);
  });

  it('takes a status by its word, and offers the words with Alt+Down', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, 'ArrowLeft', 'spoilt', 'Enter');
    expect(typedIn(session, 'A-001', 'status')).to.equal('spoiled');
    await press(grid, 'Alt+ArrowDown', 'ArrowDown', 'ArrowDown', 'Enter');
    expect(typedIn(session, 'A-002', 'status')).to.equal('not sampled');
    expect(focused(grid)).to.equal('A-002 status');
  });
});
