import type { FigureAnswer } from '../shared/derived.ts';
import type { Animal, Figure } from '../shared/notebook.ts';
import { toShown } from '../src/engine/stored-formula.ts';
import { groupOn, groupsOn, presentAnimals } from '../src/notebook/present.ts';
import { columnByKey, dayOf, figuresOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { herdLists, herdReady } from './herd-lists.ts';

/** One line of the figures: a group, or (null) all animals present. */
export interface FigureLine {
  readonly group: string | null;
  /** Animals with an epg. */
  readonly counted: number;
  readonly present: number;
  /** In the order of the figures. */
  readonly answers: readonly FigureAnswer[];
  /** For a highest or lowest: the tags that bear it. */
  readonly whose: readonly (readonly string[])[];
}

export interface FigureTable {
  readonly day: string;
  readonly figures: readonly Figure[];
  readonly lines: readonly FigureLine[];
}

/** `MAX(herd.epg)`: a figure that some animal bears. */
const borne = /^\s*=?\s*(?:MAX|MIN)\s*\(\s*herd\s*\.\s*([a-z][a-z0-9_]*)\s*\)\s*$/i;

/**
 * The open day's figures, one line per group and all animals last. Rejects with an AbortError once a
 * newer change has made the work idle. Null while no day is open.
 */
export async function figureTable(
  session: Session,
  signal: AbortSignal,
): Promise<FigureTable | null> {
  const { notebook, openDay: day, engine } = session;
  if (day === null) return null;
  const figures = figuresOf(notebook);
  const groups = groupsOn(notebook, day);
  const lines: readonly (string | null)[] = groups.length > 1 ? [...groups, null] : [null];
  const asked = lines.flatMap((group) => figures.map(({ formula }) => ({ formula, day, group })));
  const answers = await engine.figures(asked, signal);
  await herdReady(session, signal);
  const columns = figures.map(({ formula }) => {
    const key = borne.exec(toShown(notebook, formula))?.[1];
    return key === undefined ? undefined : columnByKey(notebook, key);
  });
  return {
    day,
    figures,
    lines: lines.map((group, i) => {
      const { present, counted, epgs } = lineOf(session, day, group);
      const own = answers.slice(i * figures.length, (i + 1) * figures.length);
      return {
        group,
        counted,
        present: present.length,
        answers: own,
        whose: own.map(({ value }, at) => {
          const column = columns[at];
          if (column === undefined || typeof value !== 'number') return [];
          const isBorne = (id: string, n: number): boolean =>
            (column.key === 'epg' ? epgs[n] : engine.value(id, column.id)) === value;
          return present.filter(({ id }, n) => isBorne(id, n)).map(({ tag }) => tag);
        }),
      };
    }),
  };
}

interface LineAnimals {
  readonly present: readonly Animal[];
  readonly counted: number;
  /** In the order of `present`. */
  readonly epgs: readonly (number | null)[];
}

function lineOf(session: Session, day: string, group: string | null): LineAnimals {
  const lists = herdLists(session, group);
  if (lists) return { present: lists.animals, counted: lists.counted, epgs: lists.epgs };
  const { notebook } = session;
  const date = dayOf(notebook, day)?.date ?? day;
  const present = presentAnimals(notebook, day).filter(
    ({ id }) => group === null || groupOn(notebook, id, date) === group,
  );
  return { present, counted: 0, epgs: [] };
}
