import type { Edit, Transaction } from '../shared/edit.ts';
import type { Notebook } from '../shared/notebook.ts';
import type { Merged } from '../src/notebook/merge.ts';
import { Session, type KeepApart, type SessionParts } from '../src/session/session.ts';

/**
 * A session in a tab that only follows what another one writes: it shows every edit as it comes, and
 * refuses its own, saying so each time, since two writers would lose each other's counts.
 */
export class FollowingSession extends Session {
  constructor(
    notebook: Notebook,
    parts: SessionParts,
    private readonly refuse: () => void,
  ) {
    super(notebook, parts);
  }

  override get isWriting(): boolean {
    return false;
  }

  override mayWrite(): boolean {
    this.refuse();
    return false;
  }

  override async dispatch(_edit: Edit): Promise<Transaction | null> {
    this.refuse();
    return null;
  }

  override async undo(): Promise<null> {
    this.refuse();
    return null;
  }

  override async redo(): Promise<null> {
    this.refuse();
    return null;
  }

  override async merge(theirs: Notebook, keepApart?: KeepApart): Promise<Merged> {
    this.refuse();
    return this.lookAtMerge(theirs, keepApart);
  }

  /** Nothing is typed here, so no row is held back or filled up. */
  override async enterRow(): Promise<void> {}
}
