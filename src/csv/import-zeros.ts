import type { Notebook } from '../../shared/notebook.ts';
import type { ColumnId, DayId, RowId } from '../../shared/ref.ts';
import { columnByKey, columnOf, dayOf, defaultsOf, readingOf } from '../notebook/read.ts';
import type { Incoming } from './import-readings.ts';
import type { Target } from './import-targets.ts';
import type { Question } from './role.ts';
import { say } from '../text/say.ts';

/**
 * Blanks of a further egg type that the day looks for, in the row of a counted cup: none was seen, as
 * when a row is left in the notebook. Only for egg types that the list itself has a column for, and
 * only as long as the person does not say otherwise.
 */
export class ImportZeros {
  private filled = 0;
  private readonly listed: ReadonlySet<ColumnId>;

  constructor(
    private readonly notebook: Notebook,
    targets: readonly Target[],
    private readonly answers: ReadonlyMap<string, string>,
  ) {
    this.listed = new Set(
      targets.flatMap((target) =>
        target.to === 'readings' && target.column.otherEggs ? [target.column.id] : [],
      ),
    );
  }

  forRow(day: DayId, row: RowId, incoming: readonly Incoming[]): readonly Incoming[] {
    if (this.listed.size === 0 || !this.isCounted(incoming)) return [];
    const lookedFor = dayOf(this.notebook, day)?.lookedFor ?? defaultsOf(this.notebook).lookedFor;
    const blank = (lookedFor ?? []).filter(
      (id) =>
        this.listed.has(id) &&
        !incoming.some(({ column }) => column === id) &&
        readingOf(this.notebook, day, row, id) === undefined,
    );
    this.filled += blank.length;
    if (this.answers.get('blanks') === 'leave') return [];
    const value = { kind: 'number', text: '0', value: 0 } as const;
    return blank.map((column) => ({ day, column, value, isAdded: true }));
  }

  /** A strongyle-type count stands in the row as a number, and no status says that it is none. */
  private isCounted(incoming: readonly Incoming[]): boolean {
    const status = columnByKey(this.notebook, 'status')?.id;
    return (
      incoming.every(({ column, value }) => column !== status || value.text === 'sampled') &&
      incoming.some(({ column, value }) => {
        const facts = columnOf(this.notebook, column);
        return facts?.kind === 'count' && facts.otherEggs !== true && value.kind === 'number';
      })
    );
  }

  questions(): readonly Question[] {
    if (this.filled === 0 || this.answers.has('blanks')) return [];
    return [
      {
        id: 'blanks',
        kind: 'blank-egg-types',
        columns: [],
        sentence: say(
          '{filled, plural, one {One counted cup has} other {# places of counted cups have}} nothing typed for an egg type that is looked for. What does a blank mean?',
          { filled: this.filled },
        ),
        choices: [
          { value: 'zero', label: say('none seen: 0') },
          { value: 'leave', label: say('not counted: leave it empty') },
        ],
        usual: 'zero',
      },
    ];
  }
}
