import type { Notebook } from '../../shared/notebook.ts';
import type { Reading } from '../../shared/reading.ts';
import type { DayId, RowId } from '../../shared/ref.ts';
import { isFault } from '../../shared/value.ts';
import { dayOf } from '../notebook/read.ts';
import { dayId, parseDayId } from '../text/day-id.ts';
import { readDate } from '../text/date-reading.ts';
import { ImportAnimals } from './import-animals.ts';
import { ImportCells, type Into } from './import-cells.ts';
import { ImportCups } from './import-cups.ts';
import {
  atLine,
  type ImportOptions,
  type ImportPlan,
  type ImportProblem,
  type PlannedDay,
} from './import-plan.ts';
import { remarkOf } from './import-reading.ts';
import { rolesFor } from './import-roles.ts';
import { type Incoming, ImportReadings } from './import-readings.ts';
import { importTargets } from './import-targets.ts';
import { ImportZeros } from './import-zeros.ts';
import type { OwnFile } from './own-file.ts';
import type { Role, Roles } from './role.ts';
import type { Row, Table } from './table.ts';
import { say } from '../text/say.ts';

/** How far the reading of a large list has come. */
export interface Progress {
  readonly done: number;
  readonly of: number;
}

const slice = 500;

/**
 * Works out what reading a list into a notebook would do, and changes nothing. It pauses after every
 * few hundred rows with how far it has come, so that a page stays alive under a large file.
 */
export function* planImport(
  table: Table,
  notebook: Notebook,
  options: ImportOptions,
): Generator<Progress, ImportPlan> {
  return yield* new Planning(table, notebook, options).run();
}

/** The same in one go. */
export function planNow(table: Table, notebook: Notebook, options: ImportOptions): ImportPlan {
  const work = planImport(table, notebook, options);
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
}

class Planning {
  private readonly roles: Roles;
  private readonly own: OwnFile | null;
  private readonly targets: ReturnType<typeof importTargets>;
  private readonly animals: ImportAnimals;
  private readonly readings: ImportReadings;
  private readonly cups: ImportCups;
  private readonly zeros: ImportZeros;
  private readonly problems: ImportProblem[] = [];
  private readonly days = new Map<DayId, PlannedDay>();
  private readonly lines = new Map<DayId, Map<RowId, number>>();
  private readonly at = new Map<Role['role'], number>();
  private readonly cells: ImportCells;
  private readonly refusedLines = new Set<number>();
  private readonly refusedCells = new Set<string>();
  private readonly headingDays: ReadonlySet<DayId>;
  private taken = 0;
  private waiting = 0;
  private readonly out: number[] = [];
  private needsDay = false;
  private countKept = 0;

  constructor(
    private readonly table: Table,
    private readonly notebook: Notebook,
    private readonly options: ImportOptions,
  ) {
    const { roles, own } = rolesFor(table, notebook, options);
    this.roles = roles;
    this.own = own;
    this.targets = importTargets(roles.columns, notebook, options);
    this.animals = new ImportAnimals(notebook, options.newId);
    this.readings = new ImportReadings(notebook, options.answers ?? new Map());
    this.zeros = new ImportZeros(notebook, this.targets.targets, options.answers ?? new Map());
    this.cups = new ImportCups(notebook, options.newId);
    this.headingDays = new Set(
      this.targets.targets.flatMap((target) =>
        target.to === 'readings' && target.day !== null ? [target.day] : [],
      ),
    );
    this.cells = new ImportCells(notebook, own, roles.decimalMark);
    roles.columns.forEach(({ role }, column) => {
      if (!this.at.has(role.role)) this.at.set(role.role, column);
    });
    for (const fault of [...table.faults, ...roles.faults]) {
      if (fault.refused === 'row') this.refusedLines.add(fault.line);
      if (fault.refused === 'cell') this.refusedCells.add(`${fault.line}:${fault.column ?? ''}`);
      this.problems.push({
        kind: fault.fault,
        what: fault.refused === 'nothing' ? 'look' : 'left out',
        line: fault.line,
        text: fault.text ?? this.cellText(fault.line, fault.column),
        sentence: fault.sentence,
      });
    }
  }

  private cellText(line: number, column: number | undefined): string {
    if (column === undefined) return '';
    this.rowByLine ??= new Map(this.table.rows.map((row) => [row.line, row]));
    return this.rowByLine.get(line)?.cells[column] ?? '';
  }
  private rowByLine: ReadonlyMap<number, Row> | undefined;

  *run(): Generator<Progress, ImportPlan> {
    const { rows } = this.table;
    if (!(['tag', 'electronic', 'cup'] as const).some((name) => this.at.has(name))) {
      this.sayNoTags();
      this.out.push(...rows.map(({ line }) => line));
      return this.finish();
    }
    for (const [i, row] of rows.entries()) {
      if (i % slice === 0 && i > 0) yield { done: i, of: rows.length };
      const became = this.refusedLines.has(row.line) ? 'out' : this.takeRow(row);
      if (became === 'taken') this.taken += 1;
      else if (became === 'waiting') this.waiting += 1;
      else this.out.push(row.line);
    }
    return this.finish();
  }

  private sayNoTags(): void {
    if (this.table.rows.length === 0) return;
    const line = this.table.header?.line ?? this.table.rows[0]?.line ?? 1;
    const sentence = say(
      'No column of this list names the animals. Give the column of the tags the heading tag.',
    );
    this.problems.push({ kind: 'no-tag-column', what: 'left out', line, text: '', sentence });
  }

  private cell(row: Row, name: Role['role']): string {
    const column = this.at.get(name);
    if (column === undefined || this.refusedCells.has(`${row.line}:${column}`)) return '';
    return row.cells[column] ?? '';
  }

  private takeRow(row: Row): 'taken' | 'waiting' | 'out' {
    const day = this.dayOfRow(row);
    if (day === undefined) return 'out';
    const sample = this.own ? (row.cells[this.own.sample] ?? '') : '';
    const cup = this.cell(row, 'cup').trim();
    const tag = this.cell(row, 'tag');
    const isOwnCup =
      sample === '' || sample === 'animal'
        ? tag.trim() === '' && this.cell(row, 'electronic').trim() === ''
        : true;
    if (isOwnCup && day === null && isCupNumber(cup)) {
      this.missDay(row);
      return 'waiting';
    }
    const id = isOwnCup ? this.takeCup(row, day, cup, tag) : this.takeAnimal(row, day, cup);
    if (id === null) return 'out';
    this.noteLine(row, day, id);
    this.takeReadings(row, day, id, isOwnCup ? say('cup {cup}', { cup }) : tag);
    return 'taken';
  }

  /** The day of a row: `null` where the list has none for it, `undefined` where the row cannot be taken. */
  private dayOfRow(row: Row): DayId | null | undefined {
    const column = this.roles.columns[this.at.get('date') ?? -1];
    const text = this.cell(row, 'date');
    if (!column || column.role.role !== 'date' || text.trim() === '') return this.listDay;
    if (column.role.order === null) return null;
    const date = readDate(text, column.role.order);
    if (isFault(date)) return undefined;
    const id = dayId(date.date, this.cell(row, 'label'));
    if (isFault(id)) {
      this.say(row, id.fault, 'left out', text, id.sentence);
      return undefined;
    }
    this.noteDay(id, date.date, this.cell(row, 'label').trim());
    return id;
  }

  /** Notes that a row stands on no day; one that has a date, and whose order is still asked for, needs no other. */
  private missDay(row: Row): void {
    if (this.cell(row, 'date').trim() === '') this.needsDay = true;
  }

  private get listDay(): DayId | null {
    const { day } = this.options;
    if (!day) return null;
    const name = parseDayId(day);
    if (isFault(name)) return null;
    const id = dayId(name.date, name.label);
    return isFault(id) ? null : id;
  }

  private noteDay(id: DayId, date: string, label: string): void {
    if (this.days.has(id)) return;
    const there = dayOf(this.notebook, id);
    const isNew = there?.date === undefined || there.removed === true;
    this.days.set(id, { id, date, label: there?.label ?? label, isNew });
  }

  private takeAnimal(row: Row, day: DayId | null, cup: string): RowId | null {
    const id = this.animals.take({
      line: row.line,
      tag: this.cell(row, 'tag'),
      electronic: this.cell(row, 'electronic'),
      name: this.cell(row, 'name'),
      class: this.cell(row, 'class'),
      species: this.cell(row, 'species'),
      born: this.bornOf(row),
      group: this.cell(row, 'group'),
      date: day?.slice(0, 10) ?? '',
    });
    if (id !== null && cup !== '' && day !== null) this.cups.bench(day, id, cup);
    return id;
  }

  private bornOf(row: Row): string {
    const role = this.roles.columns[this.at.get('born') ?? -1]?.role;
    const text = this.cell(row, 'born');
    if (role?.role !== 'born' || role.order === null || text.trim() === '') return '';
    const read = readDate(text, role.order);
    return isFault(read) ? '' : read.date;
  }

  private takeCup(row: Row, day: DayId | null, cup: string, tags: string): RowId | null {
    if (!isCupNumber(cup) || day === null) {
      this.say(
        row,
        'no-cup-number',
        'left out',
        cup,
        say('this cup has no number. The line is left out.'),
      );
      return null;
    }
    const animalIds = tags
      .split('\n')
      .filter((tag) => tag.trim() !== '')
      .flatMap((tag) => {
        const line = {
          line: row.line,
          tag,
          electronic: '',
          name: '',
          class: '',
          species: '',
          born: '',
          group: '',
        };
        return this.animals.take({ ...line, date: day.slice(0, 10) }) ?? [];
      });
    return this.cups.take(day, Number(cup), animalIds);
  }

  private takeReadings(row: Row, day: DayId | null, id: RowId, tag: string): void {
    const byDay = new Map<DayId, Incoming[]>();
    this.targets.targets.forEach((target, column) => {
      if (target.to !== 'readings') return;
      const text = row.cells[column] ?? '';
      if (text.trim() === '' || this.refusedCells.has(`${row.line}:${column}`)) return;
      const on = target.day ?? day;
      if (on === null) {
        this.missDay(row);
        return;
      }
      if (target.day !== null || !this.days.has(on)) this.noteDayOf(on, column);
      const list = byDay.get(on) ?? [];
      byDay.set(on, list);
      const read = this.cells.read(target, row, column, on);
      for (const [into, value] of read) {
        const isAdded = read.length > 1 && into !== target.column.id;
        list.push({ day: on, column: into, value, isAdded });
        if (into === target.column.id) this.remark(row, target, text, value);
      }
    });
    for (const [on, incoming] of byDay) {
      if (!this.own) incoming.push(...this.zeros.forRow(on, id, incoming));
      const went = this.readings.add(on, id, tag, row.line, incoming);
      if (went === on) continue;
      this.noteDay(went, went.slice(0, 10), went.slice(11).replace(/-/g, ' '));
      this.noteLineOn(went, row, id);
    }
  }

  /** The row stands on its own day, or on every day that a heading names. */
  private noteLine(row: Row, day: DayId | null, id: RowId): void {
    for (const on of this.headingDays.size > 0 ? this.headingDays : [day])
      if (on !== null) this.noteLineOn(on, row, id);
  }

  private noteLineOn(day: DayId, { line }: Row, id: RowId): void {
    const rows = this.lines.get(day) ?? new Map<RowId, number>();
    this.lines.set(day, rows);
    if (!rows.has(id)) rows.set(id, line);
  }

  private noteDayOf(id: DayId, column: number): void {
    const role = this.roles.columns[column]?.role;
    const heading = role && 'day' in role ? role.day : null;
    this.noteDay(id, id.slice(0, 10), heading?.label ?? id.slice(11).replace(/-/g, ' '));
  }

  private remark(row: Row, { column }: Into, text: string, value: Reading): void {
    const remark = remarkOf(value);
    if (remark === null) return;
    this.countKept += 1;
    this.say(row, value.kind, 'kept as typed', text, `${column.label ?? column.key}: ${remark}`);
  }

  private say(
    { line }: Row,
    kind: string,
    what: ImportProblem['what'],
    text: string,
    sentence: string,
  ): void {
    this.problems.push(atLine({ kind, what, line, text, sentence }));
  }

  private finish(): ImportPlan {
    const { listDay } = this;
    const { animals, problems } = this.animals.done(listDay?.slice(0, 10) ?? '');
    const all = [...this.problems, ...problems, ...this.readings.problems];
    const hasReadings = this.targets.targets.some(({ to }) => to === 'readings');
    let count = 0;
    let countAdded = 0;
    for (const rows of this.readings.days.values())
      for (const cells of rows.values())
        for (const { isAdded } of cells.values()) {
          if (isAdded) countAdded += 1;
          else count += 1;
        }
    return {
      columns: this.roles.columns.map((column, i) => {
        const target = this.targets.targets[i];
        return { ...column, leftOut: target?.to === 'nothing' ? target.why : null };
      }),
      questions: [
        ...this.roles.questions,
        ...this.targets.questions,
        ...this.zeros.questions(),
        ...this.readings.questions(),
      ],
      needsDay: this.needsDay && listDay === null,
      problems: all.sort((a, b) => a.line - b.line),
      animals,
      days: (hasReadings ? [...this.days.values()] : []).sort((a, b) =>
        a.id < b.id ? -1 : a.id > b.id ? 1 : 0,
      ),
      cups: this.cups.list,
      readings: this.readings.days,
      lines: this.lines,
      rows: { taken: this.taken, waiting: this.waiting, out: this.out },
      count,
      countAdded,
      countKept: this.countKept,
      countSame: this.readings.countSame,
      bench: this.cups.benches,
      addsReportedColumn: this.targets.addsReportedColumn,
    };
  }
}

function isCupNumber(text: string): boolean {
  return /^\d{1,5}$/.test(text);
}
