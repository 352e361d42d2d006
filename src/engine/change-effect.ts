import type { Change } from '../../shared/edit.ts';
import type { DayId, RowId } from '../../shared/ref.ts';

/** What changes of the notebook mean for what is worked out from it. */
export interface Effect {
  /** Formulas, names or days changed: everything is planned anew. */
  readonly isStructural: boolean;
  /** Limits or the protocol of some day changed. */
  readonly isHead: boolean;
  /** Rows to look at again, on the days given or (null) on every day. */
  readonly rows: ReadonlyMap<RowId, ReadonlySet<DayId> | null>;
  /** Days with other readings. */
  readonly days: ReadonlySet<DayId>;
}

const structuralFields: Readonly<Record<string, readonly string[]>> = {
  columns: ['key', 'kind', 'formula', 'typedOver', 'about', 'otherEggs', 'removed'],
  limits: ['key', 'removed'],
  figures: ['key', 'formula', 'removed'],
  days: ['date', 'label', 'removed', 'criteria'],
  defaults: ['criteria'],
  products: ['afterDays', 'removed'],
};

const headFields = ['grams', 'fluidMl', 'fluidIs', 'areaMl', 'areas'];

/** Sorts changes by what they touch; what no formula can see (labels, notes, blocks) touches nothing. */
export function effectOf(changes: readonly Change[]): Effect {
  const rows = new Map<RowId, Set<DayId> | null>();
  const days = new Set<DayId>();
  let isStructural = false;
  let isHead = false;
  for (const { path } of changes) {
    const [table, id, field = ''] = path;
    if (table === 'readings') {
      const row = path[2];
      days.add(id);
      const known = rows.get(row);
      if (known === undefined) rows.set(row, new Set([id]));
      else known?.add(id);
    } else if (table === 'animals' || table === 'groups') {
      rows.set(id, null);
    } else if (table === 'treatments') {
      // Which animal was treated may be what changed: a look at every row is rare and safe.
      isStructural = true;
    } else if (table === 'settings') {
      isHead = true;
    } else if (structuralFields[table]?.includes(field)) {
      isStructural = true;
    } else if ((table === 'days' || table === 'defaults') && headFields.includes(field)) {
      isHead = true;
    }
  }
  return { isStructural, isHead, rows, days };
}
