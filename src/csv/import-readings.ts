import type { Notebook } from '../../shared/notebook.ts';
import type { Reading } from '../../shared/reading.ts';
import type { ColumnId, DayId, RowId } from '../../shared/ref.ts';
import { isFault } from '../../shared/value.ts';
import { newest } from '../notebook/cell.ts';
import { dayId } from '../text/day-id.ts';
import { dayIdWords } from '../text/day-words.ts';
import type { ImportProblem, PlannedReading } from './import-plan.ts';
import type { Question } from './role.ts';
import { say } from '../text/say.ts';

/** One value of one line, on its way into the plan. */
export interface Incoming {
  readonly day: DayId;
  readonly column: ColumnId;
  readonly value: Reading;
  readonly isAdded: boolean;
}

const further = ['second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth'];

type Row = Map<ColumnId, PlannedReading>;

/**
 * The readings of a list by day, row and column. Two lines for one animal and day are one as long as
 * they do not contradict each other; where they do, and where the notebook holds something else
 * already, the person is asked once.
 */
export class ImportReadings {
  readonly days = new Map<DayId, Map<RowId, Row>>();
  readonly problems: ImportProblem[] = [];
  countSame = 0;
  private twice: { text: string; times: number } | null = null;
  private other: { text: string; times: number } | null = null;

  constructor(
    private readonly notebook: Notebook,
    private readonly answers: ReadonlyMap<string, string>,
  ) {}

  /** Takes in one line's readings of one day; gives the day that they went to. */
  add(day: DayId, row: RowId, tag: string, line: number, incoming: readonly Incoming[]): DayId {
    const rows = this.days.get(day) ?? new Map<RowId, Row>();
    this.days.set(day, rows);
    const held = rows.get(row);
    const against = held && incoming.find(({ column, value }) => isOther(held.get(column), value));
    if (against && this.answers.get('twice') === 'samplings') {
      const next = nextSampling(day);
      if (next !== null) return this.add(next, row, tag, line, incoming);
    }
    const cells: Row = held ?? new Map<ColumnId, PlannedReading>();
    rows.set(row, cells);
    for (const { column, value, isAdded } of incoming) {
      const former = cells.get(column);
      if (former && isOther(former, value) && !this.wins(former, value, tag, day, line)) continue;
      if (!this.isNews(day, row, tag, column, value)) {
        cells.delete(column);
        continue;
      }
      cells.set(column, { value, line, isAdded });
    }
    return day;
  }

  /** Of two values for one cell in the list: whether the later one is taken. */
  private wins(
    former: PlannedReading,
    value: Reading,
    tag: string,
    day: DayId,
    line: number,
  ): boolean {
    const text = say('{tag} on {day}: {former} in line {formerLine}, {later} in line {laterLine}', {
      tag,
      day: dayIdWords(day),
      former: former.value.text,
      formerLine: former.line,
      later: value.text,
      laterLine: line,
    });
    const answer = this.answers.get('twice');
    if (answer !== 'first' && answer !== 'last') {
      this.twice = { text: this.twice?.text ?? text, times: (this.twice?.times ?? 0) + 1 };
      return false;
    }
    const lost = answer === 'first' ? value.text : former.value.text;
    this.problems.push({
      kind: 'same-animal-twice',
      what: 'left out',
      line: answer === 'first' ? line : former.line,
      text: lost,
      sentence: say('{found}. {lost} is left out, as you chose.', { found: text, lost }),
    });
    return answer === 'last';
  }

  /** Whether the notebook does not hold the value yet and, where it holds another, may be written. */
  private isNews(day: DayId, row: RowId, tag: string, column: ColumnId, value: Reading): boolean {
    const held = newest(this.notebook.readings[day]?.[row]?.[column]);
    if (held === undefined) return true;
    if (isSame(held, value)) {
      this.countSame += 1;
      return false;
    }
    const answer = this.answers.get('there');
    if (answer === 'take') return true;
    const text = say('{tag} on {day}: {held} in the notebook, {listed} in the list', {
      tag,
      day: dayIdWords(day),
      held: held.text,
      listed: value.text,
    });
    if (answer === 'keep')
      this.problems.push({
        kind: 'already-there',
        what: 'left out',
        line: 0,
        text: value.text,
        sentence: say('{found}. {lost} is left out, as you chose.', {
          found: text,
          lost: value.text,
        }),
      });
    else this.other = { text: this.other?.text ?? text, times: (this.other?.times ?? 0) + 1 };
    return false;
  }

  /** What the contradictions found leave to be asked. */
  questions(): readonly Question[] {
    const questions: Question[] = [];
    if (this.twice)
      questions.push({
        id: 'twice',
        kind: 'same-animal-twice',
        columns: [],
        sentence: say(
          '{cells, plural, one {One cell stands} other {# cells stand}} in this list twice with different values ({example}). What are they?',
          { cells: this.twice.times, example: this.twice.text },
        ),
        choices: [
          { value: 'samplings', label: say('two samplings of that day') },
          { value: 'first', label: say('take the earlier line') },
          { value: 'last', label: say('take the later line') },
        ],
      });
    if (this.other)
      questions.push({
        id: 'there',
        kind: 'already-there',
        columns: [],
        sentence: say(
          '{cells, plural, one {One cell stands} other {# cells stand}} in the notebook already with another value ({example}). Which holds?',
          { cells: this.other.times, example: this.other.text },
        ),
        choices: [
          { value: 'keep', label: say('keep what the notebook has') },
          { value: 'take', label: say('take what the list has') },
        ],
      });
    return questions;
  }
}

function isOther(held: PlannedReading | undefined, value: Reading): boolean {
  return held !== undefined && !isSame(held.value, value);
}

function isSame(a: Reading, b: Reading): boolean {
  return (
    a.kind === b.kind &&
    a.text === b.text &&
    ('unit' in a ? a.unit : undefined) === ('unit' in b ? b.unit : undefined)
  );
}

/** The next sampling of the same date: `…-second` after the first, `…-third` after that. */
function nextSampling(day: DayId): DayId | null {
  const label = day.slice(11);
  const at = further.findIndex((word) => label === word || label.endsWith(`-${word}`));
  const word = further[at + 1];
  if (word === undefined) return null;
  const base = at === -1 ? label : label.slice(0, label.length - (further[at]?.length ?? 0));
  const id = dayId(day.slice(0, 10), `${base} ${word}`);
  return isFault(id) ? null : id;
}
