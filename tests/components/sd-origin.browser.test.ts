import { expect } from '@open-wc/testing';
import { html } from 'lit';
import type { OriginTarget } from '../../components/origin-of.ts';
import { askOrigin } from '../../components/ask-origin.ts';
import type { SdOrigin } from '../../components/sd-origin.ts';
import { openSession, shown, textOf, underSession } from './open-notebook.ts';

async function origin(target: OriginTarget): Promise<SdOrigin> {
  const button = await underSession<HTMLElement>(
    await openSession(),
    html`<button>where from</button>`,
  );
  button.focus();
  // The dialog is kept in the element that asked.
  await askOrigin(button, target);
  const dialog = button.querySelector('sd-origin') as SdOrigin;
  await shown(dialog, '.answer');
  return dialog;
}

const cell = (row: string, column: string): OriginTarget => ({ kind: 'cell', row, column });
const texts = (element: Element, selector: string): string[] =>
  [...(element.shadowRoot?.querySelectorAll(selector) ?? [])].map((found) =>
    (found.textContent ?? '').replace(/\s+/g, ' ').trim(),
  );

describe('<sd-origin>', () => {
  it('shows the formula, the values used, how sure it is, and the source', async () => {
    const dialog = await origin(cell('a-L-001', 'c-epg'));
    expect(textOf(dialog, '.answer')).to.equal('650 eggs per gram');
    expect(texts(dialog, '.formula p')).to.deep.equal(['= EPG(eggs, factor)', '= EPG(13, 50)']);
    expect(texts(dialog, 'tbody tr')).to.deep.equal(['eggs eggs 13', 'factor factor 50']);
    expect(dialog.shadowRoot?.querySelector('sd-sureness')).to.not.equal(null);
    expect(textOf(dialog, '.card')).to.match(/^EPG\(eggs, factor\) Eggs per gram of dung\./);
    expect(textOf(dialog, '.card')).to.contain('(read in the source)');
    await expect(dialog).to.be.accessible();
  });

  it('follows a name to where it comes from in turn, and back', async () => {
    const dialog = await origin(cell('a-L-001', 'c-epg'));
    dialog.shadowRoot?.querySelectorAll<HTMLElement>('th button')[1]?.click();
    await shown(dialog, '.actions button');
    expect(textOf(dialog, '.answer')).to.equal('50 epg per egg');
    expect(textOf(dialog, '.formula')).to.contain('EGGFACTOR(2, 28, 0.15,');
    dialog.shadowRoot?.querySelector<HTMLElement>('.actions button')?.click();
    for (let frame = 0; frame < 100 && !textOf(dialog, '.answer').startsWith('650'); frame++)
      await new Promise((done) => requestAnimationFrame(done));
    expect(textOf(dialog, '.answer')).to.equal('650 eggs per gram');
  });

  it('says of a typed count what was typed, and nothing of formulas', async () => {
    const dialog = await origin(cell('a-L-001', 'c-chamber1'));
    const eggs = Number(textOf(dialog, '.answer').replace(' eggs', ''));
    expect(texts(dialog, 'p')).to.include(`Typed: ${eggs}`);
    expect(dialog.shadowRoot?.querySelector('.formula')).to.equal(null);
  });

  it('gives a figure with n of N, its values animal by animal, and its limits', async () => {
    const dialog = await origin({ kind: 'figure', figure: 'f-mean_epg', group: null });
    expect(textOf(dialog, 'p')).to.equal(
      '19 July 2026, all animals, from 35 of 40 animals present',
    );
    expect(textOf(dialog, 'summary')).to.equal(
      'herd.epg: 35 values, 5 present without one left out',
    );
    expect(texts(dialog, '.values li').length).to.equal(35);
    expect(texts(dialog, '.values li')).to.include('L-001 650');
    expect(texts(dialog, '.formula p')[1]).to.match(/^= HERDMEAN\(\{[^}]*… 35 in all\}\)$/);
    expect(dialog.shadowRoot?.querySelector('sd-mean-limits')).to.not.equal(null);
    await expect(dialog).to.be.accessible();
  });

  it('gives a figure of a group from the animals of that group, with the limit used', async () => {
    const dialog = await origin({ kind: 'figure', figure: 'f-share_over', group: 'lambs' });
    expect(textOf(dialog, 'p')).to.equal('19 July 2026, lambs, from 17 of 19 animals present');
    expect(texts(dialog, '.values li').length).to.equal(17);
    expect(texts(dialog, '.formula p')[1]).to.match(/ 17 in all\}, 500\)$/);
  });

  it('says of a group nobody is in that nobody is there, rather than 0 of 0', async () => {
    const dialog = await origin({ kind: 'figure', figure: 'f-mean_epg', group: 'tegs' });
    expect(textOf(dialog, '.answer')).to.equal('–');
    expect(dialog.shadowRoot?.textContent).to.contain('none of the animals it is about is there');
    expect(dialog.shadowRoot?.textContent).to.not.contain('0 of 0');
  });

  it('says of an outcome how each criterion stands', async () => {
    const dialog = await origin(cell('a-L-001', 'c-outcome'));
    expect(textOf(dialog, '.answer')).to.equal('over your criteria');
    expect(texts(dialog, 'tbody tr')).to.include('epg at your limit or more holds');
    expect(texts(dialog, 'tbody tr')).to.include('white eyelids (5) does not hold');
  });
});
