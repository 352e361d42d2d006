import type { Notebook } from '../shared/notebook.ts';
import { fault, type Fault } from '../shared/value.ts';
import { aboutOf } from '../src/notebook/read.ts';
import type { Shelf, ShelfEntry } from './services.ts';

/**
 * A shelf for as long as the page is open: used where the browser offers no store, and in tests.
 * The person is told so, and can save each notebook as a file.
 */
export class MemoryShelf implements Shelf {
  private readonly held = new Map<string, { notebook: Notebook; changedAt: number }>();

  constructor(private readonly now: () => number) {}

  async list(): Promise<readonly ShelfEntry[]> {
    return [...this.held.values()]
      .map(({ notebook, changedAt }) => {
        const about = aboutOf(notebook);
        const { title = '', place = '' } = about;
        return { id: notebook.id, title, place, changedAt };
      })
      .sort((a, b) => b.changedAt - a.changedAt);
  }

  async add(notebook: Notebook): Promise<void> {
    this.held.set(notebook.id, { notebook, changedAt: this.now() });
  }

  async load(id: string): Promise<Notebook | Fault> {
    return (
      this.held.get(id)?.notebook ??
      fault('no-notebook', 'That notebook is not on this device. Choose one from the list.')
    );
  }

  async remove(id: string): Promise<void> {
    this.held.delete(id);
  }
}
