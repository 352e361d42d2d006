import { notInFileWords } from './backup-words.ts';
import { changedWords } from './changed-words.ts';
import type { ShelfEntry } from './services.ts';

/**
 * What tells one notebook of a list from another of the same name: its place, when it was changed, and
 * what of it is in no file. The demo can be had again at any time, so nothing of it needs a file.
 */
export function entryWords(entry: ShelfEntry, today: string, demoId: string | undefined): string {
  return [
    entry.place,
    changedWords(entry.changedAt, today),
    entry.id === demoId ? '' : notInFileWords(entry.countsNotInFile),
  ]
    .filter(Boolean)
    .join(' · ');
}
