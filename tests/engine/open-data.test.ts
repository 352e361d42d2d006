import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { SetTo } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { toStored } from '../../src/engine/stored-formula.ts';
import { columnId, edited, summerNotebook, typing } from '../build-notebook.ts';

/**
 * Raw counts of 230 sheep before and after treatment, as a notebook. Source: repository
 * Bashvet/Bayesian-GIN-Model, file GinJagsNig.csv (MIT licence); read where it lies and not copied.
 * One egg stands for 20 epg there, in every row but NE (70 epg with a count of 4). Shares and sums:
 * computed from the file with R.
 */
const file = join(import.meta.dirname, '../../../shared/data/sheep-before-after-counts.csv');
const isThere = existsSync(file);
if (!isThere) console.warn(`Skipped: the open data set is not at ${file}.`);

const before = '2024-05-01';
const after = '2024-05-15';

interface Sheep {
  readonly id: string;
  /** Before and after, as the file has them. */
  readonly epgs: readonly [number, number];
  readonly counts: readonly [string, string];
}

function sheep(): readonly Sheep[] {
  const [, ...lines] = readFileSync(file, 'utf8').trim().split(/\r?\n/);
  return lines.map((line) => {
    const [id = '', epgBefore, first = '', epgAfter, second = ''] = line.split(',');
    return { id, epgs: [Number(epgBefore), Number(epgAfter)], counts: [first, second] };
  });
}

function asNotebook(flock: readonly Sheep[]): Notebook {
  const notebook = summerNotebook({
    animals: Object.fromEntries(flock.map(({ id }) => [id, {}])),
    days: { [before]: {}, [after]: {} },
    counts: {},
  });
  const sets: SetTo[] = flock.flatMap(({ id, counts }) =>
    [before, after].flatMap((day, i) => [
      typing(notebook, day, id, 'chamber1', counts[i] ?? ''),
      typing(notebook, day, id, 'factor', '20'),
    ]),
  );
  return edited(notebook, sets).notebook;
}

describe.skipIf(!isThere)('the open counts of 230 sheep as a notebook', () => {
  async function figures(day: string, ...formulas: readonly string[]) {
    const notebook = asNotebook(sheep());
    const engine = createEngine(() => Promise.resolve());
    await engine.open(notebook, day);
    const asked = formulas.map((shown) => ({
      formula: toStored(notebook, shown),
      day,
      group: null,
    }));
    return engine.figures(asked);
  }

  it('has the herd means of both days: 1,209 and 596 eggs × 20 over 230 sheep', async () => {
    const [first] = await figures(before, 'HERDMEAN(herd.epg)');
    expect(first).toMatchObject({ counted: 230, present: 230 });
    expect(first?.value).toBeCloseTo((1209 * 20) / 230, 9);
    const [second] = await figures(after, 'HERDMEAN(herd.epg)');
    expect(second?.value).toBeCloseTo((596 * 20) / 230, 9);
  });

  it('has 71.0 % of the eggs in the top 20 % of the sheep, 86.1 % in the top 30 %', async () => {
    const [fifth, third] = await figures(
      before,
      'EGGSHARE(herd.epg, 0.2)',
      'EGGSHARE(herd.epg, 0.3)',
    );
    expect(Number(fifth?.value).toFixed(3)).toBe('0.710');
    expect(Number(third?.value).toFixed(3)).toBe('0.861');
  });

  it('goes down by 50.7 % over all pairs, nothing clipped', async () => {
    const [reduction] = await figures(after, `FECR(herd[${before}].epg, herd[${after}].epg)`);
    expect(Number(reduction?.value)).toBeCloseTo(50.7031, 4);
  });

  it('gives every sheep the epg that the file has, but for the one row that is wrong there', async () => {
    const flock = sheep();
    const notebook = asNotebook(flock);
    const epg = columnId(notebook, 'epg');
    const wrong: string[] = [];
    for (const [i, day] of [before, after].entries()) {
      const engine = createEngine(() => Promise.resolve());
      await engine.open(notebook, day);
      for (const { id, epgs } of flock)
        if (engine.value(id, epg) !== epgs[i]) wrong.push(`${id} on ${day}`);
    }
    expect(wrong).toEqual([`NE on ${after}`]);
  });
});
