import type { Edit, SetTo } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { addAnimals } from '../notebook/edit-animals.ts';
import { addDay } from '../notebook/edit-days.ts';
import { columnsOf } from '../notebook/read.ts';
import { orderAtEnd, ordersAtEnd, setsOf } from '../notebook/record-sets.ts';
import { cupNumbers } from './cup-numbers.ts';
import { isReady, reportedColumn, type ImportPlan, type PlannedAnimal } from './import-plan.ts';
import { say } from '../text/say.ts';

/**
 * The plan as one edit, so that one undo takes all of it back. `name` is the file's, for "import of
 * counts.csv". A fault where something still has to be answered, or the list brings nothing.
 */
export function planToEdit(notebook: Notebook, plan: ImportPlan, name: string): Edit | Fault {
  if (!isReady(plan))
    return fault(
      'not-ready',
      say('The list leaves something open. Answer what is asked above it first.'),
    );
  const fresh = plan.animals.filter(({ isNew }) => isNew);
  const added = newAnimalSets(notebook, fresh);
  if (isFault(added)) return added;
  const days = newDaySets(notebook, plan);
  if (isFault(days)) return days;
  const sets: SetTo[] = [
    ...added,
    ...plan.animals.flatMap(({ id, isNew, facts, groups }) => [
      ...(isNew ? [] : setsOf('animals', id, facts)),
      ...groups.map(({ date, group }) => ({ path: ['groups', id, date] as const, value: group })),
    ]),
    ...days,
    ...(plan.addsReportedColumn ? reportedSets(notebook) : []),
    ...plan.cups.flatMap(({ id, day, number, animalIds }) =>
      setsOf('cups', id, { day, number, animalIds }),
    ),
    ...benchSets(notebook, plan),
  ];
  for (const [day, rows] of plan.readings)
    for (const [row, cells] of rows)
      for (const [column, { value }] of cells)
        sets.push({ path: ['readings', day, row, column], value: value });
  if (sets.length === 0)
    return fault(
      'nothing-new',
      say('There is nothing in this list that the notebook has not already.'),
    );
  return { label: say('import of {name}', { name }), source: 'import', sets };
}

function newAnimalSets(
  notebook: Notebook,
  fresh: readonly PlannedAnimal[],
): readonly SetTo[] | Fault {
  if (fresh.length === 0) return [];
  const ids = fresh.map(({ id }) => id).values();
  const nextId = (): string => ids.next().value ?? '';
  const animals = fresh.map(({ tag, facts }) => ({ tag, ...facts }));
  const edit = addAnimals(notebook, animals, nextId, '');
  return isFault(edit) ? edit : edit.sets;
}

function newDaySets(notebook: Notebook, plan: ImportPlan): readonly SetTo[] | Fault {
  const sets: SetTo[] = [];
  for (const { isNew, date, label } of plan.days) {
    if (!isNew) continue;
    const added = addDay(notebook, date, label);
    if (isFault(added)) return added;
    sets.push(...added.edit.sets);
  }
  return sets;
}

function reportedSets(notebook: Notebook): readonly SetTo[] {
  const { id, ...facts } = reportedColumn;
  return setsOf('columns', id, { ...facts, order: orderAtEnd(columnsOf(notebook)) });
}

/** The order at the bench by the cups' numbers, on days that have none yet and number them otherwise. */
function benchSets(notebook: Notebook, plan: ImportPlan): readonly SetTo[] {
  return [...plan.bench].flatMap(([day, numbers]) => {
    if (Object.keys(notebook.bench[day] ?? {}).length > 0) return [];
    const now = cupNumbers(notebook, day);
    if ([...numbers].every(([row, number]) => now.get(row) === number)) return [];
    const rows = [...numbers].sort(([, a], [, b]) => a - b);
    const orders = ordersAtEnd([], rows.length);
    return rows.map(([row], i) => ({
      path: ['bench', day, row] as const,
      value: orders[i] ?? null,
    }));
  });
}
