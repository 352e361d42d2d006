import { expect, waitUntil } from '@open-wc/testing';
import '../../components/sd-counts.ts';
import type { SdGrid } from '../../components/sd-grid.ts';
import type { SdCounts } from '../../components/sd-counts.ts';
import { columnByKey } from '../../src/notebook/read.ts';
import type { Session } from '../../src/session/session.ts';
import { demoSession, plainSession, sessionAgain } from './fake-session.ts';
import { focused, SessionGiver, settled } from './grid-fixture.ts';

const givers: SessionGiver[] = [];

async function countsOf(session: Session): Promise<{ giver: SessionGiver; counts: SdCounts }> {
  const giver = new SessionGiver();
  givers.push(giver);
  document.body.append(giver);
  giver.session = session;
  const counts = document.createElement('sd-counts');
  giver.append(counts);
  await counts.updateComplete;
  return { giver, counts };
}

async function gridIn(counts: SdCounts): Promise<SdGrid> {
  await counts.updateComplete;
  const grid = counts.renderRoot.querySelector('sd-grid');
  if (!grid) throw new Error('the counts show no grid');
  await settled(grid);
  return grid;
}

/** Sorted by epg from the highest down, goats alone, the day before shown in full. */
async function lookedAt(grid: SdGrid, session: Session): Promise<string[]> {
  const column = columnByKey(session.notebook, 'epg')?.id ?? '';
  grid.model.sortBy({ by: { column }, isDescending: true });
  grid.model.filterBy({ ...grid.model.filter, group: 'goats' });
  const past = grid.model.sheet.layout.days.find((day) => !day.isOpen);
  grid.model.fold(past?.id ?? '', 'columns');
  await settled(grid);
  return shown(grid);
}

function shown(grid: SdGrid): string[] {
  return [
    ...grid.model.sheet.rows.map((row) => row.tag),
    ...grid.model.sheet.layout.days.map((day) => `${day.id} ${day.fold}`),
  ];
}

async function press(counts: SdCounts, words: string): Promise<void> {
  const buttons = [...counts.renderRoot.querySelectorAll<HTMLButtonElement>('.views button')];
  buttons.find((button) => button.textContent?.trim() === words)?.click();
  await counts.updateComplete;
}

describe('sd-counts: sorted, filtered and folded', () => {
  afterEach(() => givers.splice(0).forEach((giver) => giver.remove()));

  it('is as it was after one animal was looked at on its card', async () => {
    const { session } = await demoSession();
    const { counts } = await countsOf(session);
    const first = await gridIn(counts);
    const plain = shown(first);
    const before = await lookedAt(first, session);
    // Too many to count, then the highest count of the goats.
    expect(before.slice(0, 2)).to.deep.equal(['G-013', 'G-017']);
    expect(before).to.not.deep.equal(plain);
    const row = first.model.sheet.rows[1]?.id ?? '';
    first.showAnimal(row);
    await settled(first);
    await press(counts, 'One animal');
    expect(counts.renderRoot.querySelector('sd-grid')).to.equal(null);
    const card = counts.renderRoot.querySelector('sd-card');
    await waitUntil(() => card?.row === row, 'the card shows the same animal');
    await press(counts, 'All animals');
    const again = await gridIn(counts);
    expect(again).to.not.equal(first);
    expect(shown(again)).to.deep.equal(before);
  });

  it('keeps a filter that hides the animal whose card was looked at last', async () => {
    const { session } = await demoSession();
    const { counts } = await countsOf(session);
    const grid = await gridIn(counts);
    const before = await lookedAt(grid, session);
    grid.showAnimal(grid.model.sheet.rows[0]?.id ?? '');
    await settled(grid);
    await press(counts, 'One animal');
    const card = counts.renderRoot.querySelector('sd-card');
    await card?.show('a-W-101');
    await waitUntil(() => card?.row === 'a-W-101');
    await press(counts, 'All animals');
    const again = await gridIn(counts);
    expect(shown(again)).to.deep.equal(before);
    expect(focused(again)).to.match(/^G-/);
  });

  it('is as it was in another session of the same notebook, as when another tab took over', async () => {
    const { session } = await demoSession();
    const { giver, counts } = await countsOf(session);
    const grid = await gridIn(counts);
    const before = await lookedAt(grid, session);
    const next = sessionAgain(session, 'following');
    giver.session = next;
    await settled(grid);
    await next.open(session.openDay ?? '');
    await settled(grid);
    expect(grid.model.session).to.equal(next);
    expect(shown(grid)).to.deep.equal(before);
  });

  it('begins anew with another notebook, whose animals are all shown in order', async () => {
    const { session } = await demoSession();
    const { giver, counts } = await countsOf(session);
    const grid = await gridIn(counts);
    await lookedAt(grid, session);
    const { session: other } = await plainSession(4);
    giver.session = other;
    await settled(grid);
    expect(grid.model.isSorted).to.equal(false);
    expect(grid.model.isFiltered).to.equal(false);
    expect(grid.model.rows.map((row) => row.tag)).to.deep.equal(
      grid.model.sheet.rows.map((row) => row.tag),
    );
  });
});
