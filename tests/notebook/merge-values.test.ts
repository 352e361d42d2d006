import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Notebook } from '../../shared/notebook.ts';
import { cellAt } from '../../src/notebook/apply-edit.ts';
import { emptyNotebook } from '../../src/notebook/from-template.ts';
import { covers, eachCell, mergeSeen, mergeValues } from '../../src/notebook/merge-values.ts';
import { deepFreeze } from '../freeze.ts';
import { Copy, counted, twoCopies } from './copies.ts';

const merged = (a: Notebook, b: Notebook): Notebook => mergeValues(a, b).notebook;

describe('mergeValues(mine, theirs)', () => {
  it('takes what the other copy typed, and keeps what this one typed', () => {
    const { phone, laptop } = twoCopies();
    phone.type('2026-05-03', 'a1', 'c2', counted(5));
    laptop.type('2026-05-03', 'a1', 'c3', counted(6));
    phone.take(merged(phone.notebook, laptop.notebook));
    expect(phone.values('readings', '2026-05-03', 'a1', 'c1')).toEqual([counted(3)]);
    expect(phone.values('readings', '2026-05-03', 'a1', 'c2')).toEqual([counted(5)]);
    expect(phone.values('readings', '2026-05-03', 'a1', 'c3')).toEqual([counted(6)]);
  });

  it('lets a value written with knowledge of the other supersede it, whatever the clocks say', () => {
    const { phone, laptop } = twoCopies();
    const slow = new Copy('slow', () => 5, laptop.notebook);
    slow.type('2026-05-03', 'a1', 'c1', counted(4));
    phone.take(merged(phone.notebook, slow.notebook));
    expect(phone.values('readings', '2026-05-03', 'a1', 'c1')).toEqual([counted(4)]);
  });

  it('keeps both values where two copies wrote without knowing of each other, newest first', () => {
    const { phone, laptop } = twoCopies();
    phone.type('2026-05-03', 'a1', 'c1', counted(4));
    laptop.type('2026-05-03', 'a1', 'c1', counted(5));
    const both = merged(phone.notebook, laptop.notebook);
    expect(cellAt(both, ['readings', '2026-05-03', 'a1', 'c1'])?.map(([v]) => v)).toEqual([
      counted(5),
      counted(4),
    ]);
  });

  it('lets a choice made after the merge stand, in whichever copy it is merged again', () => {
    const { phone, laptop } = twoCopies();
    phone.type('2026-05-03', 'a1', 'c1', counted(4));
    laptop.type('2026-05-03', 'a1', 'c1', counted(5));
    const before = laptop.notebook;
    phone.take(merged(phone.notebook, laptop.notebook));
    phone.type('2026-05-03', 'a1', 'c1', counted(4));
    laptop.take(merged(laptop.notebook, phone.notebook));
    laptop.take(merged(laptop.notebook, before));
    expect(laptop.values('readings', '2026-05-03', 'a1', 'c1')).toEqual([counted(4)]);
  });

  it('reports as changes what this copy has to write, and nothing else', () => {
    const { phone, laptop } = twoCopies();
    laptop.type('2026-05-03', 'a1', 'c3', counted(6));
    const { changes } = mergeValues(deepFreeze(phone.notebook), deepFreeze(laptop.notebook));
    expect(changes.map(({ path }) => path)).toEqual([['readings', '2026-05-03', 'a1', 'c3']]);
    expect(changes[0]?.from).toBeUndefined();
  });

  it('takes tables and fields that a later version added, and leaves other things alone', () => {
    const { phone, laptop } = twoCopies();
    const later = {
      ...laptop.notebook,
      weather: { '2026-05-03': { rain: [[4, [1, 0, 'later']]] } },
      remark: 'as it is',
    };
    const both = merged(phone.notebook, later) as unknown as Record<string, unknown>;
    expect(both['weather']).toEqual(later.weather);
    expect(both['remark']).toBeUndefined();
  });

  it('takes a cell that this copy lost to damage, though it has seen its stamp', () => {
    const { phone, laptop } = twoCopies();
    const damaged = { ...phone.notebook, readings: {} };
    expect(merged(damaged, laptop.notebook).readings).toEqual(laptop.notebook.readings);
  });
});

describe('covers(seen, stamp)', () => {
  it('knows no device that was never seen, not even by the names that every object has', () => {
    expect(covers({}, [0, 0, 'constructor'])).toBe(false);
    expect(covers({}, [0, 0, '__proto__'])).toBe(false);
    expect(covers({ d: [5, 2] }, [5, 2, 'd'])).toBe(true);
    expect(covers({ d: [5, 2] }, [5, 3, 'd'])).toBe(false);
    expect(covers({ d: [5, 2] }, [4, 9, 'd'])).toBe(true);
    expect(mergeSeen({ d: [5, 2] }, { d: [5, 3], e: [1, 0] })).toEqual({ d: [5, 3], e: [1, 0] });
  });
});

/** What happens to three devices, one of which may have a clock that is years off. */
type Step =
  | { readonly kind: 'write'; readonly who: number; readonly cell: number; readonly value: number }
  | { readonly kind: 'merge'; readonly who: number; readonly from: number };

const who = fc.nat(2);
const step: fc.Arbitrary<Step> = fc.oneof(
  fc.record({ kind: fc.constant('write' as const), who, cell: fc.nat(2), value: fc.nat(3) }),
  fc.record({ kind: fc.constant('merge' as const), who, from: who }),
);
const history = fc.record({
  skews: fc.tuple(...[0, 1, 2].map(() => fc.integer({ min: -3, max: 3 }))),
  steps: fc.array(step, { maxLength: 25 }),
});

/** The same history told by causes alone: which writing superseded which. */
interface Told {
  readonly known: Set<number>;
}

interface Written {
  readonly cell: number;
  readonly value: number;
  readonly supersedes: ReadonlySet<number>;
}

function play({ skews, steps }: { readonly skews: readonly number[]; readonly steps: Step[] }): {
  readonly copies: readonly Copy[];
  readonly standing: (who: number, cell: number) => readonly number[];
} {
  let ms = 100;
  const copies = skews.map((skew, i) => new Copy(`d${i}`, () => ms + skew * 50));
  const written: Written[] = [];
  const told: Told[] = skews.map(() => ({ known: new Set() }));
  const standing = (at: number, cell: number): number[] => {
    const ids = [...(told[at] as Told).known].filter((id) => written[id]?.cell === cell);
    return ids.filter((id) => !ids.some((other) => written[other]?.supersedes.has(id)));
  };
  for (const s of steps) {
    ms += 3;
    const copy = copies[s.who] as Copy;
    if (s.kind === 'merge') {
      copy.take(merged(copy.notebook, (copies[s.from] as Copy).notebook));
      for (const id of (told[s.from] as Told).known) (told[s.who] as Told).known.add(id);
      continue;
    }
    const now = standing(s.who, s.cell);
    if (now.length === 1 && written[now[0] as number]?.value === s.value) continue;
    copy.type('2026-05-03', 'a1', `c${s.cell}`, s.value);
    written.push({ cell: s.cell, value: s.value, supersedes: new Set(now) });
    (told[s.who] as Told).known.add(written.length - 1);
  }
  return {
    copies,
    standing: (at, cell) =>
      standing(at, cell)
        .map((id) => written[id]?.value as number)
        .sort(),
  };
}

describe('mergeValues, for any history of three devices with clocks that disagree', () => {
  const runs = { numRuns: 1500 };
  const parts = (copies: readonly Copy[]): [Notebook, Notebook, Notebook] =>
    copies.map((copy) => deepFreeze(copy.notebook)) as [Notebook, Notebook, Notebook];

  it('holds just the values that no device superseded knowingly', () => {
    fc.assert(
      fc.property(history, (h) => {
        const { copies, standing } = play(h);
        for (const [at, copy] of copies.entries())
          for (const cell of [0, 1, 2])
            expect(copy.values('readings', '2026-05-03', 'a1', `c${cell}`).sort()).toEqual(
              standing(at, cell),
            );
      }),
      runs,
    );
  });

  it('does not depend on which copy is merged into which', () => {
    fc.assert(
      fc.property(history, (h) => {
        const [a, b] = parts(play(h).copies);
        expect(merged(a, b)).toEqual(merged(b, a));
      }),
      runs,
    );
  });

  it('does not depend on the order in which copies are merged', () => {
    fc.assert(
      fc.property(history, (h) => {
        const [a, b, c] = parts(play(h).copies);
        expect(merged(merged(a, b), c)).toEqual(merged(a, merged(b, c)));
      }),
      runs,
    );
  });

  it('changes nothing when done again', () => {
    fc.assert(
      fc.property(history, (h) => {
        const [a, b] = parts(play(h).copies);
        const once = merged(a, b);
        expect(mergeValues(once, b).changes).toEqual([]);
        expect(mergeValues(once, a).changes).toEqual([]);
        expect(mergeValues(a, a).changes).toEqual([]);
      }),
      runs,
    );
  });
});

it('eachCell(notebook, visit) visits every cell once', () => {
  const { laptop } = twoCopies();
  const paths: string[] = [];
  eachCell(laptop.notebook, (path) => paths.push(path.join(' ')));
  expect(paths.sort()).toEqual([
    'animals a1 tag',
    'days 2026-05-03 date',
    'readings 2026-05-03 a1 c1',
  ]);
  eachCell(emptyNotebook('n'), () => expect.unreachable());
});
