import type { Animal } from '../shared/notebook.ts';
import { dangerFirst } from '../src/notebook/danger-first.ts';
import { outcomeOf, type Outcome } from '../src/notebook/outcome.ts';
import { presentAnimals } from '../src/notebook/present.ts';
import { columnByKey, limitsOf, limitValue } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { atLeast } from '../src/stats/at-least.ts';
import { breathe } from './after-paint.ts';
import { boundEpg, type BoundEpg } from './bound-epg.ts';

/** One animal of the list, with what a person needs beside it. */
export interface ListedAnimal {
  readonly animal: Animal;
  readonly outcome: Outcome;
  readonly epg: number | null;
  /** What a cup with a bound says of its epg. */
  readonly bound: BoundEpg | null;
  readonly weightKg: number | null;
}

export interface TreatmentList {
  readonly day: string;
  readonly present: number;
  /** Danger first. */
  readonly over: readonly ListedAnimal[];
  readonly open: readonly ListedAnimal[];
  readonly below: readonly ListedAnimal[];
  /** Animals with eyelid colour 4 or 5 of those scored, once they reach the notebook's own limit. */
  readonly pale: { readonly pale: number; readonly scored: number } | null;
}

/** Rows looked at before the page may paint again. */
const slice = 400;

/** What the day's criteria say of every animal present. Null while no day is open. */
export async function treatmentList(
  session: Session,
  signal: AbortSignal,
): Promise<TreatmentList | null> {
  const { notebook, openDay: day, engine } = session;
  if (day === null) return null;
  const present = presentAnimals(notebook, day);
  const numberOf = (row: string, key: string): number | null => {
    const column = columnByKey(notebook, key);
    const value = column ? engine.value(row, column.id) : null;
    return typeof value === 'number' ? value : null;
  };
  const listed: ListedAnimal[] = [];
  const eyelids: number[] = [];
  for (const [at, animal] of present.entries()) {
    if (at > 0 && at % slice === 0) {
      await breathe();
      if (signal.aborted) break;
    }
    const eyelid = numberOf(animal.id, 'eyelid');
    if (eyelid !== null) eyelids.push(eyelid);
    const epg = numberOf(animal.id, 'epg');
    listed.push({
      animal,
      outcome: outcomeOf(notebook, day, engine.criteria(animal.id)),
      epg,
      bound:
        epg === null
          ? boundEpg(notebook, day, animal.id, (key) => {
              const column = columnByKey(notebook, key);
              return column ? engine.value(animal.id, column.id) : null;
            })
          : null,
      weightKg: numberOf(animal.id, 'weight'),
    });
  }
  const of = (kind: Outcome['kind']): readonly ListedAnimal[] =>
    dangerFirst(listed.filter(({ outcome }) => outcome.kind === kind));
  return {
    day,
    present: present.length,
    over: of('over'),
    open: of('not enough known'),
    below: listed.filter(({ outcome }) => outcome.kind === 'below'),
    pale: paleOf(session, day, eyelids),
  };
}

function paleOf(session: Session, day: string, eyelids: readonly number[]): TreatmentList['pale'] {
  const limit = limitsOf(session.notebook).find(({ key }) => key === 'pale_alarm');
  const percent = limit && limitValue(session.notebook, day, limit.id);
  const pale = eyelids.filter((score) => score >= 4).length;
  if (percent === undefined || pale === 0) return null;
  return atLeast((100 * pale) / eyelids.length, percent) ? { pale, scored: eyelids.length } : null;
}

/** Animals that lack, or were not looked at for, the same things, together. */
export function byLack(
  animals: readonly ListedAnimal[],
  lackOf: (outcome: Outcome) => readonly string[],
): readonly { readonly lack: readonly string[]; readonly animals: readonly ListedAnimal[] }[] {
  const groups = new Map<string, { lack: readonly string[]; animals: ListedAnimal[] }>();
  for (const animal of animals) {
    const lack = lackOf(animal.outcome);
    const name = lack.join('\n');
    const group = groups.get(name) ?? { lack, animals: [] };
    group.animals.push(animal);
    groups.set(name, group);
  }
  return [...groups.values()];
}
