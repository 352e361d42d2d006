import type { Column } from '../shared/notebook.ts';
import { parseReading, type Typing } from '../src/text/parse-reading.ts';
import { say } from '../src/text/say.ts';
import { wordShown } from './cell-words.ts';
import { laneWords } from './lane-words.ts';

/** One thing that can be chosen for a cell: the text typed by choosing it, and its words. */
export interface Choice {
  readonly text: string;
  readonly words: string;
}

/** Which choice stands in a cell: by its text or its words, a number by its value; -1 for none of them. */
export function choiceHeld(
  choices: readonly Choice[],
  column: Column,
  text: string,
  typing: Typing,
): number {
  if (text === '') return -1;
  const now = text.toLowerCase();
  const named = choices.findIndex((one) =>
    [one.text, one.words].some((words) => words.toLowerCase() === now),
  );
  const value = numberIn(column, text, typing);
  return named >= 0 || value === null
    ? named
    : choices.findIndex((one) => numberIn(column, one.text, typing) === value);
}

function numberIn(column: Column, text: string, typing: Typing): number | null {
  const reading = parseReading(column, text, typing);
  return reading?.kind === 'number' ? reading.value : null;
}

/**
 * What a choice, tick or score column offers, and a part of a grid by the lanes of its day; none for
 * columns that are only typed into.
 */
export function choicesOf(
  column: Column,
  mark: '.' | ',' = '.',
  lanes: readonly string[] = [],
): readonly Choice[] {
  const clear: Choice = {
    text: '',
    words: column.kind === 'tick' ? say('blank: not seen') : say('blank'),
  };
  if (column.kind === 'choice')
    return [
      ...(column.words ?? []).map((word) => ({
        text: word,
        words: wordShown(column, word),
      })),
      clear,
    ];
  if (column.kind === 'tick')
    return [
      { text: 'yes', words: say('yes: seen') },
      { text: 'no', words: say('no: looked, not seen') },
      clear,
    ];
  if (column.kind === 'part' && lanes.length > 0)
    return [...lanes, ''].map((text) => ({ text, words: laneWords(text) }));
  if (column.kind !== 'score') return [];
  const { low = 1, high = 5, step = 1, words = [] } = column;
  const count = Math.max(0, Math.floor((high - low) / step + 1e-9) + 1);
  const points = Array.from({ length: Math.min(count, 60) }, (_, i) => {
    const text = String(Number((low + i * step).toFixed(6))).replace('.', mark);
    const word = words[i];
    return { text, words: word === undefined ? text : `${text} · ${word}` };
  });
  return [...points, clear];
}
