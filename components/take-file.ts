import { isFault } from '../shared/value.ts';
import { openDialog } from './open-dialog.ts';
import { tell } from './page-message.ts';
import type { SdImportDialog } from './sd-import-dialog.ts';
import type { SdMergeDialog } from './sd-merge-dialog.ts';
import type { SdNextSeason } from './sd-next-season.ts';
import type { Services } from './services.ts';
import { say } from '../src/text/say.ts';

/** Whether a file is a list of animals or counts, not a notebook or template: those are JSON. */
export async function isList(file: File): Promise<boolean> {
  if (/\.json$/i.test(file.name)) return false;
  if (/\.(csv|tsv|tab)$/i.test(file.name)) return true;
  const start = await file.slice(0, 200).text();
  return !start
    .replace(/^\ufeff/, '')
    .trimStart()
    .startsWith('{');
}

/**
 * A file dropped on an open notebook: a list is looked at for import, a notebook as a second copy, a
 * template as the layout of the next season. Anything else gets its sentence at the foot of the page.
 */
export async function takeFile(page: HTMLElement, services: Services, file: File): Promise<void> {
  if (await isList(file)) {
    const input = new Uint8Array(await file.arrayBuffer());
    await openDialog<SdImportDialog>(
      page,
      'sd-import-dialog',
      () => import('./sd-import-dialog.ts'),
      (dialog) => void dialog.take({ name: file.name, input }),
    );
    return;
  }
  const read = services.readFile(await file.text());
  if (isFault(read)) {
    tell(page, say('{name}: {sentence}', { name: file.name, sentence: read.sentence }));
  } else if (read.kind === 'notebook') {
    await openDialog<SdMergeDialog>(
      page,
      'sd-merge-dialog',
      () => import('./sd-merge-dialog.ts'),
      (dialog) => dialog.take(file.name, read.notebook),
    );
  } else {
    await openDialog<SdNextSeason>(
      page,
      'sd-next-season',
      () => import('./sd-next-season.ts'),
      (dialog) => void dialog.take(file.name, read.template),
    );
  }
}
