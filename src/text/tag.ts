import { type Fault, fault } from '../../shared/value.ts';
import { electronicNumber, largestAnimalCode } from './electronic-number.ts';
import { say } from './say.ts';

/** An animal's tag: what was typed is kept, the key is for matching only. */
export interface Tag {
  /** As typed, untouched. */
  readonly typed: string;
  /** Two tags with equal keys are one animal. */
  readonly key: string;
  /** The 15 digits, where the tag is an electronic number in any of its written forms. */
  readonly electronic: string | null;
  /** Something to look at: a number that is nearly an electronic one. The tag is still taken. */
  readonly doubt?: Fault;
}

/** Characters that take no room on the screen: they would make two animals out of one. */
const unseen = /[\u00ad\u200b-\u200f\u202a-\u202e\u2060\ufeff]/g;

/**
 * Reads a tag. A tag is always text: `0123`, `9E5`, `1.5.2`, `3-4-26` and `TRUE` stay as they are.
 *
 * The key trims and takes runs of spaces as one; all forms of one electronic number have one key.
 * Case and leading zeros stay in the key: `a12` and `A12` are two animals, and {@link likeTag} warns.
 *
 * A fault where nothing was typed, or where a spreadsheet destroyed the number.
 */
export function canonicalTag(typed: string): Tag | Fault {
  const key = plainKey(typed);
  if (key === '')
    return fault('no-tag', say('There is no tag here. Type the tag, or leave out the row.'));
  if (isDestroyedNumber(key)) {
    return fault(
      'destroyed-tag',
      say(
        '"{tag}" is what a spreadsheet makes of a long number: the last digits are gone and cannot be worked out. Fetch the list again from the reader, and set the column to text before saving it.',
        { tag: key },
      ),
    );
  }
  const electronic = electronicNumber(key);
  if (electronic !== null) return { typed, key: electronic, electronic };
  const doubt = nearlyElectronic(key);
  return doubt === null
    ? { typed, key, electronic: null }
    : { typed, key, electronic: null, doubt };
}

/**
 * Whether a spreadsheet replaced a long number by its rounded form (`9.82E+14`, `9,82E+14`), by
 * marks for a column too narrow (`####`), or by an error (`#REF!`). A short tag such as `9E5` is
 * none: a spreadsheet writes a sign after the E, and other programs at least a decimal mark and a
 * power too great for a tag.
 */
export function isDestroyedNumber(typed: string): boolean {
  const text = typed.trim();
  return (
    /^[+-]?\d+(?:[.,]\d+)?E[+-]\d+$/i.test(text) ||
    /^[+-]?\d[.,]\d+E\d{2}$/i.test(text) ||
    /^#{2,}$/.test(text) ||
    /^#(?:REF!|VALUE!|NUM!|NAME\?|N\/A|NULL!|DIV\/0!)$/i.test(text)
  );
}

/**
 * The tag as a person in a hurry reads it: without case, spaces and leading zeros. Tags that share
 * it but not their key are kept apart and shown together as a warning.
 */
export function likeKey(typed: string): string {
  const electronic = electronicNumber(plainKey(typed));
  if (electronic !== null) return `electronic ${electronic}`;
  return plainKey(typed)
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/\s/g, '')
    .replace(/(?<!\d)0+(?=\d)/g, '');
}

/** The warning for two tags that differ only by leading zeros, case or spaces; `null` for others. */
export function likeTag(a: string, b: string): Fault | null {
  const first = plainKey(a);
  const second = plainKey(b);
  if (first === second || likeKey(a) !== likeKey(b)) return null;
  if (electronicNumber(first) !== null) return null;
  return fault(
    'like-tags',
    say(
      '"{first}" and "{second}" differ only by {difference, select, spaces {spaces} case {capital and small letters} zeros {leading zeros} other {zeros, spaces or the way letters are written}}. They are kept as two animals; unite them if they are one.',
      { first, second, difference: difference(first, second) },
    ),
  );
}

function difference(a: string, b: string): 'spaces' | 'case' | 'zeros' | 'other' {
  if (a.replace(/\s/g, '') === b.replace(/\s/g, '')) return 'spaces';
  if (a.toLowerCase() === b.toLowerCase()) return 'case';
  const short = (text: string): string => text.replace(/(?<!\d)0+(?=\d)/g, '');
  if (short(a) === short(b)) return 'zeros';
  return 'other';
}

/** Every group of tags alike but not the same, in the order in which they first appear. */
export function likeTags(typed: Iterable<string>): readonly (readonly string[])[] {
  const groups = new Map<string, Map<string, string>>();
  for (const text of typed) {
    const key = electronicNumber(plainKey(text)) ?? plainKey(text);
    if (key === '') continue;
    const like = likeKey(text);
    const group = groups.get(like) ?? new Map<string, string>();
    if (!group.has(key)) group.set(key, text);
    groups.set(like, group);
  }
  return [...groups.values()].filter((group) => group.size > 1).map((group) => [...group.values()]);
}

function plainKey(typed: string): string {
  return typed.normalize('NFC').replace(unseen, '').trim().replace(/\s+/g, ' ');
}

function nearlyElectronic(key: string): Fault | null {
  const digits = key.replace(/[\s-]/g, '');
  if (!/^0?\d{15}$/.test(digits)) return null;
  if (Number(digits.slice(-12)) > largestAnimalCode) {
    return fault(
      'nearly-electronic',
      say(
        '"{tag}" has the length of an electronic number, but its last 12 digits can be at most {most}. It is kept as typed; check it for a misread digit.',
        { tag: key, most: largestAnimalCode },
      ),
    );
  }
  return fault(
    'nearly-electronic',
    say(
      '"{tag}" has the length of an electronic number, but does not begin with a country or maker. It is kept as typed; check it for a misread digit.',
      { tag: key },
    ),
  );
}
