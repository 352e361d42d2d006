import type { AnimalClass, Notebook, Species } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { canonicalTag, likeTag, likeKey } from '../text/tag.ts';
import { animalsOf } from './read.ts';
import { say } from '../text/say.ts';

/** One animal found in a pasted list. */
export interface PastedAnimal {
  /** Line of the list, counted from 1. */
  readonly line: number;
  readonly tag: string;
  readonly group: string;
  readonly class: AnimalClass | null;
  /** Whether it would be added; else `remark` says why not. */
  readonly isNew: boolean;
  /** Something to look at before adding; '' where all is well. */
  readonly remark: string;
}

const classWords: Readonly<Record<string, AnimalClass>> = {
  ewe: 'ewe',
  lamb: 'lamb',
  ram: 'ram',
  wether: 'wether',
  doe: 'doe',
  kid: 'kid',
  buck: 'buck',
};

/** The species that a class belongs to; a wether may be either. */
export function speciesOfClass(kind: AnimalClass): Species | null {
  if (kind === 'ewe' || kind === 'lamb' || kind === 'ram') return 'sheep';
  return kind === 'wether' ? null : 'goat';
}

/**
 * Reads tags pasted from a list, one on each line or parted by commas or semicolons. With tabs between
 * fields the second is the group and the third the class. Nothing is guessed about a tag: it stays text.
 * A heading, a tag that is here already or comes twice, and one that a spreadsheet destroyed are named
 * and not new.
 */
export function readPastedAnimals(notebook: Notebook, text: string): readonly PastedAnimal[] {
  const keys = new Map<string, string>();
  const likes = new Map<string, string>();
  for (const { tag } of animalsOf(notebook)) note(keys, likes, tag, say('in the notebook'));
  const found: PastedAnimal[] = [];
  for (const [at, line] of text.split(/\r\n|\r|\n/).entries()) {
    if (line.trim() === '') continue;
    for (const fields of fieldsOf(line)) {
      const [tag = '', group = '', kind = ''] = fields.map((field) => field.trim());
      if (tag === '') continue;
      const told = { line: at + 1, tag, group, class: classOf(kind) };
      found.push({ ...told, ...verdict(tag, found.length === 0, keys, likes) });
      const unread = kind !== '' && told.class === null;
      const last = found[found.length - 1];
      if (unread && last?.isNew)
        found[found.length - 1] = {
          ...last,
          remark: say('"{kind}" is no class and is left out.', { kind }),
        };
      note(keys, likes, tag, say('on line {line}', { line: at + 1 }));
    }
  }
  return found;
}

function fieldsOf(line: string): readonly (readonly string[])[] {
  if (line.includes('\t')) return [line.split('\t')];
  return line.split(/[,;]/).map((tag) => [tag]);
}

function classOf(word: string): AnimalClass | null {
  const plain = word.toLowerCase();
  return classWords[plain] ?? classWords[plain.replace(/s$/, '')] ?? null;
}

function note(
  keys: Map<string, string>,
  likes: Map<string, string>,
  tag: string,
  where: string,
): void {
  const read = canonicalTag(tag);
  if (isFault(read) || keys.has(read.key)) return;
  keys.set(read.key, where);
  likes.set(likeKey(tag), tag);
}

function verdict(
  tag: string,
  isFirst: boolean,
  keys: ReadonlyMap<string, string>,
  likes: ReadonlyMap<string, string>,
): Pick<PastedAnimal, 'isNew' | 'remark'> {
  if (isFirst && /^(tags?|ear ?tags?|animals?|id)$/i.test(tag))
    return { isNew: false, remark: say('Taken for the heading of the list and left out.') };
  const read = canonicalTag(tag);
  if (isFault(read)) return { isNew: false, remark: read.sentence };
  const where = keys.get(read.key);
  if (where !== undefined)
    return { isNew: false, remark: say('Already {where}; it is not added again.', { where }) };
  const like = likes.get(likeKey(tag));
  const doubt = like === undefined ? null : likeTag(like, tag);
  return { isNew: true, remark: doubt?.sentence ?? read.doubt?.sentence ?? '' };
}
