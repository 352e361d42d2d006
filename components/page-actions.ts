import type { Session } from '../src/session/session.ts';
import { openDialog } from './open-dialog.ts';
import type { Services } from './services.ts';

/** A button of the page's header. `page` is the element that holds dialogs: see `openDialog`. */
export interface PageAction {
  readonly label: string;
  readonly run: (session: Session, page: HTMLElement, services: Services) => void | Promise<void>;
  /** In the header itself, or under "More". On a narrow screen all stand under "More". */
  readonly place: 'header' | 'more';
}

/** The header's buttons, in order. A new one is one line here. */
export const pageActions: readonly PageAction[] = [
  {
    label: 'Animals',
    run: (_session, page) =>
      openDialog(page, 'sd-animals-dialog', () => import('./sd-animals-dialog.ts')),
    place: 'header',
  },
  {
    label: 'Settings',
    run: (_session, page) =>
      openDialog(page, 'sd-settings-dialog', () => import('./sd-settings-dialog.ts')),
    place: 'header',
  },
  {
    label: 'Import',
    run: (_session, page) =>
      openDialog(page, 'sd-import-dialog', () => import('./sd-import-dialog.ts')),
    place: 'more',
  },
  {
    label: 'Export',
    run: (_session, page) =>
      openDialog(page, 'sd-export-dialog', () => import('./sd-export-dialog.ts')),
    place: 'more',
  },
  {
    label: 'Functions',
    run: (_session, page) =>
      openDialog(page, 'sd-function-list', () => import('./sd-function-list.ts')),
    place: 'more',
  },
  {
    label: 'Save to a file',
    run: (session, _page, services) => services.saveToFile(session),
    place: 'more',
  },
  {
    label: 'Print',
    run: (_session, page) => openDialog(page, 'sd-paper', () => import('./sd-paper.ts')),
    place: 'more',
  },
];
