import type { Json, Stamp } from '../shared/cell.ts';
import type { Path } from '../shared/edit.ts';
import type { Notebook } from '../shared/notebook.ts';
import type { Reading } from '../shared/reading.ts';
import { newest } from '../src/notebook/cell.ts';
import { animalOf, columnOf, dayOf } from '../src/notebook/read.ts';
import { animalWord } from './animal-words.ts';
import { typedShown } from './cell-words.ts';
import { localDate, localTime } from './changed-words.ts';
import { dayIdWords, dayWords } from '../src/text/day-words.ts';
import { fieldWords } from './field-words.ts';
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
      return say('the notebook · {field}', { field: fieldWords(field) });
    case 'defaults':
      return say('for new days · {field}', { field: fieldWords(field) });
    case 'animals':
      return `${rowName(notebook, id)} · ${fieldWords(field)}`;
    case 'groups':
      return say('{tag} · group from {day}', {
        tag: rowName(notebook, id),
        day: dayWords({ date: field }),
      });
    case 'days':
      return `${dayName(notebook, id)} · ${fieldWords(field)}`;
    case 'settings':
      return `${newest(notebook.limits[field]?.label) ?? field} · ${dayName(notebook, id)}`;
    case 'decisions':
      return say('{tag} · decision of {day}', {
        tag: rowName(notebook, field),
        day: dayName(notebook, id),
      });
    case 'columns':
      return say('the column {column} · {field}', {
        column: columnLabel(notebook, id),
        field: fieldWords(field),
      });
    case 'limits':
      return say('the limit {limit} · {field}', {
        limit: newest(notebook.limits[id]?.label) ?? id,
        field: fieldWords(field),
      });
    case 'figures':
      return say('the figure {figure} · {field}', {
        figure: newest(notebook.figures[id]?.label) ?? id,
        field: fieldWords(field),
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
    ? say('the column {column}', { column: columnLabel(notebook, id) })
    : rowName(notebook, id);
}

/**
 * One of the values of a clash: as typed, or said in words where it is nothing that is typed. With its
 * place, what is kept by a code word is shown in the language spoken.
 */
export function valueWords(value: Json, notebook?: Notebook, path?: Path): string {
  if (value === null || value === '') return say('nothing');
  if (typeof value === 'boolean') return value ? say('yes') : say('no');
  if (typeof value === 'string') return codeShown(value, path);
  if (typeof value !== 'object') return String(value);
  if (Array.isArray(value)) return listWords(value as readonly Json[]);
  const { text, kind, value: inner, treat, reason, days, hours } = value as Record<string, Json>;
  if (kind === 'tick') return inner === true ? say('yes') : say('no');
  if (typeof text === 'string') return readingShown(value as unknown as Reading, notebook, path);
  if (typeof treat === 'boolean') return decisionWords(treat, reason);
  if (kind === 'days' && typeof days === 'number')
    return say('{days, plural, one {# day} other {# days}}', { days });
  if (kind === 'hours' && typeof hours === 'number')
    return say('{hours, plural, one {# hour} other {# hours}}', { hours });
  if (kind === 'not permitted') return say('not permitted');
  if (kind === 'not stated') return say('not stated');
  return Object.values(value)
    .map((part) => valueWords(part))
    .join(' ');
}

/** Classes, species, stages and words for the herd are kept in English. */
function codeShown(value: string, path: Path | undefined): string {
  const field = path?.at(-1) ?? '';
  return ['class', 'species', 'stage', 'herdWord'].includes(field) ? animalWord(value) : value;
}

function readingShown(reading: Reading, notebook?: Notebook, path?: Path): string {
  const column =
    notebook && path?.[0] === 'readings' ? columnOf(notebook, path[3]) : { key: 'other' };
  return column ? typedShown(column, reading) : reading.text;
}

function decisionWords(treat: boolean, reason: Json | undefined): string {
  const why = typeof reason === 'string' ? reason : '';
  if (treat) return why ? say('treat: {reason}', { reason: why }) : say('treat');
  return why ? say('leave untreated: {reason}', { reason: why }) : say('leave untreated');
}

/** When a value was written, by the clock of the device it was written on. */
export function writtenWords([ms]: Stamp, thisYear: string): string {
  const moment = new Date(ms);
  const day = dayWords({ date: localDate(moment) }, 'short', thisYear);
  return say('written {day}, {time}', { day, time: localTime(moment) });
}

function listWords(list: readonly Json[]): string {
  return list.length === 0 ? say('none') : list.map(itemWords).join(', ');
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
  return day?.date === undefined ? dayIdWords(id) : dayWords(day);
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
  const tag = animal === undefined ? '' : rowName(notebook, animal);
  const day = date === undefined ? '' : dayWords({ date });
  if (tag && day) return say('treatment of {tag} on {day}', { tag, day });
  if (tag) return say('treatment of {tag}', { tag });
  return day ? say('treatment on {day}', { day }) : say('treatment');
}
