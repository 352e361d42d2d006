import type { ReactiveElement } from 'lit';
import type { Notebook } from '../shared/notebook.ts';
import type { ImportPlan } from '../src/csv/import-plan.ts';
import { isNotebookHeading } from '../src/csv/import-roles.ts';
import { planImport, type Progress } from '../src/csv/plan-import.ts';
import { readTable, type ReadOptions } from '../src/csv/read-table.ts';
import type { Question, Role } from '../src/csv/role.ts';
import type { Table } from '../src/csv/table.ts';
import { breathe } from './breather.ts';

/** What a list comes from: a file's bytes, or a text that was pasted. */
export interface ListSource {
  readonly name: string;
  readonly input: Uint8Array | string;
}

/** Milliseconds of work between two chances for the page to paint. */
const sliceMs = 12;

/**
 * A list on its way into a notebook: read, looked at, and looked at anew after each answer, in slices so
 * that the page stays alive under a large file. It changes nothing itself.
 */
export class ImportWork {
  source: ListSource | null = null;
  table: Table | null = null;
  plan: ImportPlan | null = null;
  /** How far the look at a long list has come; null while none is under way. */
  progress: Progress | null = null;
  /** Every question this list has asked, so that an answer can be changed. */
  asked: readonly Question[] = [];
  /** The list holds readings that name no day. */
  asksDay = false;
  answers: ReadonlyMap<string, string> = new Map();
  chosen: ReadonlyMap<number, Role> = new Map();
  day: string | null = null;
  private readOptions: Pick<ReadOptions, 'separator' | 'headerLine'> = {};
  private turn = 0;

  constructor(
    private readonly host: ReactiveElement,
    private readonly notebook: () => Notebook | undefined,
    private readonly newId: () => string,
  ) {}

  get headerLine(): number | 'none' {
    return this.table?.header?.line ?? 'none';
  }

  async take(source: ListSource | null): Promise<void> {
    this.source = source;
    this.readOptions = {};
    await this.readAgain();
  }

  async readAs(options: Pick<ReadOptions, 'separator' | 'headerLine'>): Promise<void> {
    this.readOptions = { ...this.readOptions, ...options };
    await this.readAgain();
  }

  async answer(id: string, value: string): Promise<void> {
    this.answers = new Map([...this.answers, [id, value]]);
    await this.look();
  }

  async choose(column: number, role: Role): Promise<void> {
    this.chosen = new Map([...this.chosen, [column, role]]);
    // The column's own questions are about what it was taken for before.
    this.answers = new Map(
      [...this.answers].filter(([id]) => !id.endsWith(`:${column}`) && id !== 'twice'),
    );
    this.asked = [];
    await this.look();
  }

  async onDay(day: string | null): Promise<void> {
    this.day = day;
    await this.look();
  }

  private async readAgain(): Promise<void> {
    this.turn += 1;
    this.table = null;
    this.plan = null;
    this.asked = [];
    this.asksDay = false;
    this.answers = new Map();
    this.chosen = new Map();
    this.day = null;
    this.progress = this.source ? { done: 0, of: 0 } : null;
    this.host.requestUpdate();
    const { source } = this;
    const notebook = this.notebook();
    if (!source || !notebook) return;
    await breathe();
    this.table = readTable(source.input, {
      ...this.readOptions,
      isHeading: isNotebookHeading(notebook),
    });
    await this.look();
  }

  /** Plans anew; an older look still under way gives up. */
  private async look(): Promise<void> {
    const turn = (this.turn += 1);
    const notebook = this.notebook();
    if (!this.table || !notebook) return;
    const work = planImport(this.table, notebook, {
      answers: this.answers,
      chosen: this.chosen,
      day: this.day,
      newId: this.newId,
    });
    let since = performance.now();
    for (;;) {
      const step = work.next();
      if (step.done) {
        this.finish(step.value);
        return;
      }
      if (performance.now() - since < sliceMs) continue;
      this.progress = step.value;
      this.host.requestUpdate();
      await breathe();
      if (turn !== this.turn) return;
      since = performance.now();
    }
  }

  private finish(plan: ImportPlan): void {
    const news = plan.questions.filter(({ id }) => !this.asked.some((known) => known.id === id));
    this.asked = [...this.asked, ...news];
    this.asksDay ||= plan.needsDay;
    this.plan = plan;
    this.progress = null;
    this.host.requestUpdate();
  }
}
