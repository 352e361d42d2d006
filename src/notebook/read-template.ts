import type { Template } from '../../shared/template.ts';
import { fault, type Fault } from '../../shared/value.ts';
import { reservedNames } from './key-name.ts';
import { say } from '../text/say.ts';

type Checked = { readonly [field: string]: unknown };

const columnKinds = new Set([
  ...['count', 'part', 'number', 'weight', 'score', 'tick', 'text', 'choice', 'formula', 'outcome'],
]);

const protocolFields = ['grams', 'fluidMl', 'areaMl', 'areas', 'lanes', 'gravity'] as const;

/**
 * Reads a template from a file's text. A file that is none, or has something wrong in it, gives a
 * sentence that names the place; formulas are checked later, when a notebook is started from it.
 */
export function readTemplateText(text: string): Template | Fault {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return wrong(
      say('This file is not a template: it is not JSON. Choose a file saved as a template.'),
    );
  }
  return readTemplate(json);
}

export function readTemplate(json: unknown): Template | Fault {
  if (!isRecord(json) || json['format'] !== 'sampling-daybook-template')
    return wrong(
      say('This file is not a template of this notebook. Choose a file saved as a template.'),
    );
  if (json['version'] !== 1)
    return wrong(
      say(
        'This template was made by a newer version. Update this page, or save the template anew there.',
      ),
    );
  for (const field of ['id', 'name', 'purpose', 'nextSample'])
    if (typeof json[field] !== 'string')
      return wrong(say('The template’s {place} is not text.', { place: field }));
  if (!isListOf(json['checkList'], (line) => typeof line === 'string'))
    return wrong(say('The template’s check list is not a list of lines.'));
  return (
    protocolFault(json['protocol']) ??
    listFault(json, 'columns', ['key', 'label'], (column, place) =>
      columnKinds.has(String(column['kind']))
        ? null
        : say('The template’s {place} has the unknown kind "{kind}".', {
            place,
            kind: String(column['kind']),
          }),
    ) ??
    listFault(json, 'limits', ['key', 'label'], (limit, place) =>
      typeof limit['value'] === 'number' && Number.isFinite(limit['value'])
        ? null
        : say('The template’s {place} has no number as its value.', { place }),
    ) ??
    listFault(json, 'figures', ['key', 'label', 'formula'], () => null) ??
    listFault(json, 'criteria', ['reason', 'condition'], (criterion, place) =>
      typeof criterion['danger'] === 'number'
        ? null
        : say('The template’s {place} has no number for its danger.', { place }),
    ) ??
    listFault(json, 'blocks', ['kind', 'title'], () => null) ??
    namesFault(json) ??
    (json as unknown as Template)
  );
}

function protocolFault(protocol: unknown): Fault | null {
  if (!isRecord(protocol)) return wrong(say('The template has no protocol.'));
  for (const field of protocolFields) {
    const value = protocol[field];
    if (typeof value !== 'number' || !Number.isFinite(value) || value <= 0)
      return wrong(
        say('The template’s {place} is not a number above 0.', { place: `protocol › ${field}` }),
      );
  }
  return null;
}

function listFault(
  template: Checked,
  list: string,
  texts: readonly string[],
  more: (item: Checked, place: string) => string | null,
): Fault | null {
  const items = template[list];
  if (!Array.isArray(items)) return wrong(say('The template’s {list} are not a list.', { list }));
  for (const [i, item] of (items as readonly unknown[]).entries()) {
    const place = `${list} › ${i + 1}`;
    if (!isRecord(item)) return wrong(say('The template’s {place} is not a record.', { place }));
    for (const field of texts)
      if (typeof item[field] !== 'string')
        return wrong(say('The template’s {place} is not text.', { place: `${place} › ${field}` }));
    const reason = more(item, place);
    if (reason !== null) return wrong(reason);
  }
  return null;
}

function namesFault(template: Checked): Fault | null {
  const names = new Set<string>();
  for (const list of ['columns', 'limits', 'figures'])
    for (const { key } of template[list] as readonly { readonly key: string }[]) {
      if (!/^[a-z][a-z0-9_]{0,39}$/.test(key) || reservedNames.has(key))
        return wrong(
          say('The template’s {list}: "{key}" cannot be a name in formulas.', { list, key }),
        );
      if (names.has(key)) return wrong(say('The template uses the name "{key}" twice.', { key }));
      names.add(key);
    }
  return null;
}

function isRecord(value: unknown): value is Checked {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isListOf(value: unknown, isItem: (item: unknown) => boolean): boolean {
  return Array.isArray(value) && value.every(isItem);
}

function wrong(sentence: string): Fault {
  return fault('bad-template', sentence);
}
