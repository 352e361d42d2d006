import type { CriterionAnswer } from '../../shared/derived.ts';
import type { Animal, Criterion, Notebook } from '../../shared/notebook.ts';
import type { DayId, RowId } from '../../shared/ref.ts';
import { isFault } from '../../shared/value.ts';
import { isPresent } from '../notebook/present.ts';
import { animalOf } from '../notebook/read.ts';
import type { Book } from './book.ts';
import { settledByBounds } from './bounds.ts';
import { dayNodeKey, type NodeKey } from './node.ts';
import { criteriaOf } from './plan.ts';
import { readingIn, rowSight } from './row-feed.ts';

/** How the day's criteria stand for one animal, in the day's order; none for one that is not there. */
export function judgeRow(
  notebook: Notebook,
  book: Book,
  day: DayId,
  row: RowId,
): readonly CriterionAnswer[] {
  const animal = animalOf(notebook, row);
  if (animal?.tag === undefined || animal.removed === true) return [];
  if (!isPresent(notebook, day, animal)) return [];
  const answers: CriterionAnswer[] = [];
  criteriaOf(notebook, day).forEach((criterion, i) => {
    if (!appliesTo(criterion, animal)) return;
    answers.push(
      criterion.ready === 'too-many'
        ? { criterion: criterion.id, holds: isTooMany(notebook, book, day, row), lacking: [] }
        : judgeOne(notebook, book, day, row, criterion, `k:${i}`),
    );
  });
  return answers;
}

/** A criterion for lambs is asked of every animal not known to be something else. */
function appliesTo(criterion: Criterion, animal: Animal): boolean {
  const { species, classes } = criterion;
  const isSpecies = species === undefined || (animal.species ?? species) === species;
  const isClass =
    classes === undefined ||
    classes.length === 0 ||
    animal.class === undefined ||
    classes.includes(animal.class);
  return isSpecies && isClass;
}

function judgeOne(
  notebook: Notebook,
  book: Book,
  day: DayId,
  row: RowId,
  { id: criterion, condition }: Criterion,
  node: NodeKey,
): CriterionAnswer {
  const value = book.rowValue(day, row, node);
  if (typeof value === 'boolean') return { criterion, holds: value, lacking: [] };
  if (isFault(value)) return { criterion, holds: null, lacking: [], fault: value };
  const settled = settledByBounds(notebook, book, day, row, condition);
  if (settled !== null) return { criterion, holds: settled, lacking: [] };
  return { criterion, holds: null, lacking: missingInputs(book, day, row, node) };
}

/** Keys of the inputs that are missing; where none is, of those the formula was left to decide about. */
function missingInputs(book: Book, day: DayId, row: RowId, node: NodeKey): readonly string[] {
  const inputs = book.plan.nodes.get(dayNodeKey({ day, node }))?.compiled?.inputs ?? [];
  const missing = inputs.filter((input) => book.inputValue(day, row, input) === null);
  const required = missing.filter((input) => !input.optional);
  return (required.length > 0 ? required : missing).map((input) => input.key);
}

/** Whether a strongyle-type count of the row says "too many to count", and the sample stands. */
function isTooMany(notebook: Notebook, book: Book, day: DayId, row: RowId): boolean {
  const { readings, isSpoiled } = rowSight(notebook, day, row, book.plan.groups, false);
  if (!readings || isSpoiled) return false;
  return book.plan.strongyleCounts.some((id) => readingIn(readings, id)?.kind === 'too-many');
}
