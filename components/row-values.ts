import type { RowId } from '../shared/ref.ts';
import type { Value } from '../shared/value.ts';
import { columnByKey } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';

/** What the open day holds for a row, by the name of the column; a name that is not known is missing. */
export function valueByKey(session: Session, row: RowId): (key: string) => Value {
  return (key) => {
    const column = columnByKey(session.notebook, key);
    return column ? session.engine.value(row, column.id) : null;
  };
}
