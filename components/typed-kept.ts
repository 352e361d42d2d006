import type { Place } from './grid-place.ts';

/** What stood in a field when the page was left, and what the notebook held there then. */
export interface TypedHere extends Place {
  readonly text: string;
  readonly before: string;
}

/**
 * Holds what is being typed where a page that goes can still put it, at once: a reload, the browser's Back or a
 * phone may leave no time for the notebook's own store. Nothing is held where the browser keeps nothing.
 */
export function holdTyped(notebook: string, typed: readonly TypedHere[]): void {
  try {
    if (typed.length === 0) sessionStorage.removeItem(nameOf(notebook));
    else sessionStorage.setItem(nameOf(notebook), JSON.stringify(typed));
  } catch {
    // Nothing can be held here.
  }
}

/** What {@link holdTyped} holds, once: it is then held no longer. */
export function takeTyped(notebook: string): readonly TypedHere[] {
  try {
    const held: unknown = JSON.parse(sessionStorage.getItem(nameOf(notebook)) ?? '[]');
    sessionStorage.removeItem(nameOf(notebook));
    return Array.isArray(held) ? held.filter(isTypedHere) : [];
  } catch {
    return [];
  }
}

function isTypedHere(one: unknown): one is TypedHere {
  if (typeof one !== 'object' || one === null) return false;
  const facts = one as Partial<Record<string, unknown>>;
  return ['day', 'row', 'column', 'text', 'before'].every((key) => typeof facts[key] === 'string');
}

function nameOf(notebook: string): string {
  return `daybook typed ${notebook}`;
}
