import type { Json } from '../../shared/cell.ts';
import { isDate } from '../text/date.ts';
import { say } from '../text/say.ts';

/** What was expected, as a clause ("text was expected"); null where the value is as it should be. */
export type Check = (value: Json) => string | null;

type Thing = { readonly [key: string]: Json };

function isThing(value: Json | undefined): value is Thing {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

export const text: Check = (value) => (typeof value === 'string' ? null : say('text was expected'));

export const flag: Check = (value) =>
  typeof value === 'boolean' ? null : say('true or false was expected');

export const number: Check = (value) =>
  typeof value === 'number' && Number.isFinite(value) ? null : say('a number was expected');

/** Checks that ask for text of some form. */
const forms = new WeakSet<Check>();

function form(check: Check): Check {
  forms.add(check);
  return check;
}

/** The check without what it asks of a text's form: a date is then any text. */
export function kindOnly(check: Check): Check {
  return forms.has(check) ? text : check;
}

export const date: Check = form((value) =>
  typeof value === 'string' && isDate(value)
    ? null
    : say('a day of the calendar, written like 2026-05-03, was expected'),
);

/** A day where it is known, empty text where it is not. */
export const dateIfKnown: Check = form((value) => (value === '' ? null : date(value)));

/** A year, a month or a day: of a bought-in animal no more may be known. */
export const roughDate: Check = form((value) =>
  typeof value === 'string' &&
  (/^((19|20|21)\d\d(-(0[1-9]|1[0-2]))?)?$/.test(value) || isDate(value))
    ? null
    : say('a year, a month or a day, like 2024, 2024-03 or 2024-03-25, was expected'),
);

/** One of a closed list; the record makes the compiler name them all. */
export function oneOf<T extends string>(words: Readonly<Record<T, true>>): Check {
  const list = Object.keys(words);
  return form((value) =>
    typeof value === 'string' && Object.hasOwn(words, value)
      ? null
      : say('one of {list} was expected', { list: list.map((word) => `"${word}"`).join(', ') }),
  );
}

export function listOf(check: Check, what: string): Check {
  return (value) =>
    Array.isArray(value) && value.every((item: Json) => check(item) === null) ? null : what;
}

/** A thing with these parts; those named in `optional` may be absent. Further parts are let pass. */
export function thing(
  what: string,
  parts: Readonly<Record<string, Check>>,
  optional: Readonly<Record<string, Check>> = {},
): Check {
  return (value) => {
    if (!isThing(value)) return what;
    const hasAll = Object.entries(parts).every(([name, check]) => {
      const part = Object.hasOwn(value, name) ? value[name] : undefined;
      return part !== undefined && check(part) === null;
    });
    const isRest = Object.entries(optional).every(([name, check]) => {
      const part = Object.hasOwn(value, name) ? value[name] : undefined;
      return part === undefined || check(part) === null;
    });
    return hasAll && isRest ? null : what;
  };
}

export const anyThing: Check = (value) =>
  isThing(value) ? null : say('a list of named choices was expected');

const withNumber = thing('', { text, value: number }, { unit: oneOf({ kg: true, lb: true }) });
const readingKinds: Readonly<Record<string, Check>> = {
  number: withNumber,
  over: withNumber,
  under: withNumber,
  'too-many': thing('', { text }),
  tick: thing('', { text, value: flag }),
  text: thing('', { text }),
  fault: thing('', { text, reason: text }),
};

/** What a person typed in a cell, see `Reading`. */
export const reading: Check = (value) => {
  const kind = isThing(value) ? value['kind'] : undefined;
  const check =
    typeof kind === 'string' && Object.hasOwn(readingKinds, kind) ? readingKinds[kind] : undefined;
  return check?.(value) === null
    ? null
    : say('something typed, with its kind, its text and, for a number, its value, was expected');
};

export const withdrawal: Check = (value) => {
  const kind = isThing(value) ? value['kind'] : undefined;
  const isRight =
    kind === 'days'
      ? thing('', { days: number })(value) === null
      : kind === 'hours'
        ? thing('', { hours: number })(value) === null
        : kind === 'not permitted' || kind === 'not stated';
  return isRight
    ? null
    : say('a withdrawal (days, hours, not permitted or not stated) was expected');
};
