import type { Session } from '../src/session/session.ts';

/**
 * Resolves just before the browser draws next, so that everything that happened since the last frame
 * is drawn once. A page that is hidden draws nothing; there a short wait stands in.
 */
export function nextFrame(): Promise<void> {
  if (document.visibilityState === 'hidden') return new Promise((done) => setTimeout(done));
  return new Promise((done) => requestAnimationFrame(() => done()));
}

/**
 * Resolves when all that a key asked of the session is done, the next frame at the latest. What is drawn then
 * is laid out with the focus and stands when the browser begins its frame; drawn in the frame it would be laid
 * out once more.
 */
export function settled(session: Session | undefined): Promise<void> {
  return session?.isBusy ? Promise.race([session.settled(), nextFrame()]) : Promise.resolve();
}
