import { expect } from '@open-wc/testing';
import { sendKeys } from '@web/test-runner-commands';
import type { SdGrid } from '../../components/sd-grid.ts';
import { columnByKey } from '../../src/notebook/read.ts';
import type { Session } from '../../src/session/session.ts';
import { demoSession, sessionAgain, typedIn } from './fake-session.ts';
import {
  cellAt,
  focused,
  plainGrid,
  press,
  seen,
  settled,
  type SessionGiver,
} from './grid-fixture.ts';

/** Hands the grid the same notebook in another session, which then opens the day: as when tabs change roles. */
async function openAgain(
  grid: SdGrid,
  former: Session,
  role: 'writing' | 'following',
): Promise<Session> {
  const session = sessionAgain(former, role);
  grid.closest<SessionGiver>('sd-session-giver')!.session = session;
  await settled(grid);
  await session.open(former.openDay ?? '');
  await settled(grid);
  return session;
}

async function takeAway(session: Session, row: string): Promise<void> {
  await session.dispatch({
    label: `taking away ${row}`,
    source: 'typed',
    sets: [{ path: ['animals', row, 'removed'], value: true }],
  });
}

function status(grid: SdGrid): string {
  return grid.renderRoot.querySelector('.status')?.textContent ?? '';
}

describe('sd-grid: a note of several lines', () => {
  async function noteGrid(text: string): Promise<{ grid: SdGrid; session: Session }> {
    const { grid, session } = await plainGrid();
    const column = columnByKey(session.notebook, 'note')?.id ?? '';
    await session.dispatch({
      label: 'note',
      source: 'typed',
      sets: [{ path: ['readings', '2026-05-03', 'A-001', column], value: { kind: 'text', text } }],
    });
    await press(grid, 'Control+Home', 'End');
    expect(focused(grid)).to.equal('A-001 note');
    return { grid, session };
  }

  it('is left as it is where nothing is typed in it', async () => {
    for (const text of ['one\ntwo', 'one\r\ntwo', 'one \n\n two']) {
      const { grid, session } = await noteGrid(text);
      await press(grid, 'F2', 'Enter');
      expect(typedIn(session, 'A-001', 'note')).to.equal(text);
      expect(session.undoLabel).to.equal('note');
    }
  });

  it('shows where its lines end, and keeps them where it is edited', async () => {
    const { grid, session } = await noteGrid('one\ntwo');
    await press(grid, 'F2');
    expect(grid.editor.input.value).to.equal('one ⏎ two');
    await press(grid, 'End', 'more', 'Enter');
    expect(typedIn(session, 'A-001', 'note')).to.equal('one\ntwomore');
  });
});

describe('sd-grid: what is being typed when another tab takes over', () => {
  it('stays with its animal and column, and nothing of it is written in this tab', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, 'ArrowDown', 'ArrowDown', 'ArrowRight', '77');
    const following = await openAgain(grid, session, 'following');
    expect(focused(grid)).to.equal('A-003 chamber2');
    expect(grid.editor.text).to.equal('77');
    await press(grid, 'Enter');
    expect(focused(grid)).to.equal('A-003 chamber2');
    expect(grid.editor.text).to.equal('77');
    cellAt(grid, 'A-005', 'chamber1').dispatchEvent(
      new MouseEvent('mousedown', { bubbles: true, composed: true, cancelable: true }),
    );
    await settled(grid);
    expect(grid.editor.cell).to.equal(cellAt(grid, 'A-003', 'chamber2'));
    expect(typedIn(following, 'A-003', 'chamber2')).to.equal(undefined);
    await press(grid, 'Escape', 'ArrowDown');
    expect(focused(grid)).to.equal('A-004 chamber2');
    expect(seen(cellAt(grid, 'A-003', 'chamber2'))).to.equal('–');
  });

  it('is kept for its animal once this tab writes again, though a button was pressed in between', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, 'ArrowDown', '77');
    const following = await openAgain(grid, session, 'following');
    const takeOver = document.createElement('button');
    document.body.append(takeOver);
    takeOver.focus();
    await settled(grid);
    takeOver.remove();
    const writing = await openAgain(grid, following, 'writing');
    expect(focused(grid)).to.equal('A-002 chamber1');
    expect(grid.editor.text).to.equal('77');
    await press(grid, 'Enter');
    expect(typedIn(writing, 'A-002', 'chamber1')).to.equal('77');
    expect(typedIn(writing, 'A-001', 'chamber1')).to.equal(undefined);
    expect(focused(grid)).to.equal('A-003 chamber1');
  });

  it('is said, and goes to no other animal, where its own is gone', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, 'ArrowDown');
    await sendKeys({ type: '77' });
    await takeAway(session, 'A-002');
    await settled(grid);
    expect(focused(grid)).to.equal('A-003 chamber1');
    expect(grid.editor.editing).to.equal('no');
    expect(grid.editor.text).to.equal('');
    expect(status(grid)).to.equal(
      '"77" was typed for A-002, chamber 1, and could not be kept there.',
    );
    await press(grid, 'Enter', 'Escape');
    expect(typedIn(session, 'A-003', 'chamber1')).to.equal(undefined);
  });

  it('is said where another notebook is shown in its place', async () => {
    const { grid } = await plainGrid();
    await press(grid, 'ArrowDown', '77');
    const { session: other } = await demoSession();
    grid.closest<SessionGiver>('sd-session-giver')!.session = other;
    await settled(grid);
    expect(focused(grid)).to.equal('W-101 chamber1');
    expect(grid.editor.editing).to.equal('no');
    expect(status(grid)).to.contain('"77" was typed for A-002');
  });
});
