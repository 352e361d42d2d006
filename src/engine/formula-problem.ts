import { fault, type Fault } from '../../shared/value.ts';
import { say } from '../text/say.ts';

/**
 * Carries a fault out of the depth of a formula to the function that was asked to read it, which
 * catches it and answers with the fault. It never leaves this folder.
 */
export class FormulaProblem extends Error {
  readonly fault: Fault;

  constructor(kind: string, sentence: string) {
    super(sentence);
    this.fault = fault(kind, sentence);
  }
}

/** The result of `read`, or the fault with which it stopped. Anything else it throws is a bug. */
export function orFault<T>(read: () => T): T | Fault {
  try {
    return read();
  } catch (problem) {
    if (problem instanceof FormulaProblem) return problem.fault;
    throw problem;
  }
}

/** `at` counts from 0, people from 1. */
export function place(at: number): string {
  return say('(at character {number})', { number: at + 1 });
}

/** Where in a formula of so many characters a sentence says that it is wrong, from 0; `null` where it does not say. */
export function placeIn(sentence: string, length: number): number | null {
  for (let at = 0; at <= length; at += 1) if (sentence.includes(place(at))) return at;
  return null;
}
