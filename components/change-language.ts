import { chooseLanguage, type Drawer } from './language.ts';

/**
 * What came of a wish for another language: the page is loaded anew in it; it waits for the next loading,
 * since something is in this page alone; or this browser keeps no choice.
 */
export type LanguageChange = 'loading' | 'waiting' | 'not kept';

/** What changing the language needs. */
export interface LanguageWorld {
  readonly drawer: () => Drawer;
  /** Waits until everything typed is written; false where something is in this page alone. */
  readonly settled: () => Promise<boolean>;
  readonly reload: () => void;
}

/** Keeps the language chosen on this device and loads the page anew in it, but never at the cost of what was typed. */
export async function changeLanguage(
  code: string | null,
  { drawer, settled, reload }: LanguageWorld,
): Promise<LanguageChange> {
  if (!chooseLanguage(drawer, code)) return 'not kept';
  if (!(await settled())) return 'waiting';
  reload();
  return 'loading';
}
