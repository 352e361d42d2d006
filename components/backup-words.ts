/** From this many counts in no file on, a person is reminded; and again after as many more. */
export const remindFrom = 100;

/** Why to save to a file now: what would be lost with the device. */
export function backupWords(counts: number): string {
  return `${counts.toLocaleString('en')} counts of this notebook are in no file yet: they are on this device alone.`;
}

/** In the list of notebooks: `84 counts in no file`; '' where there is none. */
export function notInFileWords(counts: number | undefined): string {
  if (!counts) return '';
  return counts === 1 ? '1 count in no file' : `${counts.toLocaleString('en')} counts in no file`;
}
