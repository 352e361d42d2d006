import type { Column } from '../../shared/notebook.ts';
import type { Reading, WeightUnit } from '../../shared/reading.ts';
import { say } from './say.ts';
import { keptWord, saysTooMany, statusLabel, statusOf, yesOrNo } from './typed-words.ts';

/** How this person writes numbers, and the unit a bare weight is in. */
export interface Typing {
  readonly decimalMark: '.' | ',';
  readonly weightUnit: WeightUnit;
}

/** What a word in the place of a count says of the cup (`ns`, `pooled`); `null` for anything else. */
export function statusInCount(text: string): string | null {
  return statusOf(text);
}

/** The largest count one grid can honestly hold; more is a slip of the finger or "too many". */
export const largestCount = 100_000;

/**
 * Reads what was typed into one cell as the column's kind. `null` is a cleared cell. Whatever cannot
 * be read stays as typed, as a fault with a reason; it is never dropped or turned into a number.
 */
export function parseReading(column: Column, typed: string, typing: Typing): Reading | null {
  const text = typed.trim();
  if (text === '') return null;
  switch (column.kind) {
    case 'count':
      return parseCount(text);
    case 'part':
      return parsePart(text, typing);
    case 'number':
      return parsePlain(column, text, typing);
    case 'weight':
      return parseWeight(text, typing);
    case 'score':
      return parseScore(column, text, typing);
    case 'tick':
      return parseTick(text);
    case 'choice':
      return parseChoice(column, text);
    case 'formula':
      return column.typedOver
        ? parsePlain(column, text, typing)
        : wrong(text, say('This column is worked out from the others; it cannot be typed into.'));
    case 'outcome':
      return wrong(text, say('The outcome follows from your criteria; it cannot be typed.'));
    case 'text':
      return { kind: 'text', text: typed };
  }
}

/** A number of eggs: digits, `>n`, `<n`, or "too many". */
export function parseCount(text: string): Reading {
  if (/^\d+$/.test(text)) {
    const value = Number(text);
    return value > largestCount
      ? wrong(
          text,
          say(
            '{text} eggs is more than a grid can hold; type too many, or >n, or check the digits.',
            { text },
          ),
        )
      : { kind: 'number', text, value };
  }
  if (saysTooMany(text)) return { kind: 'too-many', text: keptWord(text, 'too many') };
  const bound = /^([<>])\s*(\d+)$/.exec(text);
  if (bound && Number(bound[2]) <= largestCount) {
    const value = Number(bound[2]);
    if (bound[1] === '>') return { kind: 'over', text, value };
    if (value > 0) return { kind: 'under', text, value };
    return wrong(text, say('Fewer than 0 eggs cannot be; type 0 if you saw none.'));
  }
  return wrong(text, countReason(text));
}

function countReason(text: string): string {
  if (/^-\s*\d/.test(text)) return say('A count cannot be below zero; type the eggs you saw.');
  if (/^\d+[.,]\d+$/.test(text))
    return say(
      'A count is whole eggs; "{text}" has a decimal mark. Type the eggs seen in this chamber.',
      { text },
    );
  if (/^\d+e\d+$/i.test(text))
    return say('Type the count with plain digits, not as "{text}".', { text });
  if (/^\d+\s*\?+$/.test(text))
    return say(
      '"{text}" is in doubt, so it is not counted. Take away the question mark once you are sure.',
      { text },
    );
  if (/^[-–—.x]+$/i.test(text))
    return say(
      '"{text}" is not a count. Leave the cell empty if it was not counted, or set the status.',
      { text },
    );
  return say(
    '"{text}" is not a count. Type digits, >40, <5, or too many; anything else goes in the note.',
    { text },
  );
}

/** The part of a grid counted: `3/6`, `0.5`, `1`; more than nothing, at most the whole grid. */
export function parsePart(text: string, typing: Typing): Reading {
  const lanes = /^(\d+)\s*\/\s*(\d+)$/.exec(text);
  const value = lanes ? Number(lanes[1]) / Number(lanes[2]) : plainNumber(text, typing);
  if (value === null || !Number.isFinite(value))
    return wrong(
      text,
      otherMark(text, typing) ??
        say('"{text}" is not a part of a grid. Type lanes counted over lanes, like 3/6.', { text }),
    );
  if (value <= 0 || value > 1)
    return wrong(
      text,
      say(
        'The part of a grid counted is more than 0 and at most 1, the whole grid. Lanes are typed over lanes, like 3/6.',
      ),
    );
  return { kind: 'number', text, value };
}

function parsePlain(column: Column, text: string, typing: Typing): Reading {
  const value = plainNumber(text, typing);
  if (value === null) return wrong(text, numberReason(text, typing));
  if (column.low !== undefined && value < column.low)
    return wrong(
      text,
      say('{column} is at least {low}.', { column: column.label ?? column.key, low: column.low }),
    );
  if (column.high !== undefined && value > column.high)
    return wrong(
      text,
      say('{column} is at most {high}.', { column: column.label ?? column.key, high: column.high }),
    );
  return { kind: 'number', text, value };
}

/** A weight with a unit of its own (`41.5 kg`, `91 lb`); a bare number is in the notebook's unit. */
export function parseWeight(text: string, typing: Typing): Reading {
  const match = /^(.*?)\s*(kg|kgs|lb|lbs)?$/i.exec(text);
  const value = plainNumber(match?.[1] ?? '', typing);
  if (value === null)
    return wrong(
      text,
      otherMark(text, typing) ??
        say('"{text}" is not a weight. Type a number, with kg or lb behind it if you like.', {
          text,
        }),
    );
  const word = match?.[2]?.toLowerCase();
  const unit: WeightUnit =
    word === undefined ? typing.weightUnit : word.startsWith('lb') ? 'lb' : 'kg';
  const kg = unit === 'lb' ? value * kgPerLb : value;
  if (kg <= 0) return wrong(text, say('A weight is more than 0.'));
  if (kg > 400)
    return wrong(
      text,
      say('{text} is heavier than any sheep or goat; check the digits.', { text }),
    );
  return { kind: 'number', text, value, unit };
}

/** The international pound of 1959, exact by definition. */
export const kgPerLb = 0.45359237;

function parseScore(column: Column, text: string, typing: Typing): Reading {
  const low = column.low ?? 1;
  const high = column.high ?? 5;
  const step = column.step ?? 1;
  const value = plainNumber(text, typing);
  const steps = value === null ? NaN : (value - low) / step;
  const mark = value === null ? otherMark(text, typing) : null;
  const withMark = text.replace(/[.,]/, typing.decimalMark);
  if (mark !== null && parseScore(column, withMark, typing).kind === 'number')
    return wrong(text, mark);
  if (value === null || value < low || value > high || Math.abs(steps - Math.round(steps)) > 1e-9) {
    const where = { column: column.label ?? column.key, low, high, step };
    return wrong(
      text,
      step === 1
        ? say('{column} goes from {low} to {high} in whole points.', where)
        : say('{column} goes from {low} to {high} in steps of {step}.', where),
    );
  }
  return { kind: 'number', text, value };
}

function parseTick(text: string): Reading {
  const answer = yesOrNo(text);
  if (answer !== null)
    return { kind: 'tick', text: keptWord(text, answer), value: answer === 'yes' };
  return wrong(
    text,
    say('"{text}" is neither yes nor no. Type yes if the sign was seen, or leave it empty.', {
      text,
    }),
  );
}

function parseChoice(column: Column, text: string): Reading {
  const words = column.words ?? [];
  const lower = text.toLowerCase();
  const isStatus = column.key === 'status';
  const chosen =
    words.find((word) => word.toLowerCase() === lower) ?? (isStatus ? statusOf(text) : null);
  if (chosen !== null) return { kind: 'text', text: chosen };
  const shown = isStatus ? words.map(statusLabel) : words;
  return wrong(text, say('"{text}" is not one of: {words}.', { text, words: shown.join(', ') }));
}

/** A plain decimal number in this person's way of writing; null when it is anything else. */
function plainNumber(text: string, typing: Typing): number | null {
  const mark = typing.decimalMark === ',' ? ',' : '\\.';
  if (!new RegExp(`^[+-]?(\\d+(${mark}\\d*)?|${mark}\\d+)$`).test(text)) return null;
  const value = Number(text.replace(',', '.'));
  return Number.isFinite(value) ? value : null;
}

function numberReason(text: string, typing: Typing): string {
  return otherMark(text, typing) ?? say('"{text}" is not a number.', { text });
}

/** What to say of a number with the decimal mark that does not hold here; null of anything else. */
function otherMark(text: string, typing: Typing): string | null {
  const other = typing.decimalMark === '.' ? ',' : '.';
  if (new RegExp(`^[+-]?\\d*\\${other}\\d+(?:\\s*(?:kgs?|lbs?))?$`, 'i').test(text))
    return say('"{text}": the decimal mark here is "{mark}". Type {number}.', {
      text,
      mark: typing.decimalMark,
      number: text.replace(other, typing.decimalMark),
    });
  return null;
}

function wrong(text: string, reason: string): Reading {
  return { kind: 'fault', text, reason };
}
