import type { Json, Stamp } from '../shared/cell.ts';
import type { Path } from '../shared/edit.ts';
import type { Notebook } from '../shared/notebook.ts';
import { newest } from '../src/notebook/cell.ts';
import { animalOf, columnOf, dayOf } from '../src/notebook/read.ts';
import { localDate, localTime } from './changed-words.ts';
import { dayWords } from './day-words.ts';
import { say } from '../src/text/say.ts';

/** Where two copies differ, in a person's words: `K-019 · chamber 1 · 3 May 2026`. */
export function placeWords(notebook: Notebook, path: Path): string {
  if (path[0] === 'readings') {
    const [, day, row, column] = path;
    return [rowName(notebook, row), columnLabel(notebook, column), dayName(notebook, day)].join(
      ' · ',
    );
  }
  const [table, id, field] = path;
  switch (table) {
    case 'about':
      return say('the notebook · {fieldWords}', { fieldWords: fieldWords(field) });
    case 'defaults':
      return say('for new days · {fieldWords}', { fieldWords: fieldWords(field) });
    case 'animals':
      return `${rowName(notebook, id)} · ${fieldWords(field)}`;
    case 'groups':
      return say('{rowName} · group from {dayWords}', {
        rowName: rowName(notebook, id),
        dayWords: dayWords({ date: field }),
      });
    case 'days':
      return `${dayName(notebook, id)} · ${fieldWords(field)}`;
    case 'settings':
      return `${newest(notebook.limits[field]?.label) ?? field} · ${dayName(notebook, id)}`;
    case 'decisions':
      return say('{rowName} · decision of {dayName}', {
        rowName: rowName(notebook, field),
        dayName: dayName(notebook, id),
      });
    case 'columns':
      return say('the column {columnLabel} · {fieldWords}', {
        columnLabel: columnLabel(notebook, id),
        fieldWords: fieldWords(field),
      });
    case 'limits':
      return say('the limit {newest} · {fieldWords}', {
        newest: newest(notebook.limits[id]?.label) ?? id,
        fieldWords: fieldWords(field),
      });
    case 'figures':
      return say('the figure {newest} · {fieldWords}', {
        newest: newest(notebook.figures[id]?.label) ?? id,
        fieldWords: fieldWords(field),
      });
    case 'blocks':
      return `${newest(notebook.blocks[id]?.title) ?? id} · ${fieldWords(field)}`;
    case 'products':
      return `${newest(notebook.products[id]?.name) ?? id} · ${fieldWords(field)}`;
    case 'treatments':
      return `${treatmentName(notebook, id)} · ${fieldWords(field)}`;
    case 'cups':
      return `${rowName(notebook, id)} · ${fieldWords(field)}`;
    default:
      return [table, id, fieldWords(field)].join(' · ');
  }
}

/** A removed or revived record, or one that a merge brings: its tag, day, column or cup. */
export function recordName(
  notebook: Notebook,
  table: 'animals' | 'cups' | 'days' | 'columns',
  id: string,
): string {
  if (table === 'days') return dayName(notebook, id);
  return table === 'columns'
    ? say('the column {columnLabel}', { columnLabel: columnLabel(notebook, id) })
    : rowName(notebook, id);
}

/** One of the values of a clash: as typed, or said in words where it is nothing that is typed. */
export function valueWords(value: Json): string {
  if (value === null || value === '') return 'nothing';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value !== 'object') return String(value);
  if (Array.isArray(value)) return listWords(value as readonly Json[]);
  const { text, kind, value: inner, treat, reason } = value as { readonly [key: string]: Json };
  if (kind === 'tick') return inner === true ? 'yes' : 'no';
  if (typeof text === 'string') return text;
  if (typeof treat === 'boolean')
    return `${treat ? 'treat' : say('leave untreated')}${typeof reason === 'string' && reason ? `: ${reason}` : ''}`;
  return Object.values(value).map(valueWords).join(' ');
}

/** When a value was written, by the clock of the device it was written on. */
export function writtenWords([ms]: Stamp, thisYear: string): string {
  const moment = new Date(ms);
  const day = dayWords({ date: localDate(moment) }, 'short', thisYear);
  return say('written {day}, {localTime}', { day, localTime: localTime(moment) });
}

function listWords(list: readonly Json[]): string {
  return list.length === 0 ? 'none' : list.map(itemWords).join(', ');
}

/** A criterion by its reason; anything else as a value. */
function itemWords(item: Json): string {
  if (typeof item !== 'object' || item === null || Array.isArray(item)) return valueWords(item);
  const { reason } = item as { readonly [key: string]: Json };
  return typeof reason === 'string' ? reason : valueWords(item);
}

function dayName(notebook: Notebook, id: string): string {
  if (id === 'default') return say('for new days');
  const day = dayOf(notebook, id);
  return dayWords(day?.date === undefined ? { date: id.slice(0, 10), label: id.slice(11) } : day);
}

function rowName(notebook: Notebook, id: string): string {
  const tag = animalOf(notebook, id)?.tag;
  if (tag !== undefined) return tag;
  const number = newest(notebook.cups[id]?.number);
  return number === undefined ? id : say('cup {number}', { number });
}

function columnLabel(notebook: Notebook, id: string): string {
  const column = columnOf(notebook, id);
  return column?.label ?? column?.key ?? id;
}

function treatmentName(notebook: Notebook, id: string): string {
  const treatment = notebook.treatments[id];
  const animal = newest(treatment?.animal);
  const date = newest(treatment?.date);
  const whom =
    animal === undefined ? '' : say(' of {rowName}', { rowName: rowName(notebook, animal) });
  return `treatment${whom}${date === undefined ? '' : say(' on {dayWords}', { dayWords: dayWords({ date }) })}`;
}

const fieldNames: Readonly<Record<string, string>> = {
  countedBy: say('counted by'),
  lookedFor: say('egg types looked for'),
  removed: 'removed',
  criteria: 'criteria',
  animalIds: say('whose dung is in it'),
  text: 'words',
  leftWhy: say('why it left'),
  electronic: say('electronic number'),
};

/** A field's name as words: `fluidMl` is `fluid ml`. */
function fieldWords(field: string): string {
  return fieldNames[field] ?? field.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}
