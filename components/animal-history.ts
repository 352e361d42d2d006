import type { Decision, Treatment } from '../shared/notebook.ts';
import type { Value } from '../shared/value.ts';
import { isPresent } from '../src/notebook/present.ts';
import {
  animalOf,
  byText,
  columnByKey,
  columnsOf,
  daysOf,
  readingOf,
} from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { daysAfterTreatment, treatmentsOfAnimal } from '../src/treating/after-treatment.ts';
import { decisionOf } from '../src/treating/decision.ts';
import { boundEpg, type BoundEpg } from './bound-epg.ts';

/** One sampling day of one animal. */
export interface HistoryDay {
  readonly kind: 'day';
  readonly date: string;
  readonly label: string | undefined;
  readonly epg: number | null;
  readonly bound: BoundEpg | null;
  /** What was typed about the animal, by the label of its column. */
  readonly typed: readonly (readonly [label: string, text: string])[];
  /** Days since a treatment that the count still shows. */
  readonly daysAfter: number | undefined;
  readonly decision: Decision | undefined;
}

export interface HistoryTreatment {
  readonly kind: 'treatment';
  readonly date: string;
  readonly treatment: Treatment;
}

export type HistoryLine = HistoryDay | HistoryTreatment;

/** Everything kept of one animal, newest first; a day's count stands above the treatment that followed it that day. */
export async function animalHistory(
  session: Session,
  animalId: string,
  signal: AbortSignal,
): Promise<readonly HistoryLine[]> {
  const { notebook, engine } = session;
  const animal = animalOf(notebook, animalId);
  if (!animal) return [];
  const columns = ['epg', 'grams', 'fluid', 'area', 'factor'].map((key) =>
    columnByKey(notebook, key),
  );
  const lines: HistoryLine[] = treatmentsOfAnimal(notebook, animalId).map((treatment) => ({
    kind: 'treatment',
    date: treatment.date ?? '',
    treatment,
  }));
  for (const { id, date, label } of daysOf(notebook)) {
    if (!isPresent(notebook, id, animal)) continue;
    const values = new Map<string, Value>();
    for (const column of columns) {
      if (!column || (column.key !== 'epg' && typeof values.get('epg') === 'number')) continue;
      const found = await engine.dayColumn(notebook, id, column.id);
      signal.throwIfAborted();
      values.set(column.key, found.get(animalId) ?? null);
    }
    const epg = values.get('epg') ?? null;
    lines.push({
      kind: 'day',
      date,
      label,
      epg: typeof epg === 'number' ? epg : null,
      bound:
        typeof epg === 'number'
          ? null
          : boundEpg(notebook, id, animalId, (key) => values.get(key) ?? null),
      typed: columnsOf(notebook).flatMap((column) => {
        const reading = readingOf(notebook, id, animalId, column.id);
        return reading ? [[column.label ?? column.key, reading.text] as const] : [];
      }),
      daysAfter: daysAfterTreatment(notebook, animalId, date),
      decision: decisionOf(notebook, id, animalId),
    });
  }
  return lines.sort(
    (a, b) => byText(b.date, a.date) || (a.kind === b.kind ? 0 : a.kind === 'treatment' ? -1 : 1),
  );
}
