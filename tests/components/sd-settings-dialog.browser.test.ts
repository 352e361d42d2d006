import { expect } from '@open-wc/testing';
import { setViewport } from '@web/test-runner-commands';
import { html } from 'lit';
import type { SdSettingsDialog, SettingsView } from '../../components/sd-settings-dialog.ts';
import '../../components/sd-settings-dialog.ts';
import { aboutOf, columnByKey, dayOf, limitsOf, limitValue } from '../../src/notebook/read.ts';
import type { Session } from '../../src/session/session.ts';
import { openSession } from './open-notebook.ts';
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
} from './treating-page.ts';

interface Open {
  readonly session: Session;
  readonly dialog: SdSettingsDialog;
  readonly form: HTMLElement;
}

async function open(view: SettingsView, tag: string): Promise<Open> {
  const session = await openSession();
  const dialog = await onPage<SdSettingsDialog>(
    session,
    html`<sd-settings-dialog></sd-settings-dialog>`,
  );
  await dialog.open(view);
  return { session, dialog, form: deep(dialog, tag) };
}

const field = (host: Element, name: string): HTMLInputElement =>
  deep<HTMLInputElement>(host, `[name="${name}"]`);

/** The list that says which days a change holds on: the last of its form. */
function reachOf(form: HTMLElement): HTMLSelectElement {
  const reach = [...(form.shadowRoot?.querySelectorAll('select') ?? [])].at(-1);
  if (!reach) throw new Error('no reach');
  return reach;
}

describe('how you count', () => {
  for (const width of [1280, 390])
    it(`cuts no choice of a list on a screen ${width} wide`, async () => {
      await setViewport({ width, height: 844 });
      try {
        const { form } = await open('protocol', 'sd-protocol-form');
        const lists = [...(form.shadowRoot?.querySelectorAll('select') ?? [])];
        expect(lists.length).to.be.greaterThan(0);
        for (const list of lists) {
          const given = list.offsetWidth;
          list.style.width = 'max-content';
          expect(given, list.name).to.be.at.least(list.offsetWidth);
          list.style.width = '';
        }
      } finally {
        await setViewport({ width: 800, height: 600 });
      }
    });
});

describe('the settings of the notebook', () => {
  it('keep name, words and units; a weight typed in kg stays as it was typed', async () => {
    const { session, dialog, form } = await open('about', 'sd-about-form');
    const weight = columnByKey(session.notebook, 'weight')?.id ?? '';
    const before = session.notebook.readings[TODAY]?.['a-W-101']?.[weight];
    field(form, 'title').value = 'Nettlewick';
    choose(deep<HTMLSelectElement>(form, '[name="weightUnit"]'), 'lb');
    choose(deep<HTMLSelectElement>(form, '[name="herdWord"]'), 'mob');
    button(form, 'Keep these').click();
    await says(dialog, 'Kept.');
    expect(aboutOf(session.notebook)).to.deep.include({
      title: 'Nettlewick',
      weightUnit: 'lb',
      herdWord: 'mob',
    });
    expect(session.notebook.readings[TODAY]?.['a-W-101']?.[weight]).to.equal(before);
  });

  it('say what is not kept yet, and can be let go; a share is shown as it was typed', async () => {
    const { session, dialog, form } = await open('about', 'sd-about-form');
    const unit = deep<HTMLSelectElement>(form, '[name="weightUnit"]');
    expect(allText(form)).to.not.contain('Not kept yet');
    choose(unit, 'lb');
    unit.dispatchEvent(new Event('input', { bubbles: true, composed: true }));
    type(field(form, 'keep'), '12.55');
    await says(dialog, 'Not kept yet.');
    button(form, 'Forget the changes').click();
    await until(
      () => unit.value === 'kg' && field(form, 'keep').value === '10',
      () => `${unit.value}, ${field(form, 'keep').value}`,
    );
    expect(allText(form)).to.not.contain('Not kept yet');
    type(field(form, 'keep'), '12.55');
    button(form, 'Keep these').click();
    await says(dialog, 'Kept.');
    expect(aboutOf(session.notebook)).to.deep.include({ weightUnit: 'kg', keepUntreated: 0.1255 });
    expect(field(form, 'keep').value).to.equal('12.55');
  });

  it('read and write the share by the decimal mark chosen with it', async () => {
    const { session, dialog, form } = await open('about', 'sd-about-form');
    const mark = deep<HTMLSelectElement>(form, '[name="decimalMark"]');
    const chooseMark = (value: string): void => {
      choose(mark, value);
      mark.dispatchEvent(new Event('input', { bubbles: true, composed: true }));
    };
    chooseMark(',');
    type(field(form, 'keep'), '12,5');
    button(form, 'Keep these').click();
    await says(dialog, 'Kept.');
    expect(aboutOf(session.notebook)).to.deep.include({ decimalMark: ',', keepUntreated: 0.125 });
    chooseMark('.');
    await until(
      () => field(form, 'keep').value === '12.5',
      () => field(form, 'keep').value,
    );
    button(form, 'Keep these').click();
    await until(
      () => aboutOf(session.notebook).decimalMark === '.',
      () => allText(form),
    );
    expect(aboutOf(session.notebook).keepUntreated).to.equal(0.125);
    // What was typed stays as it was typed, and is refused with its reason.
    type(field(form, 'keep'), '13.5');
    chooseMark(',');
    button(form, 'Keep these').click();
    await says(form, 'the decimal mark here is a comma');
    expect(field(form, 'keep').value).to.equal('13.5');
  });

  it('refuse a notebook without a name', async () => {
    const { session, dialog, form } = await open('about', 'sd-about-form');
    field(form, 'title').value = ' ';
    button(form, 'Keep these').click();
    await says(dialog, 'A notebook needs a name');
    expect(aboutOf(session.notebook).title).to.equal('Nettlewick Top');
  });
});

describe('how you count', () => {
  it('shows the sum of the factor as it is typed', async () => {
    const { form } = await open('protocol', 'sd-protocol-form');
    expect(allText(form)).to.contain('(28 mL + 2 g) ÷ (2 g × 0.15 mL × 2) = 50');
    // 3 g and 42 mL, two grids of 0.15 mL: 50; one grid: 100 (dilution arithmetic).
    type(field(form, 'grams'), '3');
    type(field(form, 'fluidMl'), '42');
    type(field(form, 'areas'), '1');
    await says(form, '(42 mL + 3 g) ÷ (3 g × 0.15 mL × 1) = 100');
  });

  it('holds from the open day on and leaves the days before as they were', async () => {
    const { session, dialog, form } = await open('protocol', 'sd-protocol-form');
    await session.open('2026-06-21');
    type(field(form, 'grams'), '4');
    button(form, 'Keep these').click();
    await says(dialog, 'Kept.');
    const grams = (day: string) => dayOf(session.notebook, day)?.grams;
    expect(['2026-06-07', '2026-06-21', TODAY].map(grams)).to.deep.equal([2, 4, 4]);
  });

  it('holds on the open day alone, or on every day, when asked', async () => {
    const { session, dialog, form } = await open('protocol', 'sd-protocol-form');
    const grams = (day: string) => dayOf(session.notebook, day)?.grams;
    const reach = reachOf(form);
    await session.open('2026-06-07');
    choose(reach, 'only this day');
    type(field(form, 'grams'), '3');
    button(form, 'Keep these').click();
    await says(dialog, 'Kept.');
    expect(['2026-05-10', '2026-06-07', TODAY].map(grams)).to.deep.equal([2, 3, 2]);
    choose(reach, 'every day');
    type(field(form, 'grams'), '5');
    button(form, 'Keep these').click();
    await until(
      () => grams('2026-05-10') === 5,
      () => String(grams('2026-05-10')),
    );
    expect(grams(TODAY)).to.equal(5);
  });

  it('reaches other days with what was changed alone: each keeps the rest of its own', async () => {
    const { session, dialog, form } = await open('protocol', 'sd-protocol-form');
    const reach = reachOf(form);
    await session.open('2026-06-07');
    choose(reach, 'only this day');
    type(field(form, 'grams'), '3');
    button(form, 'Keep these').click();
    await says(dialog, 'Kept.');
    await session.open(TODAY);
    choose(reach, 'every day');
    type(field(form, 'lanes'), '4');
    button(form, 'Keep these').click();
    const june = () => dayOf(session.notebook, '2026-06-07');
    await until(
      () => june()?.lanes === 4,
      () => String(june()?.lanes),
    );
    expect(june()?.grams).to.equal(3);
  });

  it('shows what is typed for one day on that day alone, and as not kept yet', async () => {
    const { session, form } = await open('protocol', 'sd-protocol-form');
    type(field(form, 'grams'), '-7');
    await until(
      () => allText(form).includes('Not kept yet'),
      () => allText(form),
    );
    button(form, 'Keep these').click();
    await says(form, 'type a number above 0.');
    await session.open('2026-06-21');
    await until(
      () => field(form, 'grams').value === '2',
      () => field(form, 'grams').value,
    );
    expect(allText(form)).to.not.contain('Not kept yet').and.to.not.contain('a number above 0.');
    await session.open(TODAY);
    await until(
      () => field(form, 'grams').value === '-7',
      () => field(form, 'grams').value,
    );
    await says(form, 'type a number above 0.');
    button(form, 'Forget the changes').click();
    await until(
      () => field(form, 'grams').value === '2',
      () => field(form, 'grams').value,
    );
  });

  it('reaches into the past only where that was chosen since the settings were opened', async () => {
    const { session, dialog, form } = await open('protocol', 'sd-protocol-form');
    const grams = (day: string) => dayOf(session.notebook, day)?.grams;
    const reach = reachOf(form);
    choose(reach, 'every day');
    deep(dialog, 'sd-sheet').dispatchEvent(new CustomEvent('sheet-closed'));
    await dialog.open('protocol');
    await until(
      () => reach.value === 'from this day on',
      () => reach.value,
    );
    type(field(form, 'grams'), '6');
    button(form, 'Keep these').click();
    await says(dialog, 'Kept.');
    expect(['2026-05-10', '2026-06-21', TODAY].map(grams)).to.deep.equal([2, 2, 6]);
  });

  it('refuses what is no measure with its reason, and keeps what was typed', async () => {
    const { session, dialog, form } = await open('protocol', 'sd-protocol-form');
    type(field(form, 'grams'), '2,5');
    button(form, 'Keep these').click();
    await says(dialog, 'Type 2.5');
    expect(field(form, 'grams').value).to.equal('2,5');
    expect(dayOf(session.notebook, TODAY)?.grams).to.equal(2);
  });

  it('refuses a part of a lane or of a grid, and a fluid lighter than water', async () => {
    const { session, dialog, form } = await open('protocol', 'sd-protocol-form');
    const before = dayOf(session.notebook, TODAY);
    for (const [name, typed, said] of [
      ['lanes', '6.5', 'Lanes in one grid: type a whole number'],
      ['areas', '1.5', 'Grids counted: type a whole number'],
      ['gravity', '0.9', 'like 1.2'],
      ['gravity', '1270', 'like 1.2'],
    ] as const) {
      const input = field(form, name);
      const kept = input.value;
      type(input, typed);
      button(form, 'Keep these').click();
      await says(dialog, said);
      expect(input.value).to.equal(typed);
      type(input, kept);
    }
    expect(dayOf(session.notebook, TODAY)).to.deep.equal(before);
  });
});

describe('limits', () => {
  it('are examples until kept, then bear who said so, from this day on', async () => {
    const { session, dialog, form } = await open('limits', 'sd-limits-form');
    expect(allText(form)).to.contain('example, not yet yours');
    type(deep<HTMLInputElement>(form, '[aria-label="Treat from, value"]'), '800');
    type(deep<HTMLInputElement>(form, '[aria-label="Treat from, who said so"]'), 'our vet');
    button(form, 'Keep it as mine: Treat from').click();
    await says(dialog, 'Treat from is kept, and yours.');
    const { notebook } = session;
    const limit = limitsOf(notebook).find(({ key }) => key === 'treat_from');
    expect(limit).to.deep.include({ saidBy: 'our vet', confirmed: true });
    expect(limitValue(notebook, TODAY, limit?.id ?? '')).to.equal(800);
    expect(limitValue(notebook, '2026-06-07', limit?.id ?? '')).to.equal(500);
  });

  it('keep who said so on the days not reached, and show no draft on another day', async () => {
    const { session, dialog, form } = await open('limits', 'sd-limits-form');
    const value = () => deep<HTMLInputElement>(form, '[aria-label="Treat from, value"]').value;
    const who = () => deep<HTMLInputElement>(form, '[aria-label="Treat from, who said so"]').value;
    const reach = form.shadowRoot?.querySelector('select');
    if (!reach) throw new Error('no reach');
    const example = who();
    choose(reach, 'only this day');
    type(deep<HTMLInputElement>(form, '[aria-label="Treat from, value"]'), '700');
    type(deep<HTMLInputElement>(form, '[aria-label="Treat from, who said so"]'), 'our vet, July');
    button(form, 'Keep it as mine: Treat from').click();
    await says(dialog, 'Treat from is kept, and yours.');
    await session.open('2026-06-21');
    await until(
      () => value() === '500' && who() === example,
      () => `${value()}, ${who()}`,
    );
    expect(button(form, 'Keep it as mine: Treat from')).to.not.equal(null);
    type(deep<HTMLInputElement>(form, '[aria-label="Treat from, value"]'), '900');
    await says(dialog, 'Not kept yet.');
    await session.open(TODAY);
    await until(
      () => value() === '700' && who() === 'our vet, July',
      () => `${value()}, ${who()}`,
    );
    expect(allText(form)).to.not.contain('Not kept yet');
  });

  it('refuse a value that is no number', async () => {
    const { session, dialog, form } = await open('limits', 'sd-limits-form');
    type(deep<HTMLInputElement>(form, '[aria-label="Treat from, value"]'), '1e3');
    button(form, 'Keep it as mine: Treat from').click();
    await says(dialog, 'power of ten');
    const limit = limitsOf(session.notebook).find(({ key }) => key === 'treat_from');
    expect(limit?.confirmed).to.equal(false);
  });

  it('say what is wrong on the day it was typed for alone', async () => {
    const { session, form } = await open('limits', 'sd-limits-form');
    const value = () => deep<HTMLInputElement>(form, '[aria-label="Treat from, value"]');
    type(value(), 'abc');
    button(form, 'Keep it as mine: Treat from').click();
    await says(form, '"abc" is not a number');
    await session.open('2026-06-21');
    await until(
      () => value().value === '500',
      () => value().value,
    );
    expect(allText(form)).to.not.contain('"abc" is not a number');
    expect(value().getAttribute('aria-invalid')).to.equal('false');
    await session.open(TODAY);
    await says(form, '"abc" is not a number');
    expect(value().value).to.equal('abc');
  });

  it('refuse a value below 0, in a new one as in those there are', async () => {
    const { session, form } = await open('limits', 'sd-limits-form');
    const before = limitsOf(session.notebook);
    field(form, 'label').value = 'Treat goats from';
    field(form, 'value').value = '-5';
    button(form, 'Add the limit').click();
    await says(form, 'The value: Type a number of 0 or more.');
    expect(limitsOf(session.notebook)).to.deep.equal(before);
    expect(field(form, 'value').value).to.equal('-5');
    type(deep<HTMLInputElement>(form, '[aria-label="Treat from, value"]'), '-5');
    button(form, 'Keep it as mine: Treat from').click();
    await says(form, /Type a number of 0 or more\..*Type a number of 0 or more\./);
    expect(limitsOf(session.notebook)).to.deep.equal(before);
  });

  it('can be added, and then stand in formulas by name on every day', async () => {
    const { session, dialog, form } = await open('limits', 'sd-limits-form');
    field(form, 'label').value = 'Treat goats from';
    field(form, 'value').value = '750';
    button(form, 'Add the limit').click();
    await says(dialog, 'treat_goats_from');
    expect(session.engine.evaluate('treat_goats_from')).to.equal(750);
  });
});

describe('criteria', () => {
  const reasons = ({ session }: Open): string[] =>
    (dayOf(session.notebook, TODAY)?.criteria ?? [])
      .toSorted((a, b) => b.danger - a.danger)
      .map(({ reason }) => reason);

  it('are put in their order of danger, confirmed, and kept from this day on', async () => {
    const at = await open('criteria', 'sd-criteria-form');
    button(at.form, 'Move bottle jaw up').click();
    await until(
      () => !button(at.form, 'Move bottle jaw down').disabled,
      () => allText(at.form),
    );
    expect(reasons(at)[0], 'nothing holds until it is kept').to.equal('white eyelids (5)');
    button(at.form, 'Keep these as mine').click();
    await says(at.dialog, 'The criteria are kept, and yours.');
    expect(reasons(at)[0]).to.equal('bottle jaw');
    expect(dayOf(at.session.notebook, TODAY)?.criteria?.every((one) => one.confirmed)).to.be.true;
    expect(dayOf(at.session.notebook, '2026-06-07')?.criteria?.[0]?.confirmed).to.equal(false);
  });

  it('refuse a condition that names nothing, at its place, and lose no word of it', async () => {
    const at = await open('criteria', 'sd-criteria-form');
    button(at.form, 'Add a reason').click();
    await says(at.form, 'Reason, in words');
    const editor = deep(at.form, '.edit');
    const reason = editor.querySelector('input');
    const field = editor.querySelector('sd-formula-field');
    const condition = field?.shadowRoot?.querySelector('input');
    if (!reason || !condition) throw new Error('no editor');
    type(reason, 'dirty tail');
    type(condition, 'dagg >= 4');
    button(at.form, 'Keep these as mine').click();
    await says(at.form, '"dirty tail": ');
    expect(reasons(at)).not.to.include('dirty tail');
    expect(condition.value).to.equal('dagg >= 4');
    type(condition, 'dag >= 4');
    button(at.form, 'Keep these as mine').click();
    await says(at.dialog, 'The criteria are kept, and yours.');
    expect(reasons(at).at(-1)).to.equal('dirty tail');
  });

  it('can be forgotten before they are kept', async () => {
    const at = await open('criteria', 'sd-criteria-form');
    button(at.form, 'Remove bottle jaw').click();
    await says(at.form, 'Forget the changes');
    button(at.form, 'Forget the changes').click();
    await until(
      () => allText(at.form).includes('bottle jaw'),
      () => allText(at.form),
    );
    expect(reasons(at)).to.include('bottle jaw');
  });
});

describe('egg types', () => {
  it('looked for show their columns and are kept for the day', async () => {
    const { session, dialog, form } = await open('eggs', 'sd-egg-types-form');
    const labels = [...(form.shadowRoot?.querySelectorAll('label.tick') ?? [])];
    const coccidia = labels.find((one) => one.textContent?.trim() === 'coccidia');
    coccidia?.querySelector('input')?.click();
    button(form, 'Keep these').click();
    await says(dialog, 'Kept.');
    const column = columnByKey(session.notebook, 'coccidia');
    expect(dayOf(session.notebook, TODAY)?.lookedFor).to.include(column?.id);
    expect(column?.hidden).to.not.equal(true);
  });

  it('can be added, with eggs per gram by the same factor', async () => {
    const { session, dialog, form } = await open('eggs', 'sd-egg-types-form');
    field(form, 'label').value = 'Whipworm';
    button(form, 'Add the egg type').click();
    await says(dialog, 'Whipworm is added.');
    expect(columnByKey(session.notebook, 'whipworm')).to.deep.include({
      kind: 'count',
      otherEggs: true,
    });
    expect(columnByKey(session.notebook, 'whipworm_epg')?.kind).to.equal('formula');
  });
});

describe('what is not kept yet', () => {
  for (const [view, tag, change, keep] of [
    ['about', 'sd-about-form', '[name="place"]', 'Keep these'],
    ['protocol', 'sd-protocol-form', '[name="grams"]', 'Keep these'],
    ['limits', 'sd-limits-form', '[aria-label="Treat from, value"]', 'Keep it as mine: Treat from'],
    [
      'criteria',
      'sd-criteria-form',
      'button[aria-label="Remove bottle jaw"]',
      'Keep these as mine',
    ],
    ['eggs', 'sd-egg-types-form', 'label.tick input', 'Keep these'],
  ] as const)
    it(`leaves the focus beside what let it go: ${view}`, async () => {
      const { form } = await open(view, tag);
      const at = deep<HTMLInputElement>(form, change);
      if (at.inputMode === '' && at.name === '') at.click();
      else type(at, '7');
      await says(form, 'Not kept yet.');
      button(form, 'Forget the changes').focus();
      button(form, 'Forget the changes').click();
      await until(
        () => !allText(form).includes('Not kept yet.'),
        () => allText(form),
      );
      expect(form.shadowRoot?.activeElement === button(form, keep)).to.equal(true);
    });
});
