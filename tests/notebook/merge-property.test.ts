import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Json } from '../../shared/cell.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { cellAt } from '../../src/notebook/apply-edit.ts';
import { emptyNotebook } from '../../src/notebook/from-template.ts';
import { mergeNotebooks } from '../../src/notebook/merge.ts';
import { animalsOf } from '../../src/notebook/read.ts';
import { deepFreeze } from '../freeze.ts';
import { Copy, counted } from './copies.ts';

const day = '2026-05-03';
const columns = ['c1', 'c2'] as const;
const animals = 3;

/** What two people do on a phone and a laptop: add an animal by its tag, type a count, exchange files. */
type Step =
  | { readonly kind: 'add'; readonly who: number; readonly tag: number }
  | {
      readonly kind: 'type';
      readonly who: number;
      readonly tag: number;
      readonly column: number;
      readonly value: number;
    }
  | { readonly kind: 'bring'; readonly who: number };

const who = fc.nat(1);
const tag = fc.nat(animals - 1);
const step: fc.Arbitrary<Step> = fc.oneof(
  fc.record({ kind: fc.constant('add' as const), who, tag }),
  fc.record({
    kind: fc.constant('type' as const),
    who,
    tag,
    column: fc.nat(1),
    value: fc.nat(4),
  }),
  fc.record({ kind: fc.constant('bring' as const), who }),
);
/** Clocks may be wrong by years, in both directions. */
const skew = fc.integer({ min: -1e11, max: 1e11 });
const history = fc.record({
  skews: fc.tuple(skew, skew),
  steps: fc.array(step, { maxLength: 20 }),
});

/** Tag → column → the values standing there, in the order of their text. */
function shown(notebook: Notebook): Record<string, Record<string, Json[]>> {
  return Object.fromEntries(
    animalsOf(notebook).map(({ id, tag: name }) => [
      name,
      Object.fromEntries(
        columns.map((column) => [
          column,
          [
            ...new Set(
              (cellAt(notebook, ['readings', day, id, column]) ?? [])
                .map(([value]) => value)
                .filter((value) => value !== null)
                .map((value) => JSON.stringify(value)),
            ),
          ].sort(),
        ]),
      ),
    ]),
  );
}

function bring(mine: Copy, theirs: Copy): void {
  const stamp = mine.stamp(theirs.notebook);
  const { notebook } = mergeNotebooks(deepFreeze(mine.notebook), deepFreeze(theirs.notebook), {
    stamp,
    now: 0,
  });
  mine.take(notebook);
}

function play({ skews, steps }: { skews: readonly number[]; steps: readonly Step[] }): Copy[] {
  let ms = 1_777_800_000_000;
  const copies = skews.map((off, i) => {
    const tick = (): number => (ms += 10) + off;
    return new Copy(['phone', 'laptop'][i] ?? '', tick, emptyNotebook('n'));
  });
  let made = 0;
  for (const does of steps) {
    const copy = copies[does.who];
    const other = copies[1 - does.who];
    if (!copy || !other) continue;
    if (does.kind === 'bring') {
      bring(copy, other);
      continue;
    }
    const name = `K-${does.tag}`;
    const there = animalsOf(copy.notebook).find((animal) => animal.tag === name);
    if (does.kind === 'type' && there)
      copy.type(day, there.id, columns[does.column] ?? 'c1', counted(does.value));
    else if (does.kind === 'add' && !there) copy.addAnimal(`${copy.device}${(made += 1)}`, name);
  }
  return copies;
}

describe('mergeNotebooks, whatever was typed where and however wrong the clocks', () => {
  it('shows both devices the same animals and values once each has brought in the other', () => {
    fc.assert(
      fc.property(history, (h) => {
        const [phone, laptop] = play(h) as [Copy, Copy];
        bring(phone, laptop);
        bring(laptop, phone);
        expect(shown(laptop.notebook)).toEqual(shown(phone.notebook));
        const tags = animalsOf(phone.notebook).map((animal) => animal.tag);
        expect(new Set(tags).size).toBe(tags.length);
      }),
      { numRuns: 500 },
    );
  });

  it('comes to the same from whichever side the merge begins', () => {
    fc.assert(
      fc.property(history, (h) => {
        const [phone, laptop] = play(h) as [Copy, Copy];
        const [other, same] = play(h) as [Copy, Copy];
        bring(phone, laptop);
        bring(same, other);
        expect(shown(same.notebook)).toEqual(shown(phone.notebook));
      }),
      { numRuns: 500 },
    );
  });

  it('leaves no place empty at which either copy held a value, and loses no animal', () => {
    fc.assert(
      fc.property(history, (h) => {
        const [phone, laptop] = play(h) as [Copy, Copy];
        const [before, there] = [shown(phone.notebook), shown(laptop.notebook)];
        bring(phone, laptop);
        const after = shown(phone.notebook);
        for (const side of [before, there])
          for (const [name, cells] of Object.entries(side)) {
            expect(after[name]).toBeDefined();
            for (const column of columns)
              if ((cells[column] ?? []).length > 0)
                expect(after[name]?.[column]?.length ?? 0).toBeGreaterThan(0);
          }
      }),
      { numRuns: 500 },
    );
  });

  it('has nothing to do when the same copy is brought in again', () => {
    fc.assert(
      fc.property(history, (h) => {
        const [phone, laptop] = play(h) as [Copy, Copy];
        bring(phone, laptop);
        const once = phone.notebook;
        const stamp = phone.stamp(laptop.notebook);
        const again = mergeNotebooks(once, laptop.notebook, { stamp, now: 0 });
        expect(shown(again.notebook)).toEqual(shown(once));
        expect(again.changes).toEqual([]);
      }),
      { numRuns: 500 },
    );
  });
});
