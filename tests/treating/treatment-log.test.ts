import { describe, expect, it } from 'vitest';
import type { Notebook, ProductFacts } from '../../shared/notebook.ts';
import { treatmentsOf } from '../../src/notebook/read.ts';
import {
  changeTreatment,
  giveClearDate,
  logTreatments,
  removeTreatment,
  treatmentLog,
} from '../../src/treating/treatment-log.ts';
import type { Treated, TreatmentRound } from '../../src/treating/treatment-round.ts';
import { after, animal, emptyHerd, good, product, refusal } from './herd.ts';

const ASK = 'no clear date, ask your vet';
const VET: Partial<ProductFacts> = {
  vetName: 'Dr Lee',
  vetMl: 2,
  vetPerKg: 5,
  vetMeat: { kind: 'days', days: 30 },
};

let herd = emptyHerd(['2026-06-01']);
herd = animal(herd, 'A', { species: 'sheep', class: 'ewe' });
herd = animal(herd, 'B', { species: 'sheep', class: 'ewe' });
herd = animal(herd, 'G', { species: 'goat', class: 'doe' });
herd = product(herd, 'p', { name: 'Drench' });
herd = product(herd, 'v', { name: 'Other', ...VET });

const round: TreatmentRound = { product: 'p', date: '2026-06-01', time: '07:30', by: 'Jo' };
const give = (id: string, doseMl: number | null, weightKg: number | null): Treated => ({
  animal: id,
  doseMl,
  weightKg,
});

function ids(): () => string {
  let n = 0;
  return () => `new-${(n += 1)}`;
}

function logged(
  animals: readonly Treated[],
  how: Partial<TreatmentRound> = {},
  notebook: Notebook = herd,
) {
  const { edit, warnings } = good(logTreatments(notebook, { ...round, ...how }, animals, ids()));
  return { notebook: after(notebook, edit), edit, warnings };
}

describe('logTreatments(notebook, round, animals)', () => {
  it('logs many animals as one edit, each with the clear dates of the label', () => {
    const { notebook, edit, warnings } = logged([give('A', 8.4, 42), give('B', 10, 50)]);
    expect(edit.label).toBe('treating 2 animals with Drench');
    expect(warnings).toEqual([]);
    expect(treatmentsOf(notebook)).toHaveLength(2);
    expect(treatmentsOf(notebook)[0]).toMatchObject({
      ...{ animal: 'A', product: 'p', date: '2026-06-01', time: '07:30', by: 'Jo', doseMl: 8.4 },
      ...{ weightKg: 42, route: 'by mouth', byLabel: true },
      ...{ meatClear: '2026-06-12', milkClear: 'not permitted' },
    });
  });

  it.each([
    [
      'a goat under a sheep label',
      give('G', 8, 40),
      {},
      'G is a goat and the label of Drench names sheep only',
    ],
    ['another route', give('A', 8.4, 42), { route: 'under the skin' }, 'not under the skin'],
    [
      'less than the label',
      give('A', 8.3, 42),
      {},
      'A got 8.3 mL and the label says 8.4 mL for 42 kg: too little.',
    ],
    [
      'over 10 % more than the label',
      give('A', 9.3, 42),
      {},
      'A got 9.3 mL and the label says 8.4 mL for 42 kg: too much.',
    ],
    ['no weight', give('A', 8.4, null), {}, 'A has no weight'],
    ['no dose', give('A', null, 42), {}, 'A: no dose was noted.'],
  ])('gives no clear date for %s', (_, treatedAs, how, reason) => {
    const { notebook, warnings } = logged([treatedAs], how);
    expect(treatmentsOf(notebook)[0]).toMatchObject({
      byLabel: false,
      meatClear: ASK,
      milkClear: ASK,
    });
    expect(warnings[0]).toContain(reason);
    expect(warnings[0]).toContain('No clear date, ask your vet.');
  });

  it('rounding up to the syringe is still the label’s dose', () => {
    expect(treatmentsOf(logged([give('A', 9.24, 42)]).notebook)[0]?.byLabel).toBe(true);
  });

  it('a band’s dose is the label’s only where the label doses by the heaviest, and under twice', () => {
    const band = (doseMl: number, byHeaviest: boolean) =>
      treatmentsOf(logged([give('A', doseMl, 42)], { byHeaviest }).notebook)[0]?.byLabel;
    expect(band(12, false)).toBe(false);
    expect(band(12, true)).toBe(true);
    expect(band(16.8, true)).toBe(false);
  });

  it('uses the vet’s withdrawal for the vet’s dose, and none where the vet gave none', () => {
    const { notebook, warnings } = logged([give('G', 16, 40)], { product: 'v', source: 'vet' });
    expect(warnings).toEqual([]);
    // 1 June + 30 days + 1 = 2 July.
    expect(treatmentsOf(notebook)[0]).toMatchObject({
      byLabel: false,
      vet: 'Dr Lee',
      meatClear: '2026-07-02',
      milkClear: ASK,
    });
    const other = logged([give('G', 8, 40)], { product: 'v', source: 'vet' });
    expect(treatmentsOf(other.notebook)[0]?.meatClear).toBe(ASK);
    expect(other.warnings[0]).toContain('Dr Lee set 16 mL for 40 kg: too little.');
  });

  it.each([
    [
      'the same animal twice',
      [give('A', 8, 40), give('A', 8, 40)],
      {},
      'A is in this round twice. Take one of the two out.',
    ],
    ['nobody', [], {}, 'No animal is chosen. Tick the ones that were treated.'],
    [
      'an unknown product',
      [give('A', 8, 40)],
      { product: 'x' },
      'Choose a product first; add it under Products if it is not there.',
    ],
    [
      'a date that is none',
      [give('A', 8, 40)],
      { date: '2026-06-31' },
      '"2026-06-31" is not a day of the calendar. Type it like 2026-05-03.',
    ],
    [
      'a time that is none',
      [give('A', 8, 40)],
      { time: '25:00' },
      '"25:00" is not a time of day. Type it like 07:30, or leave it empty.',
    ],
    [
      'a dose of 0',
      [give('A', 0, 40)],
      {},
      'A: a dose of 0 mL cannot be. Type it, or leave it empty if it is not known.',
    ],
    [
      'a weight below 0',
      [give('A', 8, -4)],
      {},
      'A: a weight of -4 kg cannot be. Type it, or leave it empty if it is not known.',
    ],
  ])('refuses %s, and logs nothing', (_, animals, how, sentence) => {
    expect(refusal(logTreatments(herd, { ...round, ...how }, animals, ids()))).toBe(sentence);
  });

  it('refuses a day still to come', () => {
    const early = logTreatments(herd, round, [give('A', 8, 40)], ids(), '2026-05-31');
    expect(refusal(early)).toContain('still to come');
  });

  it('warns of a second treatment that day, and of an animal that had left', () => {
    const once = logged([give('A', 8, 40)]).notebook;
    expect(logged([give('A', 8, 40)], {}, once).warnings).toEqual([
      'A already has Drench in the log on 1 June 2026.',
    ]);
    const gone = animal(herd, 'C', { species: 'sheep', left: '2026-05-01' });
    expect(logged([give('C', 8, 40)], {}, gone).warnings).toEqual([
      'C left on 1 May 2026, before this treatment.',
    ]);
  });
});

describe('changeTreatment(notebook, id, change)', () => {
  const { notebook } = logged([give('A', 8.4, 42)]);

  it('works out clear dates anew when the date is put right', () => {
    const { edit, warnings } = good(changeTreatment(notebook, 'new-1', { date: '2026-06-03' }));
    expect(warnings).toEqual([]);
    expect(treatmentsOf(after(notebook, edit))[0]).toMatchObject({
      date: '2026-06-03',
      meatClear: '2026-06-14',
      byLabel: true,
    });
  });

  it('takes the clear date away when the dose turns out not to be the label’s', () => {
    const { edit, warnings } = good(changeTreatment(notebook, 'new-1', { doseMl: 4 }));
    expect(treatmentsOf(after(notebook, edit))[0]).toMatchObject({
      doseMl: 4,
      meatClear: ASK,
      byLabel: false,
    });
    expect(warnings[0]).toContain('too little');
  });

  it('leaves clear dates alone when only the note changes', () => {
    const { edit } = good(changeTreatment(notebook, 'new-1', { note: 'spat some out' }));
    expect(edit.sets).toEqual([{ path: ['treatments', 'new-1', 'note'], value: 'spat some out' }]);
  });

  it('keeps a vet’s dose the vet’s', () => {
    const vets = logged([give('G', 16, 40)], { product: 'v', source: 'vet' }).notebook;
    const { edit } = good(changeTreatment(vets, 'new-1', { date: '2026-06-02' }));
    expect(treatmentsOf(after(vets, edit))[0]).toMatchObject({
      vet: 'Dr Lee',
      meatClear: '2026-07-03',
    });
  });

  it('keeps a band’s dose the label’s while only its date moves', () => {
    const band = logged([give('A', 12, 42)], { byHeaviest: true }).notebook;
    const { edit } = good(changeTreatment(band, 'new-1', { date: '2026-06-02' }));
    expect(treatmentsOf(after(band, edit))[0]).toMatchObject({
      byLabel: true,
      meatClear: '2026-06-13',
    });
  });
});

describe('the log', () => {
  it('gives one animal’s history newest first, and names a product taken off the list', () => {
    let { notebook } = logged([give('A', 8.4, 42), give('B', 10, 50)]);
    const later = good(
      logTreatments(
        notebook,
        { ...round, product: 'v', date: '2026-07-01' },
        [give('A', 8.4, 42)],
        () => 'late',
      ),
    );
    notebook = after(notebook, later.edit);
    expect(
      treatmentLog(notebook, 'A').map(({ productName, treatment }) => [
        productName,
        treatment.date,
      ]),
    ).toEqual([
      ['Other', '2026-07-01'],
      ['Drench', '2026-06-01'],
    ]);
    expect(treatmentLog(notebook)).toHaveLength(3);
    expect(treatmentLog(notebook, 'A')[1]?.meat).toEqual({ kind: 'date', date: '2026-06-12' });
  });

  it('loses a line by removing it, once', () => {
    const { notebook } = logged([give('A', 8.4, 42)]);
    const removed = after(notebook, good(removeTreatment(notebook, 'new-1')));
    expect(treatmentLog(removed)).toEqual([]);
    expect(refusal(removeTreatment(removed, 'new-1'))).toBe('That treatment is not in the log.');
  });

  it('takes the clear date that a vet gives, with the vet’s name', () => {
    const { notebook } = logged([give('G', 8, 40)]);
    const said = after(notebook, giveClearDate(notebook, 'new-1', 'meat', '2026-07-15', 'Dr Lee'));
    expect(treatmentsOf(said)[0]).toMatchObject({
      meatClear: '2026-07-15',
      note: 'meat clear from 2026-07-15, says Dr Lee',
    });
    expect(refusal(giveClearDate(notebook, 'new-1', 'meat', '2026-05-15', 'Dr Lee'))).toContain(
      'on or after',
    );
    expect(refusal(giveClearDate(notebook, 'new-1', 'meat', '2026-07-15', ' '))).toContain(
      'name of the vet',
    );
  });
});
