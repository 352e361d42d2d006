import type { Engine } from '../../shared/derived.ts';
import type { Animal, Notebook, SamplingDay } from '../../shared/notebook.ts';
import type { RowId } from '../../shared/ref.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { planToEdit } from '../csv/import-edit.ts';
import { cupNumbers } from '../csv/cup-numbers.ts';
import { TidyWriter } from '../csv/tidy-row.ts';
import type { WriteCell } from '../csv/write-table.ts';
import { applyEdit } from '../notebook/apply-edit.ts';
import { outcomeOf } from '../notebook/outcome.ts';
import { ownCups } from '../notebook/own-cups.ts';
import { animalOf, columnsOf, dayOf, defaultsOf, figuresOf } from '../notebook/read.ts';
import type { PlaceList } from './recalc-list.ts';

/** Animals worked out together, where no formula looks at other animals. Bounds the memory. */
const together = 2000;

/** A row of the result, with the line of the list that it comes from. */
export type OnRow = (line: number, day: string, cells: readonly WriteCell[]) => void;

/** The notebook of one place with its list read in; or why it could not be. */
export function notebookOf(empty: Notebook, list: PlaceList, file: string): Notebook | Fault {
  const edit = planToEdit(empty, list.plan, file);
  if (isFault(edit)) return edit.fault === 'nothing-new' ? empty : edit;
  const stamp = [0, 1, 'recalc'] as const;
  const sets = [
    ...edit.sets,
    { path: ['about', 'notebook', 'title'] as const, value: list.title },
    { path: ['about', 'notebook', 'place'] as const, value: list.place },
  ];
  return applyEdit(empty, { ...edit, sets }, stamp).notebook;
}

/**
 * Works out every row of a place's list, day by day, in groups of animals where the formulas allow it.
 * Only the animals that the list names for a day count as present that day.
 */
export async function recalcPlace(
  notebook: Notebook,
  { plan }: PlaceList,
  engine: Engine,
  onRow: OnRow,
): Promise<void> {
  const size = looksAtOthers(notebook) ? Infinity : together;
  const writer = new TidyWriter(notebook, 'comma');
  for (const { id } of plan.days) {
    const day = dayOf(notebook, id);
    if (!day) continue;
    const rows = [...(plan.lines.get(id) ?? [])];
    const numbers = plan.bench.get(id)
      ? cupNumbers(
          withAnimals(
            notebook,
            rows.map(([row]) => row),
            id,
          ),
          id,
        )
      : new Map<RowId, number>();
    for (let from = 0; from < rows.length; from += size) {
      const part = rows.slice(from, from + size);
      await oneGroup(notebook, day, part, `${id} ${from}`, engine, (row, line, view) => {
        const animal = animalOf(notebook, row);
        if (!animal) return;
        onRow(
          line,
          id,
          writer.cells({
            day,
            animals: [animal],
            cup: null,
            cupNumber: numbers.get(row) ?? null,
            value: (column) => engine.value(row, column),
            outcome: outcomeOf(view, id, engine.criteria(row)),
          }),
        );
      });
    }
    writeCups(notebook, day, plan.lines.get(id), writer, onRow);
  }
}

async function oneGroup(
  notebook: Notebook,
  day: SamplingDay,
  rows: readonly (readonly [RowId, number])[],
  name: string,
  engine: Engine,
  each: (row: RowId, line: number, view: Notebook) => void,
): Promise<void> {
  const view = withAnimals(
    notebook,
    rows.map(([row]) => row),
    name,
  );
  await engine.open(view, day.id);
  for (const [row, line] of rows) each(row, line, view);
}

/** The same notebook with some of its animals, under a name of its own for the engine. */
function withAnimals(notebook: Notebook, rows: readonly RowId[], name: string): Notebook {
  const animals = Object.fromEntries(
    rows.flatMap((row) => {
      const fields = notebook.animals[row];
      return fields ? [[row, fields] as const] : [];
    }),
  );
  return { ...notebook, id: `${notebook.id} ${name}`, animals };
}

function writeCups(
  notebook: Notebook,
  day: SamplingDay,
  lines: ReadonlyMap<RowId, number> | undefined,
  writer: TidyWriter,
  onRow: OnRow,
): void {
  if (Object.keys(notebook.cups).length === 0) return;
  for (const cup of ownCups(notebook, day.id)) {
    const animals: Animal[] = (cup.animalIds ?? []).flatMap((id) => animalOf(notebook, id) ?? []);
    const cells = writer.cells({
      day,
      animals,
      cup,
      cupNumber: null,
      value: () => null,
      outcome: null,
    });
    onRow(lines?.get(cup.id) ?? 0, day.id, cells);
  }
}

/** Whether some column or criterion looks at more than its own animal, so that a day stays whole. */
export function looksAtOthers(notebook: Notebook): boolean {
  const figures = figuresOf(notebook).map(({ id }) => `{f:${id}}`);
  const formulas = [
    ...columnsOf(notebook).map(({ formula }) => formula ?? ''),
    ...(defaultsOf(notebook).criteria ?? []).map(({ condition }) => condition),
  ];
  return formulas.some(
    (formula) => /\bherd\b/.test(formula) || figures.some((figure) => formula.includes(figure)),
  );
}

/** What is wrong with a formula of the template; `null` where all stand. */
export function formulaFault(
  notebook: Notebook,
  engine: Engine,
  shown: (formula: string) => string,
): Fault | null {
  for (const { key, kind, formula } of columnsOf(notebook)) {
    if (kind !== 'formula' || !formula) continue;
    const wrong = engine.check(shown(formula), 'column', key);
    if (wrong) return fault(wrong.fault, `The template's column ${key}: ${wrong.sentence}`);
  }
  for (const { reason, condition } of defaultsOf(notebook).criteria ?? []) {
    const wrong = condition === '' ? null : engine.check(shown(condition), 'criterion');
    if (wrong) return fault(wrong.fault, `The template's criterion "${reason}": ${wrong.sentence}`);
  }
  return null;
}
