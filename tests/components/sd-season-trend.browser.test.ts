import { expect } from '@open-wc/testing';
import { html } from 'lit';
import type { SdSeasonRanking } from '../../components/sd-season-ranking.ts';
import type { SdSeasonTrend } from '../../components/sd-season-trend.ts';
import '../../components/sd-season-trend.ts';
import { emptyNotebook } from '../../src/notebook/from-template.ts';
import { demo, openSession, shown, textOf, underSession } from './open-notebook.ts';

async function trend(notebook = demo()): Promise<SdSeasonTrend> {
  return underSession<SdSeasonTrend>(
    await openSession(notebook),
    html`<sd-season-trend blockId="b-9"></sd-season-trend>`,
  );
}

describe('<sd-season-trend>', () => {
  it('draws a line for each group, with the whole in words', async () => {
    const element = await trend();
    const svg = await shown(element, 'svg');
    expect(textOf(element, '.headline')).to.match(
      /^Mean of all animals: \d+ epg on 10 May, at least \d+ epg on 19 July\.$/,
    );
    expect(svg.getAttribute('aria-label')).to.match(/^ewes: .* goats: .* lambs: .* all animals: /);
    expect(textOf(element, '.beside')).to.match(/^\d+ counts soon after a treatment left out/);
    await expect(element).to.be.accessible();
  });

  it('shows the means by day and group as a table', async () => {
    const element = await trend();
    (await shown(element, 'summary')).dispatchEvent(new MouseEvent('click'));
    await shown(element, 'tbody tr');
    const heads = [...element.renderRoot.querySelectorAll('thead th')].map((th) => th.textContent);
    expect(heads).to.deep.equal([
      'day',
      'ewes',
      'goats',
      'lambs',
      'all animals',
      'soon after treatment',
    ]);
    expect(element.renderRoot.querySelectorAll('tbody tr').length).to.equal(4);
    await expect(element).to.be.accessible();
  });

  it('ranks the animals either way round, with the days each mean rests on', async () => {
    const element = await trend();
    const ranking = (await shown(element, 'sd-season-ranking')) as SdSeasonRanking;
    const means = () =>
      [...ranking.renderRoot.querySelectorAll('tbody tr')].map((row) =>
        Number(row.children[2]?.textContent?.replace(',', '')),
      );
    await ranking.updateComplete;
    expect(means()).to.deep.equal([...means()].sort((a, b) => b - a));
    expect(textOf(ranking, 'tbody td:last-child')).to.match(/^\d of 4( \+ 1 after treatment)?$/);
    ranking.renderRoot.querySelectorAll('button')[1]?.click();
    await ranking.updateComplete;
    expect(means()).to.deep.equal([...means()].sort((a, b) => a - b));
    await expect(ranking).to.be.accessible();
  });

  it('says so where there are no days yet', async () => {
    const element = await trend(emptyNotebook('n'));
    await shown(element, 'p.soft');
    for (let frame = 0; frame < 200 && textOf(element, 'p') === 'Working…'; frame++)
      await new Promise((done) => requestAnimationFrame(done));
    expect(textOf(element, 'p')).to.equal(
      'No sampling days yet: the season begins with the first.',
    );
  });
});
