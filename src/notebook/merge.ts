import type { Seen, Stamp } from '../../shared/cell.ts';
import type { Change } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { cellAt, writeCells } from './apply-edit.ts';
import { sameJson } from './cell.ts';
import { clashesOf, type Clash } from './clashes.ts';
import { mergeSeen, mergeValues } from './merge-values.ts';
import { revive, type Revived } from './revive.ts';
import { sameAnimals, uniting, type United } from './unite.ts';
import { say } from '../text/say.ts';

/** A device whose clock runs, or ran, more than a day ahead. */
export interface ClockAhead {
  readonly device: string;
  /** Milliseconds since 1970 of its latest stamp. */
  readonly ms: number;
  readonly sentence: string;
}

export interface MergeChoices {
  /**
   * Newer than every stamp of both copies: take the other copy's `seen` into the clock first. What
   * the merge itself decides is written under it.
   */
  readonly stamp: Stamp;
  /** Milliseconds since 1970 now. */
  readonly now: number;
  /** Ids of animals with equal tags that a person says are not one animal. */
  readonly keepApart?: readonly (readonly [string, string])[];
}

/** Two copies made one, and what a person should look at afterwards. */
export interface Merged {
  readonly notebook: Notebook;
  /** From what this copy holds to the merged notebook, for `Session.takeIn`. */
  readonly changes: readonly Change[];
  readonly seen: Seen;
  readonly clashes: readonly Clash[];
  readonly united: readonly United[];
  readonly revived: readonly Revived[];
  readonly ahead: readonly ClockAhead[];
}

/**
 * Makes one notebook of two copies. First as values (see `mergeValues`), which takes no decision;
 * then what one copy removed and the other went on typing for comes back, and animals with equal
 * tags become one under the lesser id. Both are listed. Nothing typed in either copy is lost: two
 * different values for one place stay side by side as a clash until a person chooses.
 */
export function mergeNotebooks(mine: Notebook, theirs: Notebook, choices: MergeChoices): Merged {
  const { stamp, now, keepApart = [] } = choices;
  const values = mergeValues(mine, theirs);
  const back = revive(mine, theirs, values, stamp);
  let notebook = writeCells(values.notebook, back.changes, []);
  const written: Change[] = [...values.changes, ...back.changes];
  const write = (changes: readonly Change[]): void => {
    written.push(...changes);
    notebook = writeCells(notebook, changes, []);
  };
  write(
    keepApart.flat().map((id) => {
      const path = ['animals', id, 'keptApart'] as const;
      return { path, from: cellAt(notebook, path), to: [[true, stamp] as const] };
    }),
  );
  const united = sameAnimals(notebook, [mine, theirs]);
  for (const pair of united) write(uniting(notebook, pair, stamp));
  const changes = inOne(mine, written);
  const seen = changes
    .flatMap(({ to }) => (to ?? []).map(([, given]) => given))
    .reduce(
      (all, [ms, counter, device]) => mergeSeen(all, { [device]: [ms, counter] }),
      values.seen,
    );
  const gone = new Set(united.map((pair) => pair.gone));
  return {
    notebook: { ...notebook, seen },
    changes,
    seen,
    clashes: clashesOf(notebook),
    united,
    revived: back.revived.filter(({ id }) => !gone.has(id)),
    ahead: clocksAhead(theirs.seen, now),
  };
}

/** One change for each place, from what this copy holds to what it holds at the end. */
function inOne(mine: Notebook, changes: readonly Change[]): readonly Change[] {
  const last = new Map<string, Change>();
  for (const change of changes) last.set(change.path.join('\n'), change);
  return [...last.values()]
    .map(({ path, to }) => ({ path, from: cellAt(mine, path), to }))
    .filter(({ from, to }) => from !== to && !(from && to && sameJson(from, to)));
}

const dayMs = 24 * 60 * 60 * 1000;

/** Devices whose stamps lie more than a day after now. Their edits win over later ones elsewhere. */
export function clocksAhead(seen: Seen, now: number): readonly ClockAhead[] {
  return Object.entries(seen)
    .filter(([, [ms]]) => ms > now + dayMs)
    .map(([device, [ms]]) => ({
      device,
      ms,
      sentence: say(
        'The clock of the other device ({device}) is {days, plural, one {# day} other {# days}} ahead, or this one is behind. Set both; until then its values show first where two copies differ.',
        { device, days: Math.floor((ms - now) / dayMs) },
      ),
    }));
}
