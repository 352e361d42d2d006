import type { FigureAnswer } from '../shared/derived.ts';
import type { Figure } from '../shared/notebook.ts';
import { toShown } from '../src/engine/stored-formula.ts';
import { groupOn, groupsOn, presentAnimals } from '../src/notebook/present.ts';
import { columnByKey, dayOf, figuresOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';

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
  const date = dayOf(notebook, day)?.date ?? day;
  const epg = columnByKey(notebook, 'epg');
  const everyone = presentAnimals(notebook, day);
  const columns = figures.map(({ formula }) => {
    const key = borne.exec(toShown(notebook, formula))?.[1];
    return key === undefined ? undefined : columnByKey(notebook, key)?.id;
  });
  return {
    day,
    figures,
    lines: lines.map((group, i) => {
      const present =
        group === null
          ? everyone
          : everyone.filter(({ id }) => groupOn(notebook, id, date) === group);
      const own = answers.slice(i * figures.length, (i + 1) * figures.length);
      const isCounted = (id: string): boolean =>
        epg !== undefined && typeof engine.value(id, epg.id) === 'number';
      return {
        group,
        counted: present.filter(({ id }) => isCounted(id)).length,
        present: present.length,
        answers: own,
        whose: own.map((answer, at) => {
          const column = columns[at];
          if (column === undefined || typeof answer.value !== 'number') return [];
          return present
            .filter(({ id }) => engine.value(id, column) === answer.value)
            .map(({ tag }) => tag);
        }),
      };
    }),
  };
}
