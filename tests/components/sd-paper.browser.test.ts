import { ContextProvider } from '@lit/context';
import { expect, fixture } from '@open-wc/testing';
import axe from 'axe-core';
import { html } from 'lit';
import { sessionContext } from '../../components/session-context.ts';
import '../../components/sd-paper.ts';
import type { SdPaper } from '../../components/sd-paper.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { addAnimals } from '../../src/notebook/edit-animals.ts';
import { addDay } from '../../src/notebook/edit-days.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import type { Session } from '../../src/session/session.ts';
import { demo, openSession, shown } from './open-notebook.ts';

async function paperOf(session: Session, kind?: string): Promise<SdPaper> {
  const page = document.createElement('div');
  document.body.append(page);
  new ContextProvider(page, { context: sessionContext, initialValue: session });
  const paper = await fixture<SdPaper>(html`<sd-paper hidden></sd-paper>`, { parentNode: page });
  await paper.open();
  if (kind !== undefined) {
    const select = paper.renderRoot.querySelector('select');
    if (!select) throw new Error('There is no choice of sheets.');
    select.value = kind;
    select.dispatchEvent(new Event('change'));
    await paper.updateComplete;
  }
  return paper;
}

/** 60 animals on 14 dates, nothing counted. */
function sixtyByFourteen(): Notebook {
  let notebook = demo();
  let ms = 5;
  let n = 0;
  const more = Array.from({ length: 20 }, (_, i) => ({ tag: `N-${i + 1}` }));
  const added = addAnimals(notebook, more, () => `n-${(n += 1)}`, '2026-01-01');
  if (isFault(added)) throw new Error(added.sentence);
  notebook = applyEdit(notebook, added, [(ms += 1), 0, 'bench']).notebook;
  for (let month = 1; month <= 10; month += 1) {
    const date = `2025-${String(month).padStart(2, '0')}-11`;
    const day = addDay(notebook, date, '');
    if (isFault(day)) throw new Error(day.sentence);
    notebook = applyEdit(notebook, day.edit, [(ms += 1), 0, 'bench']).notebook;
  }
  return notebook;
}

describe('sd-paper', () => {
  it('gives every animal present a label with its cup number and the date, in bench order', async () => {
    const paper = await paperOf(await openSession(), 'labels');
    const labels = [...paper.renderRoot.querySelectorAll('.label')];
    expect(labels).to.have.length(40);
    const first = labels[0]?.textContent.replace(/\s+/g, ' ').trim();
    expect(first).to.equal('W-101 cup 1 2026-07-19 Nettlewick Top');
    expect(paper.renderRoot.querySelectorAll('.labels')).to.have.length(2);
  });

  it('lays a bench sheet out with empty cells for what is typed at the bench', async () => {
    const paper = await paperOf(await openSession(), 'bench');
    const heads = [...paper.renderRoot.querySelectorAll('thead th')].map((th) =>
      th.textContent.replace(/\s+/g, ' ').trim(),
    );
    expect(heads.slice(0, 3)).to.eql(['cup', 'tag', 'group']);
    expect(heads.join(' ')).to.contain('chamber 1').and.to.contain('nematodirus');
    expect(heads.join(' ')).not.to.contain('eyelid');
    expect(paper.renderRoot.querySelectorAll('tbody tr')).to.have.length(40);
    for (const cell of paper.renderRoot.querySelectorAll('.blank'))
      expect(cell.textContent).to.equal('');
  });

  it('prints 60 animals by 14 dates with every tag once per block of dates', async () => {
    const paper = await paperOf(await openSession(sixtyByFourteen()), 'grid');
    await shown(paper, 'table.grid');
    const blocks = [...paper.renderRoot.querySelectorAll('table.grid')];
    expect(blocks).to.have.length(2);
    for (const block of blocks) {
      const tags = [...block.querySelectorAll('tbody th')].map((th) => th.textContent.trim());
      expect(tags).to.have.length(60);
      expect(new Set(tags).size).to.equal(60);
      expect(block.querySelectorAll('thead th')).to.have.length(8);
      const head = block.querySelector('thead');
      expect(head && getComputedStyle(head).display).to.equal('table-header-group');
    }
  });

  it('says why an animal has no figure: spoiled, too many, not counted', async () => {
    const paper = await paperOf(await openSession(), 'grid');
    await shown(paper, 'table.grid');
    const last = (tag: string): string | undefined =>
      [...paper.renderRoot.querySelectorAll('tbody tr')]
        .find((row) => row.querySelector('th')?.textContent.trim() === tag)
        ?.lastElementChild?.textContent.trim();
    expect(last('W-107')).to.equal('spoiled');
    expect(last('G-013')).to.equal('too many');
    expect(last('W-109')).to.equal('–');
    expect(last('W-104')).to.equal('0');
  });

  it('reports to the vet with n of N, every reason, the check, method and cautions', async () => {
    const paper = await paperOf(await openSession());
    await shown(paper, '.method');
    const text = paper.renderRoot.querySelector('.sheet')?.textContent.replace(/\s+/g, ' ') ?? '';
    expect(text).to.contain('19 July 2026');
    expect(text).to.contain('35 of 40');
    expect(text).to.contain('pale eyelids (4)');
    expect(text).to.match(/90 % limits [\d.]+ to [\d.]+ %/);
    expect(text).to.contain('an example nobody has confirmed');
    expect(text).to.contain('liver fluke');
    expect(text).to.contain('Garwood 1936');
  });

  it('has no violation of the accessibility rules', async () => {
    const paper = await paperOf(await openSession(), 'bench');
    const { violations } = await axe.run(paper);
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`)).to.eql([]);
  });
});
