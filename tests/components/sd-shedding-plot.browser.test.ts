import { expect } from '@open-wc/testing';
import { html } from 'lit';
import type { SdSheddingPlot } from '../../components/sd-shedding-plot.ts';
import '../../components/sd-shedding-plot.ts';
import { PLOT_STYLE_HASH } from '../../components/plot-style.ts';
import { columnByKey } from '../../src/notebook/read.ts';
import type { Session } from '../../src/session/session.ts';
import { openSession, shown, textOf, underSession } from './open-notebook.ts';

async function plot(): Promise<{ element: SdSheddingPlot; session: Session }> {
  const session = await openSession();
  const element = await underSession<SdSheddingPlot>(
    session,
    html`<sd-shedding-plot blockId="b-4"></sd-shedding-plot>`,
  );
  await shown(element, 'svg');
  return { element, session };
}

/** A page of its own under a policy, into which the chart is put; gives the refusals. */
async function refusals(chart: Element, policy: string): Promise<string[]> {
  const frame = document.createElement('iframe');
  frame.srcdoc = `<!doctype html><meta http-equiv="Content-Security-Policy" content="${policy}"><body></body>`;
  const loaded = new Promise((done) => frame.addEventListener('load', done, { once: true }));
  document.body.append(frame);
  await loaded;
  const page = frame.contentDocument as Document;
  const refused: string[] = [];
  page.addEventListener('securitypolicyviolation', (event) =>
    refused.push(event.violatedDirective),
  );
  page.body.append(page.importNode(chart, true));
  await new Promise((done) => requestAnimationFrame(() => setTimeout(done, 50)));
  frame.remove();
  return refused;
}

describe('<sd-shedding-plot>', () => {
  it('says who sheds, what luck would show, and who could not be counted', async () => {
    const { element } = await plot();
    expect(textOf(element, '.headline')).to.match(/^\d+ of 35 animals shed 80 % of the eggs\.$/);
    const beside = [...element.renderRoot.querySelectorAll('.beside')].map((p) => p.textContent);
    expect(beside[0]).to.match(/if all shed alike, it would be about \d+ of 35\./);
    expect(beside.at(-1)).to.equal('1 too many to count left out: G-013.');
  });

  it('gives the chart a sentence to be read aloud instead', async () => {
    const { element } = await plot();
    const svg = element.renderRoot.querySelector('svg');
    expect(svg?.getAttribute('role')).to.equal('img');
    expect(svg?.getAttribute('aria-label')).to.contain('animals shed 80 % of the eggs.');
    await expect(element).to.be.accessible();
  });

  it('shows the same as a table, running up to 100 %', async () => {
    const { element } = await plot();
    element.renderRoot.querySelector<HTMLElement>('summary')?.click();
    await shown(element, 'tbody tr');
    const rows = [...element.renderRoot.querySelectorAll('tbody tr')].map((row) =>
      [...row.children].map((cell) => cell.textContent?.trim()),
    );
    expect(rows.length).to.equal(35);
    expect(rows.at(-1)?.at(2)).to.equal('100.0 %');
    const epgs = rows.map((row) => Number(row[1]?.replace(',', '')));
    expect(epgs).to.deep.equal([...epgs].sort((a, b) => b - a));
    await expect(element).to.be.accessible();
  });

  it('follows a count that is typed', async () => {
    const { element, session } = await plot();
    const before = textOf(element, '.headline');
    const chamber = columnByKey(session.notebook, 'chamber1');
    const value = { kind: 'number', text: '4000', value: 4000 } as const;
    await session.dispatch({
      label: 'a count',
      source: 'typed',
      sets: [{ path: ['readings', session.openDay ?? '', 'a-L-016', chamber?.id ?? ''], value }],
    });
    for (let frame = 0; frame < 300 && textOf(element, '.headline') === before; frame++)
      await new Promise((done) => requestAnimationFrame(done));
    expect(textOf(element, '.headline')).to.equal('1 of 35 animals sheds 80 % of the eggs.');
  });

  it('draws under a policy that allows its one style by hash, and not without', async () => {
    const { element } = await plot();
    const svg = element.renderRoot.querySelector('svg') as SVGSVGElement;
    const text = svg.querySelector('style')?.textContent ?? '';
    const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
    const hash = btoa(String.fromCharCode(...new Uint8Array(digest)));
    expect(`sha256-${hash}`).to.equal(PLOT_STYLE_HASH);
    expect(await refusals(svg, `style-src 'self' '${PLOT_STYLE_HASH}'`)).to.deep.equal([]);
    expect(await refusals(svg, `style-src 'self'`)).to.include('style-src-elem');
  });
});
