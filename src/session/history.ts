import type { Transaction } from '../../shared/edit.ts';

/** How many steps can be taken back. */
export const historySteps = 1000;

/** The steps done and undone, newest last. Values: every method gives a new history. */
export interface History {
  readonly done: readonly Transaction[];
  readonly undone: readonly Transaction[];
}

export const emptyHistory: History = { done: [], undone: [] };

/** A new step ends the chance to redo. */
export function withStep(history: History, step: Transaction): History {
  return { done: [...history.done, step].slice(-historySteps), undone: [] };
}

/** The newest step was undone by `inverse`, whose own undoing is the redo. */
export function withUndo(history: History, inverse: Transaction): History {
  return { done: history.done.slice(0, -1), undone: [...history.undone, inverse] };
}

/** The newest undone step was done again by `again`. */
export function withRedo(history: History, again: Transaction): History {
  return {
    done: [...history.done, again].slice(-historySteps),
    undone: history.undone.slice(0, -1),
  };
}
