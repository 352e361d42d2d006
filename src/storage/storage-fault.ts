import { fault, isFault, type Fault } from '../../shared/value.ts';
import { say } from '../text/say.ts';

/** What to do while nothing can be kept: the same end for every reason. */
const meanwhile = say(
  'You can go on typing: it stays in this page only, so save the notebook to a file before closing it.',
);

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
        say('This device has no room left for notebooks. {meanwhile} Then free some space.', {
          meanwhile,
        }),
      );
    case 'ConstraintError':
      return fault(
        'second-writer',
        say(
          'Another tab is writing to this notebook. {meanwhile} Then reload this page and merge the file.',
          { meanwhile },
        ),
      );
    case 'VersionError':
      return fault(
        'newer-store',
        say(
          'The notebooks in this browser were kept by a newer Sampling Daybook. Reload the page with a network to update it. {meanwhile}',
          { meanwhile },
        ),
      );
    case 'SecurityError':
    case 'InvalidStateError':
      return fault(
        'store-refused',
        say(
          'The browser does not let this page keep anything; a private window is a usual reason. {meanwhile}',
          { meanwhile },
        ),
      );
    default:
      return fault(
        'store-failed',
        say('The browser could not keep what was typed. {meanwhile}', { meanwhile }),
      );
  }
}

export const noAnswer: Fault = fault(
  'no-answer',
  say("The browser's store does not answer. {meanwhile} Restarting the browser usually helps.", {
    meanwhile,
  }),
);

export const outdated: Fault = fault(
  'outdated-page',
  say(
    'A newer Sampling Daybook is open in another tab, and this one is too old to keep anything. {meanwhile} Then reload this page.',
    { meanwhile },
  ),
);
