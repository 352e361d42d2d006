import { expect, waitUntil } from '@open-wc/testing';
import { setViewport } from '@web/test-runner-commands';
import axe from 'axe-core';
import type { SdGrid } from '../../components/sd-grid.ts';
import type { SdShowRows } from '../../components/sd-show-rows.ts';
import { removeRecord } from '../../src/notebook/edit-records.ts';
import { columnByKey } from '../../src/notebook/read.ts';
import { bandHeight, headHeight } from '../../components/grid-layout.ts';
import '../../components/sd-counts.ts';
import { cellAt, gridOf, seen, SessionGiver, settled } from './grid-fixture.ts';
import { demoSession } from './fake-session.ts';

/** The demo's grid with its views open. */
async function openViews() {
  const { session } = await demoSession();
  const grid = await gridOf(session, 1100, 2400);
  button(grid, 'Show and sort').click();
  await settled(grid);
  const views = toolsOf(grid).querySelector<SdShowRows>('sd-show-rows');
  if (!views) throw new Error('The views did not open.');
  return { grid, session, views };
}

function toolsOf(grid: SdGrid): ShadowRoot {
  const root = grid.renderRoot.querySelector('sd-grid-tools')?.shadowRoot;
  if (!root) throw new Error('no tools');
  return root;
}

function button(grid: SdGrid, words: string): HTMLButtonElement {
  const found = [...toolsOf(grid).querySelectorAll('button')].find((b) =>
    b.textContent.includes(words),
  );
  if (!found) throw new Error(`no button ${words}`);
  return found;
}

function field<T extends HTMLElement>(views: SdShowRows, label: string, kind: string): T {
  const found = [...views.renderRoot.querySelectorAll('label')]
    .find((one) => one.textContent.trim().startsWith(label))
    ?.querySelector<T>(kind);
  if (!found) throw new Error(`no field ${label}`);
  return found;
}

/** Chooses as a hand does: the browser holds the choice before anybody is told of it. */
async function choose(grid: SdGrid, views: SdShowRows, label: string, value: string) {
  const list = field<HTMLSelectElement>(views, label, 'select');
  list.value = value;
  list.dispatchEvent(new Event('change'));
  await settled(grid);
  return list;
}

async function typeEpg(grid: SdGrid, views: SdShowRows, text: string): Promise<HTMLInputElement> {
  const input = field<HTMLInputElement>(views, 'epg from', 'input');
  input.value = text;
  input.dispatchEvent(new Event('change'));
  await settled(grid);
  return input;
}

function tags(grid: SdGrid): readonly string[] {
  return [...grid.renderRoot.querySelectorAll('.row .tag')].map((tag) => tag.textContent);
}

function faultOf(views: SdShowRows): string {
  return views.renderRoot.querySelector('.fault')?.textContent.trim() ?? '';
}

describe('sd-show-rows', () => {
  it('offers the views in words, without axe violations', async () => {
    const { grid, views } = await openViews();
    const { options } = field<HTMLSelectElement>(views, 'Group', 'select');
    expect([...options].map((o) => o.value)).to.deep.equal(['', 'ewes', 'goats', 'lambs']);
    const { violations } = await axe.run(grid, { rules: { region: { enabled: false } } });
    expect(violations.map((v) => v.id)).to.deep.equal([]);
  });

  it('says of each list what holds, also once all animals are shown again', async () => {
    const { grid, views } = await openViews();
    const all = tags(grid);
    const group = await choose(grid, views, 'Group', 'lambs');
    const kind = await choose(grid, views, 'Class', 'lamb');
    const order = await choose(grid, views, 'Sort by', '=epg down');
    expect(tags(grid).every((tag) => tag.startsWith('L-'))).to.equal(true);
    button(grid, 'Show all in order').click();
    await settled(grid);
    expect(tags(grid)).to.deep.equal(all);
    expect([group.value, kind.value, order.value]).to.deep.equal(['', '', 'order']);
  });

  it('counts a cup nothing was counted in among those not sampled, whatever else was typed', async () => {
    const { grid, views } = await openViews();
    await choose(grid, views, 'Status', 'not sampled');
    expect(tags(grid)).to.deep.equal(['W-109', 'L-005', 'L-011']);
    expect(seen(cellAt(grid, 'L-005', 'eyelid'))).to.equal('3');
    await choose(grid, views, 'Status', 'sampled');
    const sampled = tags(grid);
    await choose(grid, views, 'Status', 'spoiled');
    expect(tags(grid)).to.deep.equal(['W-107']);
    expect(sampled).to.not.include.members(['W-107']);
    expect(sampled).to.include('L-003');
    await choose(grid, views, 'Status', '');
    expect(tags(grid)).to.have.length(sampled.length + 4);
  });

  it('shows animals from an epg on, too many to count among them, and keeps what it cannot use as it was typed', async () => {
    const { grid, views } = await openViews();
    const all = tags(grid);
    await typeEpg(grid, views, '800');
    const from = tags(grid);
    expect(from).to.include.members(['W-102', 'L-006', 'G-013']);
    const shown = from.map((tag) => Number(seen(cellAt(grid, tag, 'epg')).replace(',', '')));
    expect(Math.min(...shown.filter(Number.isFinite))).to.be.at.least(800);
    for (const [typed, said] of [
      ['8OO', '"8OO" is not a number'],
      ['1,000', 'can be read in two ways'],
      ['-5', '0 or more'],
    ] as const) {
      const input = await typeEpg(grid, views, typed);
      expect(input.value).to.equal(typed);
      expect(faultOf(views)).to.contain(said);
      expect(tags(grid)).to.deep.equal(all);
    }
    const emptied = await typeEpg(grid, views, '');
    expect([emptied.value, faultOf(views)]).to.deep.equal(['', '']);
  });

  it('says which order holds after a column’s own menu set it, and forgets it with its column', async () => {
    const { grid, views, session } = await openViews();
    const plain = tags(grid);
    const order = field<HTMLSelectElement>(views, 'Sort by', 'select');
    const shown = (): string => order.selectedOptions[0]?.textContent.trim() ?? '';
    for (const [key, isDescending, words] of [
      ['epg', false, 'epg, lowest first'],
      ['chamber1', true, 'chamber 1, highest first'],
      ['epg', true, 'epg, highest first'],
      ['chamber1', false, 'chamber 1, lowest first'],
    ] as const) {
      const column = columnByKey(session.notebook, key)?.id ?? '';
      grid.model.sortBy({ by: { column }, isDescending });
      await settled(grid);
      expect(shown()).to.equal(words);
    }
    const column = columnByKey(session.notebook, 'chamber1')?.id ?? '';
    await session.dispatch(removeRecord('columns', column, 'taking chamber 1 away'));
    await settled(grid);
    expect(shown()).to.equal('the notebook’s order');
    expect(tags(grid)).to.deep.equal(plain);
    expect(order.options).to.have.length(6);
  });

  it('says which group is asked for when no animal is in it any more, and that no animal is shown', async () => {
    const { grid, views, session } = await openViews();
    await choose(grid, views, 'Group', 'goats');
    const sets = grid.model.rows
      .filter(({ group }) => group === 'goats')
      .map(({ id }) => ({ path: ['animals', id, 'removed'] as const, value: true }));
    await session.dispatch({ label: 'the goats are sold', source: 'typed', sets });
    await settled(grid);
    const group = field<HTMLSelectElement>(views, 'Group', 'select');
    expect(group.selectedOptions[0]?.textContent.trim()).to.equal('goats');
    expect(tags(grid)).to.deep.equal([]);
    const none = toolsOf(grid).querySelector('.none');
    expect(none?.textContent).to.contain('No animal passes all that is asked for here.');
    none?.querySelector('button')?.click();
    await settled(grid);
    expect(tags(grid).length).to.be.greaterThan(10);
    expect(toolsOf(grid).querySelector('.none') === null).to.equal(true);
  });

  it('keeps the focus beside a button that goes, says how many are shown, and forgets an epg it could not read', async () => {
    const { grid, views, session } = await openViews();
    const said: string[] = [];
    grid.renderRoot
      .querySelector('sd-grid-tools')
      ?.addEventListener('sd-say', (event) =>
        said.push((event as CustomEvent<{ sentence: string }>).detail.sentence),
      );
    await choose(grid, views, 'Status', 'not sampled');
    await session.dispatch({
      label: 'a group',
      source: 'typed',
      sets: [{ path: ['animals', grid.model.rows[0]?.id ?? '', 'name'], value: 'Bramble' }],
    });
    await settled(grid);
    button(grid, 'Filter again').focus();
    button(grid, 'Filter again').click();
    await settled(grid);
    expect(toolsOf(grid).activeElement === button(grid, 'Show and sort')).to.equal(true);
    expect(said.at(-1)).to.equal('3 animals shown.');
    await typeEpg(grid, views, '8OO');
    button(grid, 'Show all in order').focus();
    button(grid, 'Show all in order').click();
    await settled(grid);
    expect(toolsOf(grid).activeElement === button(grid, 'Show and sort')).to.equal(true);
    expect(said.at(-1)).to.equal(`${grid.model.sheet.rows.length} animals shown.`);
    expect(faultOf(views)).to.equal('');
    expect(field<HTMLInputElement>(views, 'epg from', 'input').value).to.equal('');
  });

  it('leaves the rows their room on a phone while it is chosen what they show', async () => {
    await setViewport({ width: 390, height: 844 });
    try {
      const { session } = await demoSession();
      const giver = new SessionGiver();
      document.body.append(giver);
      giver.session = session;
      const counts = document.createElement('sd-counts');
      counts.style.setProperty('--counts-height', '82dvh');
      giver.append(counts);
      await counts.updateComplete;
      [...counts.renderRoot.querySelectorAll('button')]
        .find((one) => one.textContent.includes('All animals'))
        ?.click();
      await waitUntil(() => counts.renderRoot.querySelector('sd-grid')?.hasModel);
      const grid = counts.renderRoot.querySelector('sd-grid');
      if (!grid) throw new Error('no grid');
      await settled(grid);
      button(grid, 'Show').click();
      await settled(grid);
      const heads = grid.model.scale * (bandHeight + headHeight);
      const rows = ((grid.scroller?.clientHeight ?? 0) - heads) / grid.rowHeight;
      expect(rows).to.be.at.least(5);
      giver.remove();
    } finally {
      await setViewport({ width: 800, height: 600 });
    }
  });

  it('reads and writes the epg with the notebook’s decimal mark', async () => {
    const { grid, views, session } = await openViews();
    await session.dispatch({
      label: 'a comma',
      source: 'typed',
      sets: [{ path: ['about', 'notebook', 'decimalMark'], value: ',' }],
    });
    const input = await typeEpg(grid, views, '899,5');
    expect([input.value, faultOf(views)]).to.deep.equal(['899,5', '']);
    expect(tags(grid)).to.include('W-102').and.not.include('L-006');
  });
});
