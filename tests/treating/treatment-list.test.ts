import { describe, expect, it } from 'vitest';
import type { CriterionAnswer } from '../../shared/derived.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { daysOf, dayOf } from '../../src/notebook/read.ts';
import { herdAlarm } from '../../src/treating/herd-alarm.ts';
import {
  decide,
  decisionOf,
  decisionValues,
  isAgainstList,
  startingReason,
  undecide,
} from '../../src/treating/decision.ts';
import {
  confirmCriterion,
  dropCriterion,
  putCriterion,
} from '../../src/treating/criterion-edit.ts';
import { outcomeSentence, treatmentList, type ListRow } from '../../src/treating/treatment-list.ts';
import {
  after,
  animal,
  CRITERIA,
  emptyHerd,
  good,
  product,
  refusal,
  treated,
  typed,
} from './herd.ts';

const DAY = '2026-06-01';

/** Answers as the engine gives them: named criteria hold, named ones lack a column, the rest do not hold. */
function row(
  id: string,
  epg: number | null,
  holds: readonly string[] = [],
  lacks: Readonly<Record<string, string>> = {},
): ListRow {
  const answers: CriterionAnswer[] = CRITERIA.map(({ id: criterion }) => ({
    criterion,
    holds: criterion in lacks ? null : holds.includes(criterion),
    lacking: criterion in lacks ? [lacks[criterion] ?? ''] : [],
  }));
  return { row: id, answers, epg, weightKg: null };
}

function herdOf(tags: readonly string[]): Notebook {
  return tags.reduce((notebook, tag) => animal(notebook, tag), emptyHerd([DAY]));
}

describe('treatmentList(notebook, day, rows)', () => {
  const notebook = herdOf(['A', 'B', 'C', 'D', 'E', 'F', 'G']);
  const list = treatmentList(notebook, DAY, [
    row('A', 800, ['ke']),
    row('B', 100, ['k4']),
    row('C', 2000, ['ke']),
    row('D', null, ['k5'], { ke: 'epg' }),
    row('E', 50, [], { kj: 'jaw' }),
    row('F', null, [], { ke: 'epg', k4: 'eyelid' }),
    row('cup-7', 3000, ['ke']),
  ]);

  it('puts danger first and then the higher epg; a pale animal without a count is on it', () => {
    expect(list.over.map(({ animal: { tag } }) => tag)).toEqual(['D', 'B', 'C', 'A']);
  });

  it('names what is missing, and what was not looked at', () => {
    expect(list.notEnoughKnown.map(({ animal, sentence }) => [animal.tag, sentence])).toEqual([
      ['F', 'Not enough known: epg missing.'],
      ['G', 'Not enough known: nothing typed yet.'],
    ]);
    expect(list.below.map(({ animal, sentence }) => [animal.tag, sentence])).toEqual([
      ['E', 'Below your criteria; not looked at: jaw.'],
    ]);
  });

  it('says every number of its own: present, counted, judged', () => {
    expect(list).toMatchObject({ present: 7, counted: 4, judged: 5, ticked: 0 });
    expect(list.summary).toBe('4 of 7 over your criteria, 1 below, 2 not enough known');
  });

  it('gives every reason, danger first', () => {
    const both = treatmentList(notebook, DAY, [row('A', 800, ['ke', 'k4'])]).over[0];
    expect(both?.sentence).toBe('Over your criteria: pale eyelids and epg at the limit.');
  });

  it('the rows of the eyelid case: 2 without a count, 4 without a count, nothing', () => {
    const [two, four, none] = [
      row('A', null, [], { ke: 'epg' }),
      row('B', null, ['k4'], { ke: 'epg' }),
      row('C', null, [], { ke: 'epg', k4: 'eyelid', k5: 'eyelid', kj: 'jaw' }),
    ];
    const found = treatmentList(herdOf(['A', 'B', 'C']), DAY, [two, four, none]);
    expect(found.over.map(({ animal }) => animal.tag)).toEqual(['B']);
    expect(found.notEnoughKnown.map(({ animal }) => animal.tag)).toEqual(['A', 'C']);
  });

  it('says what to keep in mind for each animal', () => {
    let herd = product(animal(herdOf(['A', 'B']), 'K', { class: 'kid', species: 'goat' }), 'p');
    herd = typed(herd, DAY, 'A', 'eyelid', 4);
    herd = typed(herd, DAY, 'B', 'dag', 4);
    herd = treated(herd, 'K', 'p', '2026-05-25', {
      meatClear: '2026-06-05',
      milkClear: '2026-05-25',
    });
    const found = treatmentList(herd, DAY, [
      row('A', 100, ['k4']),
      row('B', 0),
      row('K', 900, ['ke']),
    ]);
    const said = new Map(
      [...found.over, ...found.below].map((one) => [one.animal.tag, one.cautions.join(' ')]),
    );
    expect(said.get('A')).toContain('Pale whatever the count: an emergency.');
    expect(said.get('B')).toContain('It scours: good eyelids and a low count do not clear it.');
    expect(said.get('B')).toContain('No egg seen: not free of worms.');
    expect(said.get('K')).toContain('Still high after treatment 7 days ago');
    expect(said.get('K')).toContain('A goat often needs another dose');
    expect(found.over.find(({ animal }) => animal.tag === 'K')).toMatchObject({
      daysAfter: 7,
      isStillHigh: true,
      notClear: { meat: 'Meat not clear until 5 June 2026 (p).', milk: null },
    });
  });
});

describe('herdAlarm(notebook, day)', () => {
  const herd = (pale: number, scored: number, present: number): Notebook => {
    let notebook = herdOf(Array.from({ length: present }, (_, i) => `A${i}`));
    for (let i = 0; i < scored; i += 1)
      notebook = typed(notebook, DAY, `A${i}`, 'eyelid', i < pale ? 4 + (i % 2) : 2);
    return notebook;
  };

  it('rings at exactly the limit, out of those scored', () => {
    const alarm = herdAlarm(herd(2, 20, 30), DAY);
    expect(alarm).toMatchObject({
      rings: true,
      pale: 2,
      scored: 20,
      present: 30,
      limitPercent: 10,
    });
    expect(alarm.sentence).toBe(
      'Ring your vet today: 2 of 20 scored are at eyelid colour 4 or 5 (10 %; your limit is 10 %).',
    );
  });

  it('does not ring below the limit, nor where nobody was scored', () => {
    expect(herdAlarm(herd(2, 21, 21), DAY)).toMatchObject({ rings: false, sentence: '' });
    expect(herdAlarm(herd(0, 0, 5), DAY)).toMatchObject({ rings: false, scored: 0 });
  });
});

describe('decide(notebook, day, decisions)', () => {
  const notebook = typed(typed(herdOf(['A', 'B']), DAY, 'A', 'eyelid', 2), DAY, 'A', 'jaw', false);
  const values = decisionValues(notebook, DAY, 'A', { epg: 650 });

  it('keeps the decision with its reason and the values it was made on, against the list as well', () => {
    const edit = good(
      decide(notebook, DAY, [{ animal: 'A', treat: false, reason: 'looks well', values }]),
    );
    expect(edit.label).toBe('deciding to leave A untreated');
    const decided = after(notebook, edit);
    expect(decisionOf(decided, DAY, 'A')).toEqual({
      treat: false,
      reason: 'looks well',
      values: { eyelid: 2, jaw: false, epg: 650 },
    });
    expect(decisionOf(after(decided, undecide(decided, DAY, ['A'])), DAY, 'A')).toBeUndefined();
  });

  it('takes several as one edit and asks for no reason', () => {
    const edit = good(
      decide(
        notebook,
        DAY,
        ['A', 'B'].map((animal) => ({ animal, treat: true, reason: '', values: {} })),
      ),
    );
    expect(edit).toMatchObject({ label: 'deciding to treat 2 animals' });
    expect(edit.sets).toHaveLength(2);
  });

  it('refuses an animal or a day that is not there', () => {
    expect(
      refusal(decide(notebook, DAY, [{ animal: 'X', treat: true, reason: '', values: {} }])),
    ).toContain('not in this notebook');
    expect(
      refusal(
        decide(notebook, '2020-01-01', [{ animal: 'A', treat: true, reason: '', values: {} }]),
      ),
    ).toContain('day');
  });

  it('starts from the list’s own reasons, and knows when it goes against it', () => {
    const outcome = {
      kind: 'over',
      reasons: ['bottle jaw', 'pale eyelids'],
      danger: 90,
      lacking: [],
      notLooked: [],
    } as const;
    expect(startingReason(outcome, true)).toBe('bottle jaw; pale eyelids');
    expect(startingReason(outcome, false)).toBe('');
    expect([isAgainstList(outcome, true), isAgainstList(outcome, false)]).toEqual([false, true]);
    expect(outcomeSentence({ ...outcome, kind: 'below', reasons: [] })).toBe(
      'Below your criteria.',
    );
  });
});

describe('putCriterion(notebook, day, criterion, reach)', () => {
  const days = ['2026-05-01', DAY, '2026-07-01'];
  const notebook = emptyHerd(days);
  const thin = {
    id: 'kc',
    reason: 'thin',
    condition: '{c:c-condition} < 2',
    danger: 60,
    mustBeKnown: false,
  };
  const idsOf = (from: Notebook) =>
    daysOf(from).map((day) =>
      dayOf(from, day.id)
        ?.criteria?.map(({ id }) => id)
        .includes('kc'),
    );

  it('reaches this day and later ones, and leaves the past alone', () => {
    expect(idsOf(after(notebook, putCriterion(notebook, DAY, thin, 'from this day on')))).toEqual([
      false,
      true,
      true,
    ]);
    expect(idsOf(after(notebook, putCriterion(notebook, DAY, thin, 'only this day')))).toEqual([
      false,
      true,
      false,
    ]);
  });

  it('keeps what else a day has of its own', () => {
    let changed = after(notebook, dropCriterion(notebook, '2026-07-01', 'k4', 'only this day'));
    changed = after(changed, putCriterion(changed, DAY, thin, 'every day'));
    const counts = daysOf(changed).map((day) => day.criteria?.length);
    expect(counts).toEqual([6, 6, 5]);
  });

  it('takes the place of the one with its id, and marks who said so', () => {
    let changed = after(
      notebook,
      putCriterion(notebook, DAY, { ...CRITERIA[0]!, reason: 'white' }, 'only this day'),
    );
    expect(dayOf(changed, DAY)?.criteria?.[0]?.reason).toBe('white');
    changed = after(changed, confirmCriterion(changed, DAY, 'k5', 'Dr Lee', 'only this day'));
    expect(dayOf(changed, DAY)?.criteria?.[0]).toMatchObject({ confirmed: true, saidBy: 'Dr Lee' });
  });

  it('refuses one without a reason or a condition', () => {
    expect(refusal(putCriterion(notebook, DAY, { ...thin, reason: ' ' }, 'every day'))).toContain(
      'reason',
    );
    expect(refusal(putCriterion(notebook, DAY, { ...thin, condition: '' }, 'every day'))).toContain(
      'condition',
    );
  });
});
