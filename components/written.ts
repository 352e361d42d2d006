import type { Session } from '../src/session/session.ts';

/** Waits until what was typed in a session is written; false where some of it stays in this page alone. */
export async function written(session: Session): Promise<boolean> {
  if (session.saved.state === 'saving')
    await new Promise<void>((done) => {
      const stop = session.subscribeSaved(() => {
        if (session.saved.state === 'saving') return;
        stop();
        done();
      });
    });
  return session.saved.state === 'saved';
}
