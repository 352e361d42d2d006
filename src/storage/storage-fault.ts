import { fault, isFault, type Fault } from '../../shared/value.ts';

/** What to do while nothing can be kept: the same end for every reason. */
const meanwhile =
  'You can go on typing: it stays in this page only, so save the notebook to a file before closing it.';

/** A fault of keeping as an error, for a promise to be rejected with. */
export class StorageError extends Error {
  constructor(readonly fault: Fault) {
    super(fault.sentence);
  }
}

/** The fault, with its sentence for people, behind whatever the browser's store threw. */
export function storageFault(error: unknown): Fault {
  if (error instanceof StorageError) return error.fault;
  if (isFault(error)) return error;
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  switch (name) {
    case 'QuotaExceededError':
      return fault(
        'no-room',
        `This device has no room left for notebooks. ${meanwhile} Then free some space.`,
      );
    case 'ConstraintError':
      return fault(
        'second-writer',
        `Another tab is writing to this notebook. ${meanwhile} Then reload this page and merge the file.`,
      );
    case 'VersionError':
      return fault(
        'newer-store',
        `The notebooks in this browser were kept by a newer Sampling Daybook. Reload the page with a network to update it. ${meanwhile}`,
      );
    case 'SecurityError':
    case 'InvalidStateError':
      return fault(
        'store-refused',
        `The browser does not let this page keep anything; a private window is a usual reason. ${meanwhile}`,
      );
    default:
      return fault('store-failed', `The browser could not keep what was typed. ${meanwhile}`);
  }
}

export const noAnswer: Fault = fault(
  'no-answer',
  `The browser's store does not answer. ${meanwhile} Restarting the browser usually helps.`,
);

export const outdated: Fault = fault(
  'outdated-page',
  `A newer Sampling Daybook is open in another tab, and this one is too old to keep anything. ${meanwhile} Then reload this page.`,
);
