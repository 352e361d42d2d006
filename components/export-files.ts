import type { Notebook } from '../shared/notebook.ts';
import { methodRows } from '../src/csv/export-method.ts';
import { tidyText, type OnDay } from '../src/csv/export-tidy.ts';
import { vetRows } from '../src/csv/export-vet.ts';
import { fileName } from '../src/csv/file-name.ts';
import { writeTable, type WriteStyle } from '../src/csv/write-table.ts';
import { createEngine } from '../src/engine/engine.ts';
import { toShown } from '../src/engine/stored-formula.ts';
import { aboutOf } from '../src/notebook/read.ts';
import { showDayId } from '../src/text/day-id.ts';
import { say } from '../src/text/say.ts';

/** What a person may take out of a notebook. */
export interface ExportWish {
  readonly kind: 'vet' | 'tidy';
  readonly days: readonly string[];
  readonly style: WriteStyle;
}

export interface NamedText {
  readonly name: string;
  readonly text: string;
}

/**
 * The files of a wish, with their names: the vet's list with its method beside it, or one tidy file.
 * Worked out by an engine of its own, so that the page's open day stays as it is.
 */
export async function exportFiles(
  notebook: Notebook,
  { kind, days, style }: ExportWish,
  onDay: OnDay,
): Promise<readonly NamedText[]> {
  const engine = createEngine();
  const { place, title } = aboutOf(notebook);
  const name = (what: string): string => fileName(place || title || '', daysName(days), what);
  if (kind === 'tidy')
    return [
      { name: name(say('tidy')), text: await tidyText(notebook, engine, days, { style }, onDay) },
    ];
  const list = await vetRows(notebook, engine, days, style, onDay);
  const method = await methodRows(notebook, engine, days, style, (formula) =>
    toShown(notebook, formula),
  );
  return [
    { name: name(say('for the vet')), text: writeTable(list, { style }) },
    { name: name(say('for the vet, method and cautions')), text: writeTable(method, { style }) },
  ];
}

function daysName(days: readonly string[]): string {
  const [first = ''] = days;
  const last = days.at(-1) ?? '';
  return days.length === 1
    ? showDayId(first)
    : say('{first} to {last}', { first: first.slice(0, 10), last: last.slice(0, 10) });
}
