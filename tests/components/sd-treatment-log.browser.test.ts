import { expect } from '@open-wc/testing';
import { html } from 'lit';
import type { SdAnimalHistory } from '../../components/sd-animal-history.ts';
import '../../components/sd-animal-history.ts';
import type { SdAnimalList } from '../../components/sd-animal-list.ts';
import '../../components/sd-animal-list.ts';
import type { SdTreatmentLog } from '../../components/sd-treatment-log.ts';
import '../../components/sd-treatment-log.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { animalOf, blocksOf, treatmentsOf } from '../../src/notebook/read.ts';
import { setsOf } from '../../src/notebook/record-sets.ts';
import type { Session } from '../../src/session/session.ts';
import { decide } from '../../src/treating/decision.ts';
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

/** The demo, and L-006 treated by the label yesterday. */
function treatedYesterday(): Notebook {
  return withFacts(
    withLabel(demo()),
    setsOf('treatments', 't-new', {
      animal: 'a-L-006',
      product: 'p-demo',
      date: '2026-07-18',
      time: '07:30',
      doseMl: 6,
      weightKg: 27.8,
      by: 'Ann',
      route: 'by mouth',
      byLabel: true,
      meatClear: '2026-07-29',
      milkClear: 'not permitted',
    }),
  );
}

async function open(
  notebook: Notebook = treatedYesterday(),
): Promise<{ session: Session; log: SdTreatmentLog }> {
  const session = await openSession(notebook);
  const id = blocksOf(notebook).find(({ kind }) => kind === 'treatment log')?.id ?? '';
  const log = await onPage<SdTreatmentLog>(
    session,
    html`<sd-treatment-log blockId=${id}></sd-treatment-log>`,
  );
  await log.updateComplete;
  return { session, log };
}

const field = (log: SdTreatmentLog, name: string): HTMLInputElement =>
  deep<HTMLInputElement>(log, `sd-treatment-line`).shadowRoot?.querySelector<HTMLInputElement>(
    `[name="${name}"]`,
  ) as HTMLInputElement;

describe('<sd-treatment-log>', () => {
  it('says who got what and when, by whom, and when it is clear, newest first', async () => {
    const { log } = await open();
    const text = allText(log);
    const newest = text.indexOf('18 July 2026, 07:30');
    expect(newest).to.be.greaterThan(-1).and.to.be.lessThan(text.indexOf('7 June 2026:'));
    expect(text).to.contain('by mouth, by Ann');
    expect(text).to.contain('6 mL (27.8 kg) meat clear 29 July 2026; milk not permitted');
    expect(text).to.contain('no dose noted no clear date, ask your vet');
    expect(text).to.contain('Several products, or a second dose, can make it later');
    await expect(log).to.be.accessible();
  });

  it('names what is not clear today, those alike together', async () => {
    const { log } = await open();
    const groups = [...log.renderRoot.querySelectorAll('[aria-label="Not clear"] li')];
    const words = groups.map((one) => allText(one));
    // The former treatment of L-006 has no clear date, so the later one's date does not end it.
    expect(words.some((one) => one.includes('no clear date') && one.includes('L-001'))).to.equal(
      true,
    );
    expect(words.some((one) => one.includes('not permitted') && one.endsWith('L-006'))).to.equal(
      true,
    );
  });

  it('offers the days to look again and to sample again, and saves them as a calendar file', async () => {
    const { log } = await open();
    // 7 days after 18 July; an active group not known: the common 14 days.
    await says(log, '25 July 2026: look again at 1 animal');
    await says(log, '1 August 2026: second sample of 1 animal');
    const made: Blob[] = [];
    const before = URL.createObjectURL;
    URL.createObjectURL = (blob: Blob) => {
      made.push(blob);
      return before.call(URL, blob);
    };
    const names: string[] = [];
    const catchLink = (event: Event): void => {
      const link = event.target;
      if (!(link instanceof HTMLAnchorElement)) return;
      names.push(link.download);
      event.preventDefault();
    };
    const click = HTMLAnchorElement.prototype.click;
    HTMLAnchorElement.prototype.click = function (this: HTMLAnchorElement) {
      this.addEventListener('click', catchLink);
      click.call(this);
    };
    try {
      button(log, 'Save the dates as a calendar file').click();
    } finally {
      URL.createObjectURL = before;
      HTMLAnchorElement.prototype.click = click;
    }
    expect(names).to.deep.equal(['Nettlewick Top dates.ics']);
    const text = await made[0]?.text();
    expect(text).to.contain('DTSTART;VALUE=DATE:20260725');
    expect(text).to.contain('DTSTAMP:20260719T083000Z');
    const days = deep<HTMLInputElement>(log, 'input[inputmode="numeric"]');
    type(days, '0');
    await says(log, '"0" is not a number of days from 1 to 99.');
    type(days, '10');
    await says(log, '28 July 2026: look again at 1 animal');
  });

  it('puts a line right and works its clear date out anew; what does not fit the label has none', async () => {
    const { log, session } = await open();
    button(log, 'Change the treatment of L-006 on 18 July 2026').click();
    await says(log, 'Keep the change');
    await expect(log).to.be.accessible();
    type(field(log, 'date'), '2026-07-17');
    button(log, 'Keep the change').click();
    await says(log, 'meat clear 28 July 2026');
    button(log, 'Change the treatment of L-006 on 17 July 2026').click();
    await says(log, 'Keep the change');
    type(field(log, 'dose'), '2');
    button(log, 'Keep the change').click();
    await says(log, 'too little. No clear date, ask your vet.');
    const line = treatmentsOf(session.notebook).find(({ id }) => id === 't-new');
    expect(line).to.include({ doseMl: 2, byLabel: false });
    await session.undo();
    await says(log, 'meat clear 28 July 2026');
  });

  it('refuses a dose that is no number and a day to come, and keeps what is typed', async () => {
    const { log, session } = await open();
    button(log, 'Change the treatment of L-006 on 18 July 2026').click();
    await says(log, 'Keep the change');
    type(field(log, 'dose'), '6ml');
    button(log, 'Keep the change').click();
    await says(log, 'The dose: "6ml" is not a number.');
    expect(field(log, 'dose').value).to.equal('6ml');
    type(field(log, 'dose'), '6');
    type(field(log, 'date'), '2026-09-01');
    button(log, 'Keep the change').click();
    await says(log, '1 September 2026 is still to come.');
    expect(session.undoLabel).to.equal(null);
  });

  it('takes a clear date that a vet gave, with the name of the vet', async () => {
    const { log, session } = await open();
    button(log, 'Change the treatment of L-001 on 7 June 2026').click();
    await says(log, 'A clear date that your vet gave');
    type(field(log, 'clear'), '2026-08-01');
    button(log, 'Write the clear date').click();
    await says(log, 'Type the name of the vet who gave this clear date.');
    type(field(log, 'vet'), 'A. Example');
    button(log, 'Write the clear date').click();
    await says(log, 'meat clear 1 August 2026');
    const line = treatmentsOf(session.notebook).find(({ animal }) => animal === 'a-L-001');
    expect(line?.note).to.equal('invented; meat clear from 2026-08-01, says A. Example');
  });

  it('takes a line off, and undo brings it back', async () => {
    const { log, session } = await open();
    button(log, 'Change the treatment of L-006 on 18 July 2026').click();
    await says(log, 'Take it off the log');
    button(log, 'Take it off the log').click();
    await until(
      () => treatmentsOf(session.notebook).length === 9,
      () => allText(log),
    );
    await until(
      () => !allText(log).includes('18 July 2026'),
      () => allText(log),
    );
    await session.undo();
    await says(log, '18 July 2026');
  });

  it('writes down a treatment that no list led to, by tags, and says which tag is not there', async () => {
    const { log, session } = await open();
    button(log, 'Write down a treatment').click();
    await says(log, 'Tags, with commas between');
    type(deep<HTMLTextAreaElement>(log, 'textarea'), 'W-101, W-999');
    await says(log, '1 tag is not in this notebook: W-999.');
    await until(
      () => allText(log).includes('1 ticked and not yet in the log'),
      () => allText(log),
    );
    choose(deep<HTMLSelectElement>(log, '.fields select'), 'p-demo');
    await says(log, 'drawn up as 15 mL');
    button(log, 'Write 1 treatment to the log').click();
    await until(
      () => treatmentsOf(session.notebook).some(({ animal }) => animal === 'a-W-101'),
      () => allText(log),
    );
    await says(log, '19 July 2026');
  });
});

describe('<sd-animal-list>, animals leaving', () => {
  it('warns of meat that is not clear on the day of leaving, and lets them go all the same', async () => {
    const session = await openSession(treatedYesterday());
    const list = await onPage<SdAnimalList>(session, html`<sd-animal-list></sd-animal-list>`);
    for (const tag of ['L-001', 'W-101'])
      deep<HTMLInputElement>(list, `[data-id="a-${tag}"] input`).click();
    await says(list, '2 animals ticked.');
    button(list, 'Left the farm').click();
    const text = await says(list, 'L-001 would leave on 19 July 2026: Meat: no clear date');
    expect(text).not.to.contain('W-101 would leave');
    await expect(list).to.be.accessible();
    button(list, '2 animals left').click();
    await until(
      () => animalOf(session.notebook, 'a-L-001')?.left === TODAY,
      () => allText(list),
    );
  });
});

describe('<sd-animal-history>', () => {
  it('shows counts by day, treatments and decisions of one animal, newest first', async () => {
    const session = await openSession(treatedYesterday());
    const edit = decide(session.notebook, TODAY, [
      { animal: 'a-L-006', treat: false, reason: 'looks well', values: { epg: 800, eyelid: 2 } },
    ]);
    if (isFault(edit)) throw new Error(edit.sentence);
    await session.dispatch(edit);
    const dialog = await onPage<SdAnimalHistory>(
      session,
      html`<sd-animal-history></sd-animal-history>`,
    );
    dialog.show('a-L-006');
    await dialog.open();
    const text = await says(dialog, '10 May 2026');
    expect(text).to.contain('History of L-006');
    const order = ['19 July 2026', '18 July 2026', '21 June 2026', '7 June 2026', '10 May 2026'];
    const places = order.map((words) => text.indexOf(words));
    expect(places).to.deep.equal([...places].sort((a, b) => a - b));
    // 17 and 11 eggs at 50 epg an egg on 7 June, 1 and 0 on 21 June.
    expect(text).to.contain('1,400 epg').and.to.contain('50 epg, 14 days after treatment');
    expect(text).to.contain(
      'Decided: leave untreated (looks well). Decided on 800 epg, eyelid colour 2.',
    );
    await expect(dialog).to.be.accessible();
  });
});
