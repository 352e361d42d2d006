import type { Session } from '../src/session/session.ts';
import { openDialog } from './open-dialog.ts';
import type { Services } from './services.ts';
import { say } from '../src/text/say.ts';

/** A button of the page's header. `page` is the element that holds dialogs: see `openDialog`. */
export interface PageAction {
  readonly label: string;
  readonly run: (session: Session, page: HTMLElement, services: Services) => void | Promise<void>;
  /** In the header itself, or under "More". On a narrow screen all stand under "More". */
  readonly place: 'header' | 'more';
  /** Whether this device can do it at all; always, unless given. */
  readonly isOffered?: (services: Services) => boolean;
}

/** The header's buttons, in order. A new one is one line here. */
export const pageActions: readonly PageAction[] = [
  {
    label: say('Animals'),
    run: (_session, page) =>
      openDialog(page, 'sd-animals-dialog', () => import('./sd-animals-dialog.ts')),
    place: 'header',
  },
  {
    label: say('Settings'),
    run: (_session, page) =>
      openDialog(page, 'sd-settings-dialog', () => import('./sd-settings-dialog.ts')),
    place: 'header',
  },
  {
    label: say('Import'),
    run: (_session, page) =>
      openDialog(page, 'sd-import-dialog', () => import('./sd-import-dialog.ts')),
    place: 'more',
  },
  {
    label: say('Export'),
    run: (_session, page) =>
      openDialog(page, 'sd-export-dialog', () => import('./sd-export-dialog.ts')),
    place: 'more',
  },
  {
    label: say('Functions'),
    run: (_session, page) =>
      openDialog(page, 'sd-function-list', () => import('./sd-function-list.ts')),
    place: 'more',
  },
  {
    label: say('Save to a file'),
    run: (session, _page, services) => services.saveToFile(session),
    place: 'more',
  },
  {
    label: say('Share the file'),
    run: (session, _page, services) => services.shareFile?.(session),
    place: 'more',
    isOffered: (services) => services.shareFile !== undefined,
  },
  {
    label: say('Bring in a second copy'),
    run: (_session, page) =>
      openDialog(page, 'sd-merge-dialog', () => import('./sd-merge-dialog.ts')),
    place: 'more',
  },
  {
    label: say('Where two copies differ'),
    run: (_session, page) =>
      openDialog(page, 'sd-clashes-dialog', () => import('./sd-clashes-dialog.ts')),
    place: 'more',
  },
  {
    label: say('Start the next season'),
    run: (_session, page) =>
      openDialog(page, 'sd-next-season', () => import('./sd-next-season.ts')),
    place: 'more',
  },
  {
    label: say('Save as a template'),
    run: (_session, page) =>
      openDialog(page, 'sd-save-template', () => import('./sd-save-template.ts')),
    place: 'more',
  },
  {
    label: say('Print'),
    run: (_session, page) => openDialog(page, 'sd-paper', () => import('./sd-paper.ts')),
    place: 'more',
  },
];
