import type { Session } from '../src/session/session.ts';
import { LeftOver } from './left-over.ts';

const leftOvers = new WeakMap<Session, LeftOver<string>>();

/**
 * What was typed as the formula of a column, in the line above the counts, and not kept. That line goes
 * with the grid, so it is held here for as long as the notebook is open.
 */
export function formulaLeftOver(session: Session): LeftOver<string> {
  const known = leftOvers.get(session);
  if (known) return known;
  const leftOver = new LeftOver<string>();
  leftOvers.set(session, leftOver);
  return leftOver;
}
