/**
 * Resolves just before the browser draws next, so that everything that happened since the last frame
 * is drawn once. A page that is hidden draws nothing; there a short wait stands in.
 */
export function nextFrame(): Promise<void> {
  if (document.visibilityState === 'hidden') return new Promise((done) => setTimeout(done));
  return new Promise((done) => requestAnimationFrame(() => done()));
}
