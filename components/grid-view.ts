import type { DayId } from '../shared/ref.ts';
import type { Fold } from './grid-layout.ts';
import { noFilter, plainSort, type Filter, type Sort } from './grid-rows.ts';

/**
 * How a person looks at the counts of one notebook: sorted, filtered, days folded. Outlives the grid, which goes
 * while one animal's card is shown, and the session, which is another one after another tab took over.
 */
export class GridView {
  sort: Sort = plainSort;
  filter: Filter = noFilter;
  readonly folds = new Map<DayId, Fold>();
  private notebook: string | undefined;

  /** Another notebook begins with all animals in their own order, and no day folded by hand. */
  follow(notebook: string): void {
    if (this.notebook === notebook) return;
    this.notebook = notebook;
    this.sort = plainSort;
    this.filter = noFilter;
    this.folds.clear();
  }
}
