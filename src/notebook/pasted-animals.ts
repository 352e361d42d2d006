import type { AnimalClass, Notebook, Species } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { canonicalTag, likeTag, likeKey } from '../text/tag.ts';
import { plainWord } from '../text/typed-words.ts';
import { animalsOf } from './read.ts';
import { say } from '../text/say.ts';

/** Where a tag stands already: in the notebook, or on a line of the list, counted from 1. */
type Where = 'notebook' | number;

/** One animal found in a pasted list. */
export interface PastedAnimal {
  /** Line of the list, counted from 1. */
  readonly line: number;
  /** Empty where the line has none. */
  readonly tag: string;
  readonly group: string;
  readonly class: AnimalClass | null;
  /** Whether it would be added; else `remark` says why not. */
  readonly isNew: boolean;
  /** Something to look at before adding; '' where all is well. */
  readonly remark: string;
}

/** Classes by the words of a list: as the language spoken has them, and in English. */
const classWords: ReadonlyMap<string, AnimalClass> = new Map([
  [plainWord(say('ewe')), 'ewe'],
  [plainWord(say('lamb')), 'lamb'],
  [plainWord(say('ram')), 'ram'],
  [plainWord(say('wether')), 'wether'],
  [plainWord(say('doe')), 'doe'],
  [plainWord(say('kid')), 'kid'],
  [plainWord(say('buck')), 'buck'],
  ...(['ewe', 'lamb', 'ram', 'wether', 'doe', 'kid', 'buck'] as const).map(
    (word) => [word, word] as const,
  ),
]);

/** The species that a class belongs to; a wether may be either. */
export function speciesOfClass(kind: AnimalClass): Species | null {
  if (kind === 'ewe' || kind === 'lamb' || kind === 'ram') return 'sheep';
  return kind === 'wether' ? null : 'goat';
}

/**
 * Reads tags pasted from a list, one on each line or parted by commas or semicolons. With tabs between
 * fields the second is the group and the third the class. Nothing is guessed about a tag: it stays text.
 * A heading, a tag that is here already or comes twice, one that a spreadsheet destroyed and a line without
 * a tag are named and not new.
 */
export function readPastedAnimals(notebook: Notebook, text: string): readonly PastedAnimal[] {
  const keys = new Map<string, Where>();
  const likes = new Map<string, string>();
  for (const { tag } of animalsOf(notebook)) note(keys, likes, tag, 'notebook');
  const found: PastedAnimal[] = [];
  for (const [at, line] of text.split(/\r\n|\r|\n/).entries()) {
    if (line.trim() === '') continue;
    for (const fields of fieldsOf(line)) {
      if (fields.every((field) => field === '')) continue;
      const [tag = '', group = '', kind = '', ...more] = fields;
      const isFirst = found.every((animal) => animal.tag === '');
      const { isNew, remark } = verdict(tag, isFirst, keys, likes);
      const remarks = isNew ? [remark, classRemark(kind), columnsRemark(more)] : [remark];
      const said = remarks.filter((words) => words !== '').join(' ');
      found.push({ line: at + 1, tag, group, class: classOf(kind), isNew, remark: said });
      note(keys, likes, tag, at + 1);
    }
  }
  return found;
}

function fieldsOf(line: string): readonly (readonly string[])[] {
  if (line.includes('\t')) return [line.split('\t').map((field) => field.trim())];
  return line.split(/[,;]/).map((tag) => [tag.trim()]);
}

function classRemark(kind: string): string {
  if (kind === '' || classOf(kind) !== null) return '';
  return say('"{word}" is no class and is left out.', { word: kind });
}

function columnsRemark(more: readonly string[]): string {
  const columns = more.filter((field) => field !== '').join(', ');
  return columns === '' ? '' : say('Columns after the third are left out: {columns}.', { columns });
}

function classOf(word: string): AnimalClass | null {
  const plain = plainWord(word);
  const found = [plain, plain.replace(/s$/, ''), plain.replace(/es$/, '')].find((one) =>
    classWords.has(one),
  );
  return (found === undefined ? undefined : classWords.get(found)) ?? null;
}

function note(
  keys: Map<string, Where>,
  likes: Map<string, string>,
  tag: string,
  where: Where,
): void {
  const read = canonicalTag(tag);
  if (isFault(read) || keys.has(read.key)) return;
  keys.set(read.key, where);
  likes.set(likeKey(tag), tag);
}

function verdict(
  tag: string,
  isFirst: boolean,
  keys: ReadonlyMap<string, Where>,
  likes: ReadonlyMap<string, string>,
): Pick<PastedAnimal, 'isNew' | 'remark'> {
  if (tag === '') return { isNew: false, remark: say('There is no tag on this line.') };
  if (isFirst && /^(tags?|ear ?tags?|animals?|id)$/i.test(tag))
    return { isNew: false, remark: say('Taken for the heading of the list and left out.') };
  const read = canonicalTag(tag);
  if (isFault(read)) return { isNew: false, remark: read.sentence };
  const where = keys.get(read.key);
  if (where === 'notebook')
    return { isNew: false, remark: say('Already in the notebook; it is not added again.') };
  if (where !== undefined)
    return {
      isNew: false,
      remark: say('Already on line {line}; it is not added again.', { line: where }),
    };
  const like = likes.get(likeKey(tag));
  const doubt = like === undefined ? null : likeTag(like, tag);
  return { isNew: true, remark: doubt?.sentence ?? read.doubt?.sentence ?? '' };
}
