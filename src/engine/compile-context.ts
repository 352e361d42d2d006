import type { Notebook } from '../../shared/notebook.ts';
import type { DayId } from '../../shared/ref.ts';
import type { Fault } from '../../shared/value.ts';
import type { Compiled } from './compiled.ts';
import type { KindTable } from './kind-table.ts';
import type { Layout } from './layout.ts';
import type { Target } from './names.ts';

/** Where a formula stands, and how the names in it are to be written. */
export interface CompileContext {
  readonly notebook: Notebook;
  readonly kinds: KindTable;
  readonly layout: Layout;
  readonly day: DayId;
  /** `row`: one animal's (column formula, criterion); `figure`: the herd's. */
  readonly place: 'row' | 'figure';
  /** In a figure line of a group, `herd.epg` means the group's. */
  readonly group: string | null;
  /** The sheet whose cells need no sheet name; null for none. */
  readonly home: string | null;
  /** A formula to write in place of a name's own cell, for formulas that stand nowhere; null: its cell. */
  readonly instead?: (target: Target, day: DayId) => Compiled | Fault | null;
}
