import { describe, expect, it } from 'vitest';
import type { AnimalFacts, Notebook } from '../../shared/notebook.ts';
import { moveToGroup } from '../../src/notebook/edit-animals.ts';
import { decide } from '../../src/treating/decision.ts';
import { isEpgCriterion, leaveUntreated } from '../../src/treating/leave-untreated.ts';
import { treatmentList, type ListRow } from '../../src/treating/treatment-list.ts';
import { untreatedShares, wholeHerdShare } from '../../src/treating/untreated-share.ts';
import { after, animal, CRITERIA, emptyHerd, product, treated, typed } from './herd.ts';

const DAY = '2026-06-01';

function row(id: string, epg: number | null, ...holds: string[]): ListRow {
  const answers = CRITERIA.map(({ id: criterion }) => ({
    criterion,
    holds: criterion === 'ke' && epg === null ? null : holds.includes(criterion),
    lacking: criterion === 'ke' && epg === null ? ['epg'] : [],
  }));
  return { row: id, answers, epg, weightKg: null };
}

function herdOf(tags: readonly string[], facts: Partial<AnimalFacts> = {}): Notebook {
  return tags.reduce((notebook, tag) => animal(notebook, tag, facts), emptyHerd([DAY]));
}

function tick(notebook: Notebook, tags: readonly string[], treat = true): Notebook {
  return after(
    notebook,
    decide(
      notebook,
      DAY,
      tags.map((one) => ({ animal: one, treat, reason: '', values: {} })),
    ),
  );
}

describe('untreatedShares(notebook, day, list)', () => {
  let notebook = herdOf(['E1', 'E2', 'E3', 'E4', 'E5', 'L1', 'X1']);
  notebook = after(
    notebook,
    moveToGroup(notebook, ['E1', 'E2', 'E3', 'E4', 'E5'], 'ewes', '2026-05-01'),
  );
  notebook = after(notebook, moveToGroup(notebook, ['L1'], 'lambs', '2026-05-01'));
  notebook = product(notebook, 'p', { afterDays: 14 });
  notebook = treated(notebook, 'E2', 'p', '2026-05-20');
  notebook = treated(notebook, 'E3', 'p', '2026-05-01');
  notebook = tick(notebook, ['E1']);
  const rows = [
    row('E1', 700, 'ke'),
    row('E2', 100),
    row('E3', 150),
    row('E4', 50),
    row('E5', null),
    row('L1', 0),
    row('X1', 20),
  ];
  const list = treatmentList(notebook, DAY, rows);
  const [ewes, lambs, none] = untreatedShares(notebook, DAY, list, 'ticks');

  it('counts by group who is neither ticked nor treated within the product’s own days', () => {
    // E1 is ticked, E2 was treated 12 days ago (14 count), E3 31 days ago, E5 is not known.
    expect(ewes).toMatchObject({
      group: 'ewes',
      present: 5,
      untreated: 2,
      notEnoughKnown: 1,
      share: 0.4,
    });
    expect(ewes?.eggShare).toBeCloseTo(200 / 1000, 12);
    expect(ewes?.sentence).toBe(
      '2 of 5 stay untreated (40 %), 1 more not enough known; they carry 20 % of the eggs counted.',
    );
    expect(ewes?.warning).toBe('');
  });

  it('says nothing of eggs where none was seen, and gives animals in no group a line of their own', () => {
    expect(lambs).toMatchObject({
      group: 'lambs',
      eggShare: null,
      sentence: '1 of 1 stay untreated (100 %).',
    });
    expect(none).toMatchObject({ group: null, present: 1 });
  });

  it('can ask what treating the whole list would leave', () => {
    const herd = herdOf(['A', 'B']);
    const all = treatmentList(herd, DAY, [row('A', 700, 'ke'), row('B', 900, 'ke')]);
    expect(wholeHerdShare(herd, DAY, all, 'ticks').untreated).toBe(2);
    expect(wholeHerdShare(herd, DAY, all, 'list')).toMatchObject({ untreated: 0, share: 0 });
    const spared = tick(herd, ['B'], false);
    const again = treatmentList(spared, DAY, [row('A', 700, 'ke'), row('B', 900, 'ke')]);
    expect(wholeHerdShare(spared, DAY, again, 'list').untreated).toBe(1);
  });

  it('warns where everyone, or more than the person allows, would be treated, and never against a sign', () => {
    const tags = Array.from({ length: 20 }, (_, i) => `A${String(i).padStart(2, '0')}`);
    const share = (ticked: number) => {
      const herd = tick(herdOf(tags), tags.slice(0, ticked));
      return wholeHerdShare(
        herd,
        DAY,
        treatmentList(
          herd,
          DAY,
          tags.map((tag) => row(tag, 10)),
        ),
        'ticks',
      ).warning;
    };
    expect(share(20)).toContain('Everyone would be treated');
    expect(share(19)).toContain('Only 1 of 20 would stay untreated, fewer than the 10 % you set');
    expect(share(19)).toContain('Treat every animal that shows a sign all the same.');
    expect(share(18)).toBe('');
  });
});

describe('leaveUntreated(notebook, day, list)', () => {
  /** Ten ewes, all over for their epg; B… differ in one thing each. */
  const tags = ['B0', 'B1', 'B2', 'B3', 'B4', 'B5', 'B6', 'B7', 'B8', 'B9'];
  let notebook = herdOf(tags, { class: 'ewe', stage: 'dry' });
  for (const tag of tags) {
    notebook = typed(notebook, DAY, tag, 'eyelid', 1);
    notebook = typed(notebook, DAY, tag, 'condition', 3);
  }
  notebook = typed(notebook, DAY, 'B1', 'eyelid', 3);
  notebook = typed(notebook, DAY, 'B2', 'condition', 1.5);
  notebook = typed(notebook, DAY, 'B3', 'jaw', true);
  notebook = animal(notebook, 'B4', { stage: 'late pregnant' });
  notebook = animal(notebook, 'B5', { stage: 'newly in milk' });
  notebook = typed(notebook, DAY, 'B6', 'eyelid', { kind: 'fault', text: '?', reason: 'no' });
  notebook = typed(notebook, DAY, 'B7', 'condition', 4);
  notebook = typed(notebook, DAY, 'B8', 'dag', 4);
  const rows = tags.map((tag, i) =>
    tag === 'B9' ? row(tag, 600, 'ke', 'k4') : row(tag, 600 + i, 'ke'),
  );
  const proposed = (from: Notebook) => {
    const [group] = leaveUntreated(from, DAY, treatmentList(from, DAY, rows));
    return { needed: group?.needed, tags: group?.proposals.map(({ entry }) => entry.animal.tag) };
  };

  it('proposes only animals listed for epg alone that look well, best condition and lowest epg first', () => {
    expect(proposed(notebook)).toEqual({ needed: 1, tags: ['B7', 'B0'] });
  });

  it('needs a score, not the lack of one', () => {
    const unscored = typed(notebook, DAY, 'B7', 'condition', {
      kind: 'fault',
      text: '?',
      reason: 'no',
    });
    expect(proposed(unscored).tags).toEqual(['B0']);
  });

  it('passes over an animal already treated or decided against', () => {
    expect(proposed(treated(product(notebook, 'p'), 'B7', 'p', DAY)).tags).toEqual(['B0']);
    expect(proposed(tick(notebook, ['B7'], false))).toEqual({ needed: undefined, tags: undefined });
    expect(proposed(tick(notebook, tags)).tags).toEqual(['B7', 'B0']);
  });

  it('asks after the stage of a ewe where none was typed', () => {
    const open = herdOf(['A'], { class: 'ewe' });
    const scored = typed(typed(open, DAY, 'A', 'eyelid', 2), DAY, 'A', 'condition', 2);
    const [group] = leaveUntreated(scored, DAY, treatmentList(scored, DAY, [row('A', 600, 'ke')]));
    expect(group?.proposals[0]).toMatchObject({
      why: 'eyelid colour 2, condition 2, 600 epg',
      check: 'Make sure that she is not late pregnant or newly in milk.',
    });
  });
});

describe('isEpgCriterion(notebook, criterion)', () => {
  const is = (condition: string) =>
    isEpgCriterion(emptyHerd([DAY]), { ...CRITERIA[4]!, condition });

  it('holds for a condition on epg or eggs and no other column', () => {
    expect(is('{c:c-epg} >= {l:l-treat_from}')).toBe(true);
    expect(is('AND({c:c-epg} >= 300, class = "kid")')).toBe(true);
    expect(is('AND({c:c-epg} >= 300, {c:c-eyelid} = 3)')).toBe(false);
    expect(is('{c:c-jaw}')).toBe(false);
    expect(isEpgCriterion(emptyHerd([DAY]), CRITERIA[3]!)).toBe(false);
  });
});
