import { expect } from '@open-wc/testing';
import { sendKeys } from '@web/test-runner-commands';
import { html } from 'lit';
import type { SdTreatmentList } from '../../components/sd-treatment-list.ts';
import '../../components/sd-tag-line.ts';
import '../../components/sd-treatment-list.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { blocksOf, treatmentsOf } from '../../src/notebook/read.ts';
import { setsOf } from '../../src/notebook/record-sets.ts';
import type { Session } from '../../src/session/session.ts';
import { decisionOf } from '../../src/treating/decision.ts';
import { treatmentsOfAnimal } from '../../src/treating/after-treatment.ts';
import { sessionAgain } from './fake-session.ts';
import { demo, openSession } from './open-notebook.ts';
import {
  allText,
  button,
  choose,
  deep,
  onPage,
  says,
  TODAY,
  type,
  until,
  withFacts,
  withLabel,
} from './treating-page.ts';

interface Open {
  readonly session: Session;
  readonly list: SdTreatmentList;
}

async function open(notebook: Notebook = withLabel(demo())): Promise<Open> {
  const session = await openSession(notebook);
  const id = blocksOf(notebook).find(({ kind }) => kind === 'treatment list')?.id ?? '';
  const list = await onPage<SdTreatmentList>(
    session,
    html`<sd-treatment-list blockId=${id}></sd-treatment-list>`,
  );
  await says(list, 'over your criteria');
  return { session, list };
}

function tick(list: SdTreatmentList, tag: string): HTMLInputElement {
  const rows = [...list.renderRoot.querySelectorAll('li.animal')];
  const row = rows.find((one) => one.querySelector('.tag')?.textContent === tag);
  const input = row?.querySelector<HTMLInputElement>('.treat input');
  if (!input) throw new Error(`${tag} has no tick`);
  return input;
}

const decided = ({ session }: Open, tag: string) => decisionOf(session.notebook, TODAY, `a-${tag}`);

describe('<sd-treatment-list>', () => {
  it('puts danger first, every reason beside the animal, and says what was not counted', async () => {
    const { list } = await open();
    const rows = [...list.renderRoot.querySelectorAll('ol[aria-label^="Over"] li')];
    const tags = rows.map((row) => row.querySelector('.tag')?.textContent);
    // Bottle jaw before pale eyelids before too many eggs before the epg, as the criteria have it.
    expect(tags.slice(0, 3)).to.deep.equal(['G-015', 'L-011', 'G-013']);
    expect(rows[1]?.textContent).to.contain('pale eyelids (4), not counted');
    expect(rows[1]?.textContent).to.contain('Pale whatever the count: an emergency.');
    const text = allText(list);
    expect(text).to.contain('11 over your criteria · 26 below · 3 not enough known');
    expect(text).to.contain('missing: epg. W-107, W-109, L-005');
    await expect(list).to.be.accessible();
  });

  it('rings the herd alarm where a tenth of those scored are pale', async () => {
    const { list, session } = await open();
    expect(list.renderRoot.querySelector('.pale')).to.equal(null);
    const pale = ['W-101', 'W-102', 'W-103'].map((tag) => ({
      path: ['readings', TODAY, `a-${tag}`, 'c-eyelid'] as const,
      value: { kind: 'number', text: '4', value: 4 },
    }));
    await session.dispatch({ label: 'scores', source: 'typed', sets: pale });
    // 4 of the 39 scored that day: 10 %, the limit itself.
    await says(list, 'Ring your vet today: 4 of 39 scored are at eyelid colour 4 or 5');
  });

  it('records a tick with its reason and the values it was made on, and takes it back', async () => {
    const page = await open();
    tick(page.list, 'L-016').click();
    await until(
      () => decided(page, 'L-016') !== undefined,
      () => 'no decision',
    );
    const decision = decided(page, 'L-016');
    expect(decision?.treat).to.equal(true);
    expect(decision?.reason).to.equal('epg at your limit or more');
    expect(decision?.values).to.include({ epg: 1350, eyelid: 3, chamber1: 15 });
    await until(
      () => tick(page.list, 'L-016').checked,
      () => 'not ticked',
    );
    tick(page.list, 'L-016').click();
    await until(
      () => decided(page, 'L-016') === undefined,
      () => 'still decided',
    );
  });

  it('lets the list be gone against, asks why, and keeps what is answered', async () => {
    const page = await open();
    button(page.list, 'Show these 26 with a tick').click();
    await page.list.updateComplete;
    tick(page.list, 'W-101').click();
    await says(page.list, 'Treated though below your criteria. Why?');
    type(deep<HTMLInputElement>(page.list, '.reason input'), 'scouring since Friday');
    await until(
      () => decided(page, 'W-101')?.reason !== '',
      () => 'no reason',
    );
    expect(decided(page, 'W-101')).to.include({ treat: true, reason: 'scouring since Friday' });
    button(page.list, 'Leave L-015 untreated').click();
    await says(page.list, 'Left though over your criteria. Why?');
    expect(decided(page, 'L-015')).to.include({ treat: false, reason: '' });
    await expect(page.list).to.be.accessible();
  });

  it('says what a decision was made on once the counts are put right', async () => {
    const page = await open();
    tick(page.list, 'L-015').click();
    await until(
      () => decided(page, 'L-015') !== undefined,
      () => 'no decision',
    );
    await page.session.dispatch({
      label: 'a count put right',
      source: 'typed',
      sets: [
        {
          path: ['readings', TODAY, 'a-L-015', 'c-chamber1'],
          value: { kind: 'number', text: '0', value: 0 },
        },
      ],
    });
    await says(page.list, 'Decided on 500 epg, eyelid colour 2');
  });

  it('ticks all that are over in one step that one undo takes back', async () => {
    const page = await open();
    button(page.list, 'Tick all 11').click();
    await says(page.list, '11 ticked');
    expect(page.session.undoLabel).to.equal('deciding to treat 11 animals');
    await page.session.undo();
    await says(page.list, 'Tick all 11');
  });

  it('works doses out for the ticked, shows the sum, and writes them to the log as one step', async () => {
    const page = await open();
    tick(page.list, 'L-016').click();
    await says(page.list, '1 ticked and not yet in the log');
    choose(deep<HTMLSelectElement>(page.list, '.fields select'), 'p-demo');
    // 29.1 kg by 1 mL per 5 kg is 5.82 mL, drawn up to the next half millilitre: by hand.
    await says(page.list, '29.1 kg × 1 mL ÷ 5 kg = 5.82 mL, drawn up as 6 mL');
    await says(page.list, 'Have ready: 6.6 mL (6 mL for 1 of 1, and 10 % more)');
    await expect(page.list).to.be.accessible();
    button(page.list, 'Write 1 treatment to the log').click();
    await until(
      () => treatmentsOfAnimal(page.session.notebook, 'a-L-016').length === 2,
      () => allText(page.list),
    );
    const line = treatmentsOfAnimal(page.session.notebook, 'a-L-016').at(-1);
    expect(line).to.include({ doseMl: 6, weightKg: 29.1, date: TODAY, byLabel: true });
    // The tenth day has to pass, then it is clear: 19 July + 11.
    expect(line?.meatClear).to.equal('2026-07-30');
    expect(line?.milkClear).to.equal('not permitted');
    await page.session.undo();
    expect(treatmentsOfAnimal(page.session.notebook, 'a-L-016').length).to.equal(1);
  });

  it('says nothing of the log, and ticks nothing, where another tab writes and this one is refused', async () => {
    const page = await open();
    tick(page.list, 'L-016').click();
    await says(page.list, '1 ticked and not yet in the log');
    let refusals = 0;
    const following = sessionAgain(page.session, 'following', () => (refusals += 1));
    await following.open(TODAY);
    const { id = '' } =
      blocksOf(following.notebook).find(({ kind }) => kind === 'treatment list') ?? {};
    const list = await onPage<SdTreatmentList>(
      following,
      html`<sd-treatment-list blockId=${id}></sd-treatment-list>`,
    );
    await says(list, '1 ticked and not yet in the log');
    const said: string[] = [];
    const hear = (event: Event): void => {
      said.push((event as CustomEvent<{ sentence: string }>).detail.sentence);
    };
    document.body.addEventListener('page-message', hear);
    choose(deep<HTMLSelectElement>(list, '.fields select'), 'p-demo');
    await says(list, '= 5.82 mL, drawn up as 6 mL');
    button(list, 'Write 1 treatment to the log').click();
    tick(list, 'L-011').click();
    await until(
      () => refusals === 2,
      () => `${refusals} refusals`,
    );
    await list.updateComplete;
    document.body.removeEventListener('page-message', hear);
    expect(said).to.deep.equal([]);
    expect(tick(list, 'L-011').checked).to.equal(false);
    expect(allText(list)).to.contain('= 5.82 mL, drawn up as 6 mL');
  });

  it('gives no number where there is no strength, and none for a weight that cannot be', async () => {
    const heavy = withFacts(withLabel(demo()), [
      {
        path: ['readings', TODAY, 'a-L-016', 'c-weight'],
        value: { kind: 'number', text: '4000', value: 4000, unit: 'kg' },
      },
    ]);
    const page = await open(heavy);
    tick(page.list, 'L-016').click();
    await says(page.list, '1 ticked');
    choose(deep<HTMLSelectElement>(page.list, '.fields select'), 'p-demo');
    await says(page.list, 'L-016: 4000 kg is heavier than any sheep or goat. Check the digits.');
    const dose = deep<HTMLInputElement>(page.list, '.doses input');
    expect(dose.value).to.equal('');
    type(dose, '0');
    await says(page.list, 'A dose is more than 0 mL');
    button(page.list, 'Write 1 treatment to the log').click();
    await says(page.list, 'L-016: A dose is more than 0 mL');
    expect(treatmentsOf(page.session.notebook).length).to.equal(9);
    const bare = await open(demo());
    tick(bare.list, 'L-016').click();
    await says(bare.list, '1 ticked');
    choose(deep<HTMLSelectElement>(bare.list, '.fields select'), 'p-demo');
    await says(bare.list, 'has no strength: type the label');
    expect(deep<HTMLInputElement>(bare.list, '.doses input').value).to.equal('');
  });

  it('asks about a weight that is old for a lamb before anything is written', async () => {
    const old = withFacts(withLabel(demo()), [
      { path: ['readings', TODAY, 'a-L-016', 'c-weight'], value: null },
    ]);
    const page = await open(old);
    tick(page.list, 'L-016').click();
    await says(page.list, '1 ticked');
    choose(deep<HTMLSelectElement>(page.list, '.fields select'), 'p-demo');
    await says(page.list, 'L-016 was weighed 28 days ago (21 June 2026) and is growing');
    button(page.list, 'Write 1 treatment to the log').click();
    await says(page.list, 'Look at the questions above first');
    deep<HTMLInputElement>(page.list, '.asks input').click();
    button(page.list, 'Write 1 treatment to the log').click();
    await until(
      () => treatmentsOf(page.session.notebook).length === 10,
      () => allText(page.list),
    );
  });

  it('doses a band by its heaviest, and stops where the lightest would get twice its own', async () => {
    const page = await open();
    for (const tag of ['L-016', 'L-006']) {
      tick(page.list, tag).click();
      await until(
        () => decided(page, tag) !== undefined,
        () => tag,
      );
    }
    await says(page.list, '2 ticked and not yet');
    choose(deep<HTMLSelectElement>(page.list, '.fields select'), 'p-demo');
    await says(page.list, 'One dose for all');
    deep<HTMLInputElement>(page.list, '.fields .tick input').click();
    await says(page.list, 'by the heaviest, L-016. The lightest, L-006 (27.8 kg), gets 6 mL');
    tick(page.list, 'W-102').click();
    // 65.3 kg takes 13.5 mL; the lightest, 27.8 kg, its own 5.56: more than twice.
    await says(page.list, 'split the band by weight');
  });

  it('says who stays untreated, group by group, warns under the own figure and proposes whom to leave', async () => {
    const all = withFacts(withLabel(demo()), [
      ...setsOf('about', 'notebook', { keepUntreated: 0.9 }),
      ...['L-015', 'L-001'].map((tag) => ({
        path: ['readings', TODAY, `a-${tag}`, 'c-eyelid'] as const,
        value: { kind: 'number', text: '1', value: 1 },
      })),
    ]);
    const { list, session } = await open(all);
    await says(list, 'lambs: 11 of 19 stay untreated (58 %), 1 more not enough known');
    await says(list, 'fewer than the 90 % you set');
    await says(list, 'Treat every animal that shows a sign all the same.');
    button(list, 'Leave L-015 untreated').click();
    await until(
      () => decided({ list, session }, 'L-015')?.treat === false,
      () => 'not left',
    );
    type(deep<HTMLInputElement>(list, '.own input'), '120');
    await says(list, 'The share goes from 0 to 100 %.');
    type(deep<HTMLInputElement>(list, '.own input'), '5');
    await until(
      () => !allText(list).includes('fewer than the'),
      () => allText(list),
    );
  });

  it('writes out a few of very many tags, counts the rest, and shows all as one piece of text', async () => {
    const tags = Array.from({ length: 400 }, (_, at) => `Z-${1001 + at}`);
    const many = withFacts(
      withLabel(demo()),
      tags.flatMap((tag) => setsOf('animals', `a-${tag}`, { tag, class: 'ewe' })),
    );
    const { list } = await open(many);
    const line = [...list.renderRoot.querySelectorAll('sd-tag-line')].find((one) =>
      one.tags.includes('Z-1400'),
    );
    if (!line) throw new Error('no line of tags');
    const elements = (): number => line.renderRoot.querySelectorAll('*:not(style)').length;
    // With the three not counted in the demo.
    expect(line.tags.length).to.equal(403);
    expect(line.renderRoot.querySelectorAll('.name').length).to.equal(30);
    expect(allText(line)).to.match(/^Z-1001, Z-1002, .*Z-1030 and 373 more$/);
    expect(elements()).to.equal(31);
    button(line, 'and 373 more').click();
    await line.updateComplete;
    expect(allText(line)).to.match(/^Z-1001, .*Z-1400,? .*Show only the first 30$/);
    expect(elements()).to.equal(2);
    await expect(list).to.be.accessible();
    button(line, 'Show only the first 30').click();
    await line.updateComplete;
    expect(allText(line)).not.to.contain('Z-1400');
    window.dispatchEvent(new Event('beforeprint'));
    expect(allText(line)).to.contain('Z-1400');
  });

  it('is worked by keyboard: a tick by Space, a tag by Enter', async () => {
    const page = await open();
    tick(page.list, 'L-016').focus();
    await sendKeys({ press: 'Space' });
    await until(
      () => decided(page, 'L-016')?.treat === true,
      () => 'not ticked by Space',
    );
    const went: string[] = [];
    page.list.addEventListener('go-to-animal', (event) =>
      went.push((event as CustomEvent<{ row: string }>).detail.row),
    );
    await sendKeys({ press: 'Tab' });
    await sendKeys({ press: 'Enter' });
    expect(went).to.deep.equal(['a-L-016']);
  });
});
