import { aboutOf } from '../notebook/read.ts';
import type { Notebook } from '../../shared/notebook.ts';
import type { ImportOptions, ImportPlan, ImportProblem } from '../csv/import-plan.ts';
import { importTargets } from '../csv/import-targets.ts';
import { tidyHeadings } from '../csv/own-file.ts';
import { rolesFor } from '../csv/import-roles.ts';
import { planNow } from '../csv/plan-import.ts';
import type { Question, Role } from '../csv/role.ts';
import type { Row, Table } from '../csv/table.ts';

/** The animals of one place, as the list has them, with the lines that they stand on. */
export interface PlaceList {
  readonly title: string;
  readonly place: string;
  readonly plan: ImportPlan;
}

/** A list taken apart by place, ready to be worked out; or all that stands against it, in sentences. */
export interface RecalcList {
  readonly places: readonly PlaceList[];
  readonly refused: readonly string[];
  readonly remarks: readonly string[];
  /** Columns that the template does not know: carried over as they are. */
  readonly carried: readonly { readonly column: number; readonly heading: string }[];
}

/** Whatever stands in these lines is all of it left out without loss. */
const harmless = new Set(['repeated-header', 'other-fact', 'same-animal-twice']);

/**
 * Plans the import of a list into new notebooks, one for each place that it names, so that the tags of
 * one farm are never taken for another's. Roles and questions are settled once, over the whole list.
 */
export function recalcList(
  table: Table,
  empty: Notebook,
  asked: {
    readonly answers: ReadonlyMap<string, string>;
    readonly day: string | null;
    readonly place: string;
    readonly file: string;
  },
): RecalcList {
  const remarks: string[] = [];
  const answers = new Map(asked.answers);
  const first = rolesFor(table, empty, { answers });
  for (const question of first.roles.questions) {
    if (question.kind !== 'weight-unit') continue;
    const unit = aboutOf(empty).weightUnit ?? 'kg';
    answers.set(question.id, unit);
    remarks.push(
      `${question.sentence} Taken as ${unit}; if not, add --answer ${question.id}=${unit === 'kg' ? 'lb' : 'kg'}.`,
    );
  }
  const { roles } = rolesFor(table, empty, { answers });
  const settled = { answers, newId: () => '' } satisfies ImportOptions;
  const { questions } = importTargets(roles.columns, empty, settled);
  const open = [...roles.questions, ...questions];
  const refused = open.filter(({ usual }) => usual === undefined).map(askedSentence);
  for (const { usual, ...question } of open)
    if (usual !== undefined) remarks.push(usualSentence(question, usual));
  if (table.rows.length === 0 && table.faults.every(({ refused: what }) => what === 'nothing'))
    refused.push(`There is no animal in ${asked.file}.`);

  const chosen = new Map<number, Role>(roles.columns.map(({ column, role }) => [column, role]));
  const problems: ImportProblem[] = [];
  const places = splitByPlace(table, asked.place).map(({ title, place, rows }) => {
    let ids = 0;
    const plan = planNow({ ...table, rows, faults: [] }, empty, {
      answers,
      chosen,
      day: asked.day,
      newId: () => `r${(ids += 1)}`,
    });
    problems.push(...plan.problems);
    return { title, place, plan };
  });
  for (const { plan } of places)
    for (const { usual, ...question } of plan.questions)
      if (question.kind === 'blank-egg-types' && usual !== undefined)
        remarks.push(usualSentence(question, usual));
  refused.push(...openSentences(places, refused.length > 0, asked.file));
  for (const { fault: kind, refused: what, sentence } of table.faults)
    (what === 'nothing' || harmless.has(kind) ? remarks : refused).push(sentence);
  for (const { what, kind, sentence } of problems)
    (what === 'left out' && !harmless.has(kind) ? refused : remarks).push(sentence);
  const carried = carriedColumns(places[0]?.plan, empty);
  for (const { column, heading } of carried)
    remarks.push(
      `Column ${column + 1}${heading === '' ? '' : ` (${heading})`} is not one of this template: it is carried over as it is.`,
    );
  return { places, refused: unique(refused), remarks: unique(remarks), carried };
}

/** What only the rows themselves leave open: days, animals twice. */
function openSentences(
  places: readonly PlaceList[],
  isAskedAlready: boolean,
  file: string,
): readonly string[] {
  const sentences: string[] = [];
  for (const { plan } of places)
    for (const question of plan.questions)
      if (question.kind === 'same-animal-twice') sentences.push(askedSentence(question));
  if (places.some(({ plan }) => plan.needsDay))
    sentences.push(
      `The list has no date for its readings. Say which sampling day they are of: --day 2026-05-03.`,
    );
  const hasReadings = places.some(({ plan }) => plan.lines.size > 0 || plan.needsDay);
  const hasColumns = places.some(({ plan }) =>
    plan.columns.some(({ leftOut, role }) => leftOut === null && isAboutReadings(role)),
  );
  if (places.length > 0 && !hasColumns && !isAskedAlready)
    sentences.push(
      `${file} has no column of counts or other readings. Give it tag, date and column keys such as chamber1, chamber2.`,
    );
  else if (!hasReadings && hasColumns && places.some(({ plan }) => plan.animals.length > 0))
    sentences.push(
      'The list has no date for its readings. Say which sampling day they are of: --day 2026-05-03.',
    );
  return sentences;
}

function isAboutReadings(role: Role): boolean {
  return ['column', 'count', 'epg', 'weight', 'note'].includes(role.role);
}

function askedSentence({ id, sentence, choices }: Question): string {
  const ways = choices.map(({ value, label }) => `--answer ${id}=${value} (${label})`);
  return `${sentence} Say it with ${ways.join(' or ')}.`;
}

function usualSentence({ id, sentence, choices }: Question, usual: string): string {
  const taken = choices.find(({ value }) => value === usual)?.label ?? usual;
  const others = choices
    .filter(({ value }) => value !== usual)
    .map(({ value, label }) => `--answer ${id}=${value} (${label})`);
  return `${sentence} Taken as ${taken}; if not, add ${others.join(' or ')}.`;
}

/** The rows of each place and notebook that the list names in columns of that name, in order. */
function splitByPlace(
  table: Table,
  usual: string,
): readonly { readonly title: string; readonly place: string; readonly rows: readonly Row[] }[] {
  const columnOf = (name: string): number =>
    table.headers.findIndex((heading) => heading.trim().toLowerCase() === name);
  const placeAt = columnOf('place');
  const titleAt = columnOf('notebook');
  if (placeAt === -1 && titleAt === -1) return [{ title: '', place: usual, rows: table.rows }];
  const groups = new Map<string, { title: string; place: string; rows: Row[] }>();
  for (const row of table.rows) {
    const title = (row.cells[titleAt] ?? '').trim();
    const place = (row.cells[placeAt] ?? '').trim() || usual;
    const name = `${title}\n${place}`;
    const group = groups.get(name) ?? { title, place, rows: [] };
    groups.set(name, group);
    group.rows.push(row);
  }
  return [...groups.values()];
}

function carriedColumns(plan: ImportPlan | undefined, empty: Notebook): RecalcList['carried'] {
  const taken = new Set(tidyHeadings(empty));
  return (plan?.columns ?? []).flatMap(({ column, header, leftOut, role }) => {
    const heading = header.trim();
    const isOurs = taken.has(heading.toLowerCase());
    const isEmpty = role.role === 'ignored' && role.why === 'the column is empty' && heading === '';
    return leftOut === null || isOurs || isEmpty ? [] : [{ column, heading }];
  });
}

function unique(sentences: readonly string[]): readonly string[] {
  return [...new Set(sentences)];
}
