import { LeftOver } from './left-over.ts';

const leftOvers = new Map<string, LeftOver<string>>();

/**
 * What was typed as the formula of a column of a notebook, in the line above the counts, and not kept. That line
 * goes with the grid, and the session with it where another tab took the writing over, so it is held here for as
 * long as the page is open.
 */
export function formulaLeftOver(notebook: string): LeftOver<string> {
  const known = leftOvers.get(notebook);
  if (known) return known;
  const leftOver = new LeftOver<string>();
  leftOvers.set(notebook, leftOver);
  return leftOver;
}
