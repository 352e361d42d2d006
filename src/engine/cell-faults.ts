import type { DetailedCellError } from 'hyperformula';
import { CellError, ErrorType } from 'hyperformula';
import { fault, type Fault } from '../../shared/value.ts';
import { say } from '../text/say.ts';

/** The message of the error that means "no answer"; `KNOWN` turns it into a truly empty cell. */
const NO_ANSWER = 'no answer';

const kept = new Map<string, CellError>();

/**
 * The same fault is always the same object, so that the engine sees an error that stayed as no change. The
 * kind and the sentence travel together in the message.
 */
function errorOf(type: ErrorType, message: string): CellError {
  const key = `${type}\n${message}`;
  let error = kept.get(key);
  if (!error) {
    if (kept.size > 5000) kept.clear();
    kept.set(key, (error = new CellError(type, message)));
  }
  return error;
}

/** A fault as the engine's own kind of error: it travels through every formula that uses the cell. */
export function toCellError({ fault, sentence }: Fault): CellError {
  return errorOf(ErrorType.VALUE, `${fault}\n${sentence}`);
}

/** "No answer" inside a formula: it travels like an error, and no sum or mean can take it for 0. */
export function noAnswer(): CellError {
  return errorOf(ErrorType.NA, NO_ANSWER);
}

export function isNoAnswer(value: unknown): boolean {
  return value instanceof CellError && value.message === NO_ANSWER;
}

export function isNoAnswerCell(value: DetailedCellError): boolean {
  return value.message === NO_ANSWER;
}

/** The engine's own errors, each with a sentence that says what to do. */
const sentences: Readonly<Record<string, Fault>> = {
  DIV_BY_ZERO: fault(
    'division-by-zero',
    say(
      'This divides by 0. Check the figure below the line, or ask first: IF(x > 0, y / x, MISSING()).',
    ),
  ),
  NUM: fault(
    'no-number',
    say('This cannot be worked out with these numbers. Check that none is out of range.'),
  ),
  NA: fault('not-available', say('There is no answer for these values. Check the conditions.')),
  NAME: fault(
    'unknown-name',
    say('A name in this formula is not known. Open the formula to see which.'),
  ),
  CYCLE: fault(
    'loop',
    say('This formula leads back to itself. Change one of the formulas it names.'),
  ),
  REF: fault(
    'lost-place',
    say('This formula points to something that is gone. Open and correct it.'),
  ),
  SPILL: fault(
    'list-left-over',
    say('This comes out as a list. Put it into a function such as AVERAGE.'),
  ),
  LIC: fault('engine', say('The calculating engine refused to work. Please report this.')),
  ERROR: fault('engine', say('This formula could not be worked out. Open and correct it.')),
  VALUE: fault(
    'wrong-kind',
    say(
      'A value does not fit: text where a number is needed, say, or words looked for and not found.',
    ),
  ),
};

/** An error of a cell as a fault; ours get their own sentence back. */
export function toFault(error: DetailedCellError): Fault {
  const cut = error.message.indexOf('\n');
  if (cut > 0) return fault(error.message.slice(0, cut), error.message.slice(cut + 1));
  return sentences[error.type] ?? (sentences['ERROR'] as Fault);
}
