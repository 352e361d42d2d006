import { openDialog } from './open-dialog.ts';
import type { OriginTarget } from './origin-of.ts';
import type { SdOrigin } from './sd-origin.ts';

/**
 * Opens "Where does this number come from" over the page, for a cell of the open day or a figure. `from` is
 * any element below the open notebook. The dialog, with all the help cards, is fetched when first asked for.
 */
export function askOrigin(from: HTMLElement, target: OriginTarget): Promise<void> {
  return openDialog<SdOrigin>(
    from,
    'sd-origin',
    () => import('./sd-origin.ts'),
    (dialog) => dialog.show(target),
  );
}
