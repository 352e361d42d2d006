import { expect, waitUntil } from '@open-wc/testing';
import { sendKeys } from '@web/test-runner-commands';
import { addAnimals } from '../../src/notebook/edit-animals.ts';
import { changeColumn } from '../../src/notebook/edit-records.ts';
import { isFault } from '../../shared/value.ts';
import { columnByKey } from '../../src/notebook/read.ts';
import { announcePause } from '../../components/announcer.ts';
import { herdLists } from '../../components/herd-lists.ts';
import type { SdGrid } from '../../components/sd-grid.ts';
import type { Session } from '../../src/session/session.ts';
import { demoSession, plainSession, typedIn } from './fake-session.ts';
import { openSession } from './open-notebook.ts';
import {
  cellAt,
  copied,
  focused,
  gridOf,
  paste,
  plainGrid,
  press,
  seen,
  settled,
} from './grid-fixture.ts';

function tags(grid: SdGrid): readonly string[] {
  return [...grid.renderRoot.querySelectorAll('.row .tag')].map((tag) => tag.textContent);
}

async function undoAll(session: Session): Promise<number> {
  let steps = 0;
  while (session.undoLabel !== null) {
    await session.undo();
    steps += 1;
  }
  return steps;
}

describe('sd-grid: blocks on the clipboard', () => {
  it('pastes rows and columns of a spreadsheet as one step', async () => {
    const { grid, session } = await plainGrid();
    await paste(grid, '2\t1\r\n0\t0\r\n5\t7\r\n');
    expect(typedIn(session, 'A-003', 'chamber2')).to.equal('7');
    expect(seen(cellAt(grid, 'A-003', 'epg'))).to.equal('600');
    expect(await undoAll(session)).to.equal(1);
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal(undefined);
  });

  it('keeps a cell with a lone quote as it is, marks it, and goes on with the next row', async () => {
    const { grid, session } = await plainGrid();
    await paste(grid, '4\t"5\n6\t7\n');
    expect(typedIn(session, 'A-001', 'chamber2')).to.equal('"5');
    expect(cellAt(grid, 'A-001', 'chamber2').querySelector('.wrong')).to.not.equal(null);
    expect(typedIn(session, 'A-002', 'chamber2')).to.equal('7');
    expect(await undoAll(session)).to.equal(1);
  });

  it('asks before a paste that reaches over the edge, and puts in nothing until told', async () => {
    const { grid, session } = await plainGrid(3);
    await paste(grid, '1\n2\n3\n4\n5');
    const dialog = grid.renderRoot.querySelector<HTMLDialogElement>('dialog.too-large');
    expect(dialog?.open).to.equal(true);
    expect(dialog?.textContent).to.contain('2 more rows than are left below');
    expect(session.undoLabel).to.equal(null);
    dialog?.querySelector<HTMLButtonElement>('button[value="fits"]')?.click();
    await waitUntil(() => session.undoLabel !== null, 'the rows that fit are put in');
    expect(typedIn(session, 'A-003', 'chamber1')).to.equal('3');
    expect(await undoAll(session)).to.equal(1);
  });

  it('passes over columns that are worked out, and pastes one text into a whole selection', async () => {
    const { grid, session } = await plainGrid();
    await paste(grid, '1\t2\t999\t3');
    expect(typedIn(session, 'A-001', 'epg')).to.equal(undefined);
    expect(typedIn(session, 'A-001', 'eyelid')).to.equal('3');
    await press(grid, 'ArrowDown', 'Shift+ArrowDown', 'Shift+ArrowDown');
    await paste(grid, '8');
    expect(['A-002', 'A-003', 'A-004'].map((t) => typedIn(session, t, 'chamber1'))).to.deep.equal([
      '8',
      '8',
      '8',
    ]);
  });

  it('copies what was typed as typed and figures with all digits; cut clears as well', async () => {
    const { grid, session } = await plainGrid();
    await paste(grid, '14\t17\n>40\t');
    await press(grid, 'Control+Home', 'ArrowRight', 'Shift+ArrowRight', 'Shift+ArrowRight');
    expect(copied(grid)).to.equal('14\t17\t1550');
    await press(grid, 'ArrowLeft', 'ArrowLeft', 'ArrowDown');
    expect(copied(grid, 'cut')).to.equal('>40');
    await settled(grid);
    expect(typedIn(session, 'A-002', 'chamber1')).to.equal(undefined);
  });

  it('copies and pastes by the keys themselves', async () => {
    const { grid, session } = await plainGrid();
    await sendKeys({ type: '23' });
    await press(grid, 'Enter', 'ArrowUp', 'Control+c', 'ArrowDown', 'ArrowDown', 'Control+v');
    expect(typedIn(session, 'A-003', 'chamber1')).to.equal('23');
  });
});

describe('sd-grid: what is selected', () => {
  it('shows on figures that are worked out, and those shaded, as on cells typed into', async () => {
    const { session } = await demoSession();
    const grid = await gridOf(session, 1600, 2200);
    grid.focus();
    await settled(grid);
    const look = (selector: string): string[] => {
      const cells = grid.renderRoot.querySelectorAll(`.row .cell${selector}`);
      const looks = [...cells].map((cell) => {
        const { backgroundImage, boxShadow } = getComputedStyle(cell);
        return `${backgroundImage} ${boxShadow}`;
      });
      return [...new Set(looks)];
    };
    const kinds = ['.worked:not(.heat)', '.worked.heat', '.past.heat', ':not(.worked, .past)'];
    for (const kind of kinds) expect(look(kind), kind).to.deep.equal(['none none']);
    await press(grid, 'Control+a');
    for (const kind of kinds) {
      expect(look(kind).length, kind).to.equal(1);
      expect(look(kind), kind).to.not.include('none none');
    }
  });
});

describe('sd-grid: a selection that is dragged', () => {
  // A frame may take long where other programs run; that is no matter of these tests.
  const slow = { timeout: 15_000 };

  function mouse(target: EventTarget, type: string, at: { x: number; y: number }): void {
    const buttons = type === 'mouseup' ? 0 : 1;
    const init = { clientX: at.x, clientY: at.y, buttons, bubbles: true, composed: true };
    target.dispatchEvent(new MouseEvent(type, { ...init, cancelable: true }));
  }

  it('goes on below and above what is in sight while the button is held there', async () => {
    const { session } = await plainSession(60);
    const grid = await gridOf(session, 1100, 400);
    const scroller = grid.renderRoot.querySelector('.scroller');
    if (!scroller) throw new Error('no scroller');
    const box = scroller.getBoundingClientRect();
    const x = cellAt(grid, 'A-002', 'chamber1').getBoundingClientRect().left + 5;
    mouse(cellAt(grid, 'A-002', 'chamber1'), 'mousedown', { x, y: box.top + 150 });
    mouse(window, 'mousemove', { x, y: box.bottom + 30 });
    await waitUntil(
      () => (grid.hand.block?.rows[1] ?? 0) >= 15,
      'the selection goes on below',
      slow,
    );
    expect(grid.hand.block?.rows[0]).to.equal(1);
    await settled(grid);
    expect(scroller.scrollTop).to.be.greaterThan(100);
    mouse(window, 'mousemove', { x, y: box.top + 20 });
    await waitUntil(() => grid.hand.block?.rows[0] === 0, 'the selection goes on above', slow);
    await waitUntil(() => scroller.scrollTop === 0, 'the first rows are in sight', slow);
    expect(grid.hand.block).to.deep.equal({ rows: [0, 1], columns: [1, 1] });
    mouse(window, 'mousemove', { x, y: box.bottom + 30 });
    mouse(window, 'mouseup', { x, y: box.bottom + 30 });
    await new Promise((done) => setTimeout(done, 200));
    expect(grid.hand.block?.rows[1]).to.equal(1);
  });
});

describe('sd-grid: find, sort and filter', () => {
  it('finds by a part of tag or name with Control+F, and Escape goes back to that row', async () => {
    const { session } = await demoSession();
    const grid = await gridOf(session);
    grid.focus();
    await settled(grid);
    await press(grid, 'Control+f');
    await sendKeys({ type: 'hazel' });
    await settled(grid);
    expect(cellAt(grid, 'G-013', 'chamber1').hasAttribute('data-at')).to.equal(true);
    await press(grid, 'Escape');
    expect(focused(grid)).to.equal('G-013 chamber1');
  });

  it('sorts by epg with what is missing last, and too many to count first', async () => {
    const { session } = await demoSession();
    const grid = await gridOf(session, 1100, 2200);
    const epg = columnByKey(session.notebook, 'epg');
    grid.model.sortBy({ by: { column: epg?.id ?? '' }, isDescending: true });
    await settled(grid);
    // Eggs of the demo's last day: L-016 15 + 12 = 27, L-018 12 + 11 = 23, L-006 7 + 9 = 16.
    expect(tags(grid).slice(0, 3)).to.deep.equal(['G-013', 'L-016', 'L-018']);
    const missing = tags(grid).filter((tag) => seen(cellAt(grid, tag, 'epg')).startsWith('–'));
    expect(tags(grid).slice(-missing.length)).to.deep.equal(missing);
  });

  it('keeps the order while typing: the top row set to 0 stays, the focus goes to the row below', async () => {
    const { session } = await demoSession();
    const grid = await gridOf(session, 1100, 2200);
    const epg = columnByKey(session.notebook, 'epg');
    grid.model.sortBy({ by: { column: epg?.id ?? '' }, isDescending: true });
    grid.focus();
    await press(grid, 'Control+Home', 'ArrowRight', 'ArrowRight', 'ArrowRight', 'ArrowRight');
    const [first = '', second = ''] = tags(grid);
    grid.showAnimal(session.notebook.animals[`a-${first}`] ? `a-${first}` : '');
    while (!focused(grid).endsWith('chamber1')) await press(grid, 'ArrowRight');
    await press(grid, '0', 'Enter');
    expect(tags(grid).slice(0, 2)).to.deep.equal([first, second]);
    expect(focused(grid)).to.equal(`${second} chamber1`);
    grid.model.sortAgain();
    await settled(grid);
    expect(tags(grid)[0]).to.not.equal(first);
    expect(focused(grid)).to.equal(`${second} chamber1`);
  });

  it('shows one group, or those over the criteria, and moves nothing in the notebook', async () => {
    const { session } = await demoSession();
    const grid = await gridOf(session, 1100, 2200);
    const before = session.notebook;
    grid.model.filterBy({ ...grid.model.filter, group: 'goats' });
    await settled(grid);
    expect(tags(grid).every((tag) => tag.startsWith('G-'))).to.equal(true);
    grid.model.filterBy({ ...grid.model.filter, group: '', outcome: 'over' });
    await settled(grid);
    expect(tags(grid).length).to.be.greaterThan(0);
    const outcomes = tags(grid).map((tag) => cellAt(grid, tag, 'outcome').querySelector('.over'));
    expect(outcomes).to.not.include(null);
    expect(session.notebook).to.equal(before);
    expect(session.undoLabel).to.equal(null);
  });
});

describe('sd-grid: how many are counted', () => {
  it('says the same as the figures where a chamber beside a number holds none', async () => {
    const { session } = await plainSession(4);
    const real = await openSession(session.notebook);
    const grid = await gridOf(real);
    grid.focus();
    await settled(grid);
    for (const text of ['3', 'tntc', '12x', '>40']) await press(grid, text, 'Tab', '5', 'Enter');
    await press(grid, 'ArrowUp', 'Escape');
    const counted = herdLists(real)?.counted;
    expect(counted).to.be.below(4);
    expect(grid.renderRoot.querySelector('.foot')?.textContent).to.contain(
      `${counted} counted of 4 present`,
    );
  });
});

describe('sd-grid: what changes under the hand', () => {
  it('goes straight down with Enter once a cell was clicked after a run of Tabs', async () => {
    const { grid } = await plainGrid();
    await press(grid, '3', 'Tab');
    cellAt(grid, 'A-002', 'eyelid').dispatchEvent(
      new MouseEvent('mousedown', { bubbles: true, composed: true, cancelable: true }),
    );
    await settled(grid);
    await press(grid, '3', 'Enter');
    expect(focused(grid)).to.equal('A-003 eyelid');
  });

  it('keeps the focus in its place when its animal is taken away', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, 'ArrowDown', 'ArrowDown');
    await session.dispatch({
      label: 'taking away A-003',
      source: 'typed',
      sets: [{ path: ['animals', 'A-003', 'removed'], value: true }],
    });
    await settled(grid);
    expect(focused(grid)).to.equal('A-004 chamber1');
    await press(grid, 'ArrowUp');
    expect(focused(grid)).to.equal('A-002 chamber1');
  });

  it('shows an animal added while the grid is open', async () => {
    const { grid, session } = await plainGrid(3);
    const added = addAnimals(session.notebook, [{ tag: 'B-1' }], () => 'x-1', '2026-05-03');
    if (isFault(added)) throw new Error(added.sentence);
    await session.dispatch(added);
    await settled(grid);
    expect(tags(grid)).to.include('B-1');
  });

  it('shows a renamed column at once, and hides one without losing what is typed', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, '7', 'Enter');
    const column = columnByKey(session.notebook, 'chamber1');
    const renamed = changeColumn(session.notebook, column?.id ?? '', { label: 'left grid' });
    if (isFault(renamed)) throw new Error(renamed.sentence);
    await session.dispatch(renamed);
    await settled(grid);
    expect(grid.renderRoot.querySelector('.head')?.textContent).to.contain('left grid');
    const hidden = changeColumn(session.notebook, column?.id ?? '', { hidden: true });
    if (isFault(hidden)) throw new Error(hidden.sentence);
    await session.dispatch(hidden);
    await settled(grid);
    expect(grid.renderRoot.querySelector('[data-column="chamber1"]')).to.equal(null);
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal('7');
    expect(focused(grid)).to.contain('A-002');
  });

  it('unfolds another day to all its columns, which cannot be typed into there', async () => {
    const { session } = await demoSession();
    const grid = await gridOf(session);
    const first = grid.model.sheet.layout.days[0];
    grid.model.fold(first?.id ?? '', 'columns');
    await settled(grid);
    const cell = cellAt(grid, 'W-102', 'chamber2', first?.id);
    expect(seen(cell)).to.equal('3');
    expect(cell.getAttribute('aria-readonly')).to.equal('true');
  });

  it('stays in a day that is folded again, at the epg that is left of it', async () => {
    const { session } = await demoSession();
    const grid = await gridOf(session);
    const first = grid.model.sheet.layout.days[0]?.id ?? '';
    grid.model.fold(first, 'columns');
    await settled(grid);
    for (const key of ['status', 'chamber2', 'note']) {
      const column = columnByKey(session.notebook, key)?.id ?? '';
      const { columns } = grid.model.sheet.layout;
      const at = columns.findIndex((c) => c.day === first && c.column.id === column);
      grid.hand.go({ row: 2, column: at });
      await settled(grid);
      grid.model.fold(first, 'figure');
      await settled(grid);
      expect(focused(grid), key).to.equal('W-103 epg');
      expect(grid.hand.active?.day, key).to.equal(first);
      grid.model.fold(first, 'columns');
      await settled(grid);
    }
  });

  it('keeps the name of an unfolded day in sight while it is scrolled sideways', async () => {
    const { session } = await demoSession();
    const grid = await gridOf(session, 700);
    const { days } = grid.model.sheet.layout;
    for (const day of days) grid.model.fold(day.id, 'columns');
    await settled(grid);
    const first = grid.model.sheet.layout.days[0];
    const { scroller } = grid;
    if (!first || !scroller) throw new Error('no day, or nothing that scrolls');
    scroller.scrollLeft = first.left + first.width / 2 - grid.model.sheet.layout.animalWidth;
    await settled(grid);
    const name = grid.renderRoot.querySelector('.band .day .name')?.getBoundingClientRect();
    const corner = grid.renderRoot.querySelector('.band .corner')?.getBoundingClientRect();
    expect(Math.round(name?.left ?? 0)).to.equal(Math.round(corner?.right ?? -1));
    expect(name?.width).to.be.greaterThan(40);
  });

  it('cuts the name of no day, open or folded', async () => {
    const { session } = await demoSession();
    const grid = await gridOf(session, 1100);
    const names = (): readonly HTMLElement[] => [
      ...grid.renderRoot.querySelectorAll<HTMLElement>('.band .name'),
    ];
    const cut = (): readonly string[] =>
      names()
        .filter((one) => one.scrollWidth > one.clientWidth)
        .map((one) => one.textContent.trim());
    expect(cut()).to.deep.equal([]);
    for (const day of grid.model.sheet.layout.days) grid.model.fold(day.id, 'figure');
    await settled(grid);
    expect(names().length).to.equal(4);
    expect(cut()).to.deep.equal([]);
  });

  it('asks to open another day by its heading', async () => {
    const { session } = await demoSession();
    const grid = await gridOf(session);
    let asked = '';
    grid.addEventListener('sd-open-day', (event) => (asked = event.detail.day));
    grid.renderRoot.querySelector<HTMLButtonElement>('.band .day .name')?.click();
    expect(asked).to.equal(grid.model.sheet.layout.days[0]?.id);
    await session.open(asked);
    await settled(grid);
    expect(seen(cellAt(grid, 'W-102', 'chamber2'))).to.equal('3');
  });

  it('goes on when it is moved to another place of the page', async () => {
    const { grid, session } = await plainGrid(5);
    await press(grid, 'ArrowDown');
    const other = document.createElement('div');
    grid.parentElement?.append(other);
    other.append(grid);
    await settled(grid);
    grid.focus();
    await settled(grid);
    expect(focused(grid)).to.equal('A-002 chamber1');
    await press(grid, '6', 'Enter');
    expect(seen(cellAt(grid, 'A-002', 'chamber1'))).to.equal('6');
    expect(typedIn(session, 'A-002', 'chamber1')).to.equal('6');
  });

  it('draws only the row that was typed in again', async () => {
    const { grid } = await plainGrid(40);
    const changed = new Set<string>();
    const watch = new MutationObserver((records) => {
      for (const { target } of records) {
        const element = target instanceof Element ? target : target.parentElement;
        const row = element?.closest<HTMLElement>('[data-row]')?.dataset['row'];
        if (row) changed.add(row);
      }
    });
    const body = grid.renderRoot.querySelector('.body');
    if (!body) throw new Error('no body');
    watch.observe(body, { subtree: true, childList: true, characterData: true });
    await press(grid, '9', 'Enter');
    watch.disconnect();
    // The row below gets the editor.
    expect([...changed].sort()).to.deep.equal(['A-001', 'A-002']);
  });

  it('gives a sentence of any length the same room, and the whole of a long one on its title', async () => {
    const { grid } = await plainGrid(40);
    const room = (): number => grid.scroller?.clientHeight ?? 0;
    const status = grid.renderRoot.querySelector<HTMLElement>('.status');
    const before = room();
    grid.say('Cleared.');
    await settled(grid);
    expect(status?.title).to.equal('');
    expect(room()).to.equal(before);
    const long = 'What is said here goes on and on. '.repeat(20);
    await new Promise((done) => setTimeout(done, announcePause + 50));
    grid.say(long);
    await settled(grid);
    expect(status?.textContent).to.equal(long);
    expect(room()).to.equal(before);
    expect(status?.title).to.equal(long);
    expect(status?.clientHeight).to.be.closeTo(2 * 1.4 * 14, 1);
  });

  it('says results politely, as a sentence, at most once a second', async () => {
    const { grid } = await plainGrid();
    const status = grid.renderRoot.querySelector('[role="status"]');
    const said: string[] = [];
    const watch = new MutationObserver(() => said.push(status?.textContent ?? ''));
    if (status) watch.observe(status, { childList: true, characterData: true, subtree: true });
    await press(grid, '8', 'Tab', '9', 'Enter', '7', 'Enter', '6', 'Enter');
    watch.disconnect();
    expect(said.length).to.be.within(1, 3);
    expect(said[0]).to.match(/^A-001: .*\.$/);
  });
});
