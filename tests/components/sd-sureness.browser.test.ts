import { expect } from '@open-wc/testing';
import { html } from 'lit';
import type { SdMeanLimits } from '../../components/sd-mean-limits.ts';
import '../../components/sd-mean-limits.ts';
import type { SdSureness } from '../../components/sd-sureness.ts';
import '../../components/sd-sureness.ts';
import { columnByKey } from '../../src/notebook/read.ts';
import { openSession, shown, textOf, underSession } from './open-notebook.ts';

async function sureness(row: string): Promise<SdSureness> {
  const element = await underSession<SdSureness>(
    await openSession(),
    html`<sd-sureness .row=${row}></sd-sureness>`,
  );
  await shown(element, 'li');
  return element;
}

const said = (element: Element): string[] =>
  [...(element.shadowRoot?.querySelectorAll('li') ?? [])].map((item) =>
    (item.textContent ?? '').replace(/\s+/g, ' ').replace(' ,', ',').trim(),
  );

describe('<sd-sureness>', () => {
  it('says how sure one count is, with the sum of its factor', async () => {
    const element = await sureness('a-L-001');
    await expect(element).to.be.accessible();
    for (let frame = 0; frame < 300 && said(element).length < 4; frame++)
      await new Promise((done) => requestAnimationFrame(done));
    const lines = said(element);
    expect(lines[0]).to.match(/^95 % limits \d+ to [\d,]+ epg, the luck of the count only$/);
    expect(lines[1]).to.match(
      /^chance to be at 500 epg or more \d+ %, with the flock's own spread \(35 counted, k \d\.\d\d\); dung varies/,
    );
    expect(lines[2]).to.match(/^chambers agree, p /);
    expect(lines[3]).to.equal(
      'one egg stands for 50 epg, (28 mL + 2 g) ÷ (2 g × 0.15 mL × 2) = 50',
    );
  });

  it('counts half the area where one chamber was counted', async () => {
    const element = await sureness('a-L-003');
    expect(said(element).at(-1)).to.match(/^one egg stands for 100 epg.* × 1\) = 100$/);
  });

  it('says of too many eggs that there is a bound and no figure', async () => {
    const element = await sureness('a-G-013');
    expect(said(element)).to.deep.equal([
      'this count is too many, a bound, in no mean and no list: count a part of the grid for a figure',
    ]);
  });

  it('on one line leaves out the limits that stand beside it, and puts a warning first', async () => {
    const session = await openSession();
    const column = columnByKey(session.notebook, 'chamber2')?.id ?? '';
    await session.dispatch({
      label: 'a count',
      source: 'typed',
      sets: [
        {
          path: ['readings', session.openDay ?? '', 'a-L-001', column],
          value: { kind: 'number', text: '40', value: 40 },
        },
      ],
    });
    const element = await underSession<SdSureness>(
      session,
      html`<sd-sureness compact .row=${'a-L-001'}></sd-sureness>`,
    );
    await shown(element, 'li');
    // 7 and 40 eggs: p far below 0.001 (exact binomial).
    expect(said(element)[0]).to.equal(
      'chambers differ more than luck explains, p under 0.001: stir, refill, recount, or check the typing',
    );
    expect(said(element).join()).to.not.contain('95 % limits');
  });

  it('is empty for an animal that was not counted', async () => {
    const session = await openSession();
    const element = await underSession<SdSureness>(
      session,
      html`<sd-sureness .row=${'a-L-011'}></sd-sureness>`,
    );
    expect(element.shadowRoot?.querySelector('ul')).to.equal(null);
  });
});

describe('<sd-mean-limits>', () => {
  it('answers the question meant and keeps the other one folded', async () => {
    const element = await underSession<SdMeanLimits>(
      await openSession(),
      html`<sd-mean-limits></sd-mean-limits>`,
    );
    await shown(element, 'p');
    expect(textOf(element, 'p')).to.match(
      /^95 % limits of the mean of the flock they were drawn from: \d+ to \d+ epg/,
    );
    expect(textOf(element, 'summary')).to.equal('For these animals alone');
    expect(textOf(element, 'details p')).to.match(/the mean of these animals: \d+ to \d+ epg/);
    await expect(element).to.be.accessible();
  });
});
