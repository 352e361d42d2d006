import type { Notebook } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { animalsOf } from '../notebook/read.ts';
import { canonicalTag, likeKey } from '../text/tag.ts';
import { wordList } from './word-list.ts';
import { say } from '../text/say.ts';

/** Animals that a person named by their tags. */
export interface AnimalsNamed {
  /** Ids, each once, in the order typed. */
  readonly animals: readonly string[];
  /** What was typed and is no animal's tag or electronic number. */
  readonly unknown: readonly string[];
  /** What to say of `unknown`; empty when every tag was found. */
  readonly sentence: string;
}

/** Reads tags from text, parted by commas, semicolons or line ends; spaces belong to a tag. */
export function animalsNamed(notebook: Notebook, text: string): AnimalsNamed {
  const byKey = new Map<string, string>();
  const like = new Map<string, string>();
  for (const { id, tag, electronic } of animalsOf(notebook)) {
    like.set(likeKey(tag), tag);
    for (const name of [electronic, tag]) {
      const key = name === undefined || name === '' ? null : keyOf(name);
      if (key !== null) byKey.set(key, id);
    }
  }
  const animals = new Set<string>();
  const unknown: string[] = [];
  for (const typed of text.split(/[,;\n]/).map((part) => part.trim())) {
    if (typed === '') continue;
    const id = byKey.get(keyOf(typed) ?? '');
    if (id === undefined) unknown.push(typed);
    else animals.add(id);
  }
  const sentence =
    unknown.length === 0
      ? ''
      : say('{n, plural, one {# tag is} other {# tags are}} not in this notebook: {tags}.', {
          n: unknown.length,
          tags: wordList(unknown.map((typed) => withLike(typed, like.get(likeKey(typed))))),
        });
  return { animals: [...animals], unknown, sentence };
}

function keyOf(typed: string): string | null {
  const tag = canonicalTag(typed);
  return isFault(tag) ? null : tag.key;
}

/** Tags that differ by case, zeros or spaces are two animals; which one is meant only the person knows. */
function withLike(typed: string, tag: string | undefined): string {
  return tag === undefined ? typed : say('{typed} (is {tag} meant?)', { typed, tag });
}
