import type { Notebook } from '../../shared/notebook.ts';
import type { DayId, RowId } from '../../shared/ref.ts';
import { known } from '../notebook/cell.ts';
import type { PlannedCup } from './import-plan.ts';

/** The cups of a list: those of their own, and the numbers of those that belong to one animal's row. */
export class ImportCups {
  readonly list: PlannedCup[] = [];
  readonly benches = new Map<DayId, Map<RowId, number>>();
  private readonly byName = new Map<string, PlannedCup>();

  constructor(
    notebook: Notebook,
    private readonly newId: () => string,
  ) {
    for (const [id, fields] of Object.entries(notebook.cups)) {
      const { day, number, animalIds = [], removed } = known(id, fields);
      if (day === undefined || number === undefined || removed === true) continue;
      this.byName.set(nameOf(day, number, animalIds), { id, day, number, animalIds, isNew: false });
    }
  }

  /** The cup of that number and those animals; a new one where the day has none. */
  take(day: DayId, number: number, animalIds: readonly string[]): RowId {
    const name = nameOf(day, number, animalIds);
    const held = this.byName.get(name);
    if (held) return held.id;
    const cup = { id: this.newId(), day, number, animalIds, isNew: true };
    this.byName.set(name, cup);
    this.list.push(cup);
    return cup.id;
  }

  /** Notes the number of the cup that an animal's row is about. */
  bench(day: DayId, row: RowId, number: string): void {
    if (!/^\d{1,5}$/.test(number)) return;
    const bench = this.benches.get(day) ?? new Map<RowId, number>();
    this.benches.set(day, bench);
    bench.set(row, Number(number));
  }
}

function nameOf(day: DayId, number: number, animalIds: readonly string[]): string {
  return [day, number, ...animalIds].join('\n');
}
