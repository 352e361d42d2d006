import { expect } from '@open-wc/testing';
import { sendKeys } from '@web/test-runner-commands';
import { html } from 'lit';
import type { SdAddAnimals } from '../../components/sd-add-animals.ts';
import '../../components/sd-add-animals.ts';
import type { SdAnimalForm } from '../../components/sd-animal-form.ts';
import '../../components/sd-animal-form.ts';
import type { SdAnimalList } from '../../components/sd-animal-list.ts';
import '../../components/sd-animal-list.ts';
import type { SdDayBar } from '../../components/sd-day-bar.ts';
import '../../components/sd-day-bar.ts';
import type { SdDoseRound } from '../../components/sd-dose-round.ts';
import '../../components/sd-dose-round.ts';
import type { SdTreatmentLine } from '../../components/sd-treatment-line.ts';
import '../../components/sd-treatment-line.ts';
import { animalOf, animalsOf, daysOf, treatmentsOf } from '../../src/notebook/read.ts';
import { setsOf } from '../../src/notebook/record-sets.ts';
import { demo, openSession } from './open-notebook.ts';
import {
  allText,
  button,
  choose,
  deep,
  onPage,
  says,
  type,
  until,
  withFacts,
  withLabel,
} from './treating-page.ts';

const NOT_WHOLE = 'This date is not whole: type day, month and year, or empty it.';

/** Takes one part out of a date that is whole, or types one part of an empty one. */
async function halve(field: HTMLInputElement): Promise<void> {
  field.focus();
  await sendKeys(field.value === '' ? { type: '05' } : { press: 'Backspace' });
  expect(field.validity.badInput, 'a part is missing').to.equal(true);
}

describe('a date that lacks a part', () => {
  it('erases no date that is kept of an animal', async () => {
    const born = setsOf('animals', 'a-W-101', { born: '2022-03-04' });
    const session = await openSession(withFacts(demo(), born));
    const form = await onPage<SdAnimalForm>(
      session,
      html`<sd-animal-form animalId="a-W-101"></sd-animal-form>`,
    );
    const field = deep<HTMLInputElement>(form, '[name="born"]');
    await halve(field);
    button(form, 'Keep the change').click();
    await says(form, NOT_WHOLE);
    expect(form.shadowRoot?.activeElement).to.equal(field);
    expect(animalOf(session.notebook, 'a-W-101')?.born).to.equal('2022-03-04');
    type(field, '');
    button(form, 'Keep the change').click();
    await until(
      () => animalOf(session.notebook, 'a-W-101')?.born === undefined,
      () => allText(form),
    );
  });

  it('adds no animals', async () => {
    const session = await openSession();
    const form = await onPage<SdAddAnimals>(session, html`<sd-add-animals></sd-add-animals>`);
    const before = animalsOf(session.notebook).length;
    type(deep<HTMLTextAreaElement>(form, 'textarea'), 'K-300');
    await says(form, '1 new animal');
    await halve(deep<HTMLInputElement>(form, '[name="arrived"]'));
    button(form, 'Add 1 animal').click();
    await says(form, NOT_WHOLE);
    expect(animalsOf(session.notebook)).to.have.length(before);
    expect(deep<HTMLTextAreaElement>(form, 'textarea').value).to.equal('K-300');
  });

  for (const [opens, does] of [
    ['Move to a group', 'Move W-101'],
    ['Left the farm', 'W-101 left'],
  ] as const)
    it(`is asked for before ${does}`, async () => {
      const session = await openSession();
      const list = await onPage<SdAnimalList>(session, html`<sd-animal-list></sd-animal-list>`);
      deep<HTMLInputElement>(list, '[data-id="a-W-101"] input').click();
      await says(list, 'W-101 ticked');
      button(list, opens).click();
      await says(list, does);
      await halve(deep<HTMLInputElement>(list, '[name="date"]'));
      button(list, does).click();
      await says(list, NOT_WHOLE);
      expect(session.undoLabel).to.equal(null);
    });

  it('adds no day, and stays as it is when the form is opened again', async () => {
    const session = await openSession();
    const bar = await onPage<SdDayBar>(session, html`<sd-day-bar></sd-day-bar>`);
    const before = daysOf(session.notebook).length;
    await bar.add();
    const field = deep<HTMLInputElement>(bar, '[name="date"]');
    await halve(field);
    button(bar, 'Add the day').click();
    await says(bar, NOT_WHOLE);
    expect(daysOf(session.notebook)).to.have.length(before);
    await bar.add();
    expect(field.validity.badInput).to.equal(true);
  });

  it('is asked for on a line of the treatment log, and a time likewise', async () => {
    const given = setsOf('treatments', 't-new', {
      animal: 'a-L-006',
      product: 'p-demo',
      date: '2026-07-18',
      time: '07:30',
    });
    const session = await openSession(withFacts(withLabel(demo()), given));
    const line = await onPage<SdTreatmentLine>(
      session,
      html`<sd-treatment-line treatmentId="t-new"></sd-treatment-line>`,
    );
    const kept = () => treatmentsOf(session.notebook).find(({ id }) => id === 't-new');
    await halve(deep<HTMLInputElement>(line, '[name="time"]'));
    button(line, 'Keep the change').click();
    await says(line, 'This time is not whole: type hour and minute, or empty it.');
    await halve(deep<HTMLInputElement>(line, '[name="date"]'));
    button(line, 'Keep the change').click();
    await says(line, NOT_WHOLE);
    expect(kept()).to.include({ date: '2026-07-18', time: '07:30' });
    await halve(deep<HTMLInputElement>(line, '[name="clear"]'));
    button(line, 'Write the clear date').click();
    await until(
      () => allText(line).split(NOT_WHOLE).length === 3,
      () => allText(line),
    );
    expect(session.undoLabel).to.equal(null);
  });

  it('writes no round of doses, least of all as of today', async () => {
    const session = await openSession(withLabel(demo()));
    const before = treatmentsOf(session.notebook).length;
    const round = await onPage<SdDoseRound>(
      session,
      html`<sd-dose-round .animals=${['a-L-006']}></sd-dose-round>`,
    );
    choose(deep<HTMLSelectElement>(round, 'select'), 'p-demo');
    await says(round, 'Given on');
    const field = deep<HTMLInputElement>(round, '[type="date"]');
    type(field, '2026-07-17');
    await halve(field);
    field.dispatchEvent(new Event('change'));
    await round.updateComplete;
    expect(field.value, 'today is not put in its place').to.equal('');
    button(round, 'Write 1 treatment to the log').click();
    await says(round, NOT_WHOLE);
    expect(treatmentsOf(session.notebook)).to.have.length(before);
  });
});
