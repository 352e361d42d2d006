import type { Notebook } from '../shared/notebook.ts';
import { fault, isFault, type Fault } from '../shared/value.ts';
import { aboutOf } from '../src/notebook/read.ts';
import { setsOf } from '../src/notebook/record-sets.ts';
import { applyEdit } from '../src/notebook/apply-edit.ts';
import { Clock } from '../src/session/clock.ts';
import type { Notice, OpenedNotebook, Shelf, ShelfEntry } from './services.ts';
import { say } from '../src/text/say.ts';

interface Held {
  readonly notebook: Notebook;
  readonly changedAt: number;
  readonly isDeleted: boolean;
}

/** What a person has to know of a notebook that is nowhere but in the page. */
const memoryOnly: Notice = {
  kind: 'memory only',
  sentence: say(
    'This notebook is in this page alone and not kept on this device. Save it to a file before you close the page.',
  ),
};

/**
 * A shelf for as long as the page is open: used where the browser offers no store. Its journal takes
 * every edit in and says each time that it is not kept on disk, so that no page says "saved".
 */
export class MemoryShelf implements Shelf {
  private readonly held = new Map<string, Held>();
  private readonly clock: Clock;

  constructor(
    private readonly now: () => number,
    private readonly newId: () => string,
  ) {
    this.clock = new Clock(newId(), now);
  }

  async list(): Promise<readonly ShelfEntry[]> {
    return [...this.held.values()]
      .map(({ notebook, changedAt, isDeleted }) => {
        const { title = '', place = '' } = aboutOf(notebook);
        return { id: notebook.id, title, place, changedAt, isDeleted };
      })
      .sort((a, b) => b.changedAt - a.changedAt);
  }

  async add(notebook: Notebook): Promise<void> {
    this.held.set(notebook.id, { notebook, changedAt: this.now(), isDeleted: false });
  }

  async read(id: string): Promise<Notebook | Fault> {
    return (
      this.held.get(id)?.notebook ??
      fault('no-notebook', say('That notebook is not on this device. Choose one from the list.'))
    );
  }

  async open(id: string): Promise<OpenedNotebook | Fault> {
    const notebook = await this.read(id);
    if (isFault(notebook)) return notebook;
    return {
      notebook,
      writer: this.newId(),
      journal: {
        append: (_transaction, after) => this.hold(after),
        replace: (after) => this.hold(after),
      },
      notices: [memoryOnly],
      savedToFile: async () => undefined,
      close: () => undefined,
    };
  }

  async rename(id: string, title: string): Promise<Fault | null> {
    const notebook = await this.read(id);
    if (isFault(notebook)) return notebook;
    const sets = setsOf('about', 'notebook', { title });
    const edit = { label: say('the title'), source: 'typed', sets } as const;
    await this.add(applyEdit(notebook, edit, this.clock.next()).notebook);
    return null;
  }

  async copy(id: string, title: string): Promise<string | Fault> {
    const notebook = await this.read(id);
    if (isFault(notebook)) return notebook;
    const copy = { ...notebook, id: this.newId() };
    await this.add(copy);
    await this.rename(copy.id, title);
    return copy.id;
  }

  async remove(id: string): Promise<void> {
    this.mark(id, true);
  }

  async restore(id: string): Promise<void> {
    this.mark(id, false);
  }

  async purge(id: string): Promise<void> {
    this.held.delete(id);
  }

  private async hold(notebook: Notebook): Promise<void> {
    await this.add(notebook);
    throw new Error(say('This browser keeps nothing on this device.'));
  }

  private mark(id: string, isDeleted: boolean): void {
    const held = this.held.get(id);
    if (held) this.held.set(id, { ...held, isDeleted });
  }
}
