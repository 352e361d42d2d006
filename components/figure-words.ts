import type { FigureAnswer } from '../shared/derived.ts';
import type { Figure } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { figureText } from './figure-text.ts';
import { say } from '../src/text/say.ts';
import { tickWords } from './cell-words.ts';

/** A figure as it is read: the figure itself, and the small words under it. */
export interface FigureWords {
  readonly text: string;
  readonly under: string;
  /** Why there is no figure. */
  readonly fault?: string;
}

/** Nothing counted gives a dash, whatever a formula makes of an empty list. */
const dash: FigureWords = { text: '–', under: '' };

/**
 * Puts an answer into words with its n of N. A share shown as animals names how many; a highest names
 * whose it is.
 */
export function figureWords(
  figure: Figure,
  answer: FigureAnswer,
  whose: readonly string[],
  mark: '.' | ',',
): FigureWords {
  const { value, counted, present } = answer;
  if (counted === 0) return dash;
  if (isFault(value)) return { text: '–', under: say('see below'), fault: value.sentence };
  if (value === null || value === '') return dash;
  if (typeof value === 'boolean') return { text: value ? tickWords.yes : tickWords.no, under: '' };
  if (typeof value === 'string') return { text: value, under: '' };
  const of = counted ?? present;
  if (figure.shownAs === 'animals') return { text: partOf(value, of), under: '' };
  if (figure.shownAs === 'percent') {
    const text = `${figureText(value * 100, figure.decimals ?? 0, mark)} %`;
    return { text, under: partOf(value, of) };
  }
  return { text: figureText(value, figure.decimals, mark), under: whoseWords(whose) };
}

/** A share as animals: `9 of 35`. */
function partOf(share: number, all: number): string {
  return say('{part} of {all}', { part: Math.round(share * all), all });
}

function whoseWords(whose: readonly string[]): string {
  const [first, ...others] = whose;
  if (first === undefined) return '';
  if (others.length === 0) return first;
  return others.length === 1
    ? `${first}, ${others[0]}`
    : say('{tag} and {n} more', { tag: first, n: others.length });
}
