import type { LineKind } from '../src/notebook/line.ts';

/** Where a person was among the cards of a day: in which order, and at whose card. */
export interface CardPlace {
  readonly line: LineKind;
  readonly row: string | null;
}

/** Kept as long as this tab is open, so that a reload goes on at the same animal; not at all where nothing can be kept. */
export function keepPlace(notebook: string, day: string, place: CardPlace): void {
  try {
    sessionStorage.setItem(nameOf(notebook, day), JSON.stringify(place));
  } catch {
    // Nothing can be kept here: the cards then begin with the first one.
  }
}

export function recallPlace(notebook: string, day: string): CardPlace | null {
  try {
    const kept: unknown = JSON.parse(sessionStorage.getItem(nameOf(notebook, day)) ?? 'null');
    if (typeof kept !== 'object' || kept === null) return null;
    const { line, row } = kept as Partial<Record<string, unknown>>;
    return { line: line === 'yard' ? 'yard' : 'bench', row: typeof row === 'string' ? row : null };
  } catch {
    return null;
  }
}

function nameOf(notebook: string, day: string): string {
  return `daybook card ${notebook} ${day}`;
}
