import { say } from '../src/text/say.ts';

/** From this many counts in no file on, a person is reminded; and again after as many more. */
export const remindFrom = 100;

/** Why to save to a file now: what would be lost with the device. */
export function backupWords(counts: number): string {
  return say(
    '{n, plural, one {# count of this notebook is in no file yet: it is on this device alone.} other {# counts of this notebook are in no file yet: they are on this device alone.}}',
    { n: counts },
  );
}

/** In the list of notebooks: `84 counts in no file`; '' where there is none. */
export function notInFileWords(counts: number | undefined): string {
  if (!counts) return '';
  return say('{n, plural, one {# count in no file} other {# counts in no file}}', { n: counts });
}
