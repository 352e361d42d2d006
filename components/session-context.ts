import { createContext } from '@lit/context';
import type { Session } from '../src/session/session.ts';

/**
 * Gives the open notebook's session to every element below. The session stays the same object while
 * its notebook is open; what changes is heard by subscribing, see `selector-controller.ts`. Undefined while no notebook is open.
 */
export const sessionContext = createContext<Session | undefined>(Symbol('session'));
