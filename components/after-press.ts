let isPressed = false;
if (typeof window !== 'undefined') {
  window.addEventListener('pointerdown', () => (isPressed = true), true);
  for (const ended of ['pointerup', 'pointercancel'])
    window.addEventListener(ended, () => (isPressed = false), true);
}

/**
 * Does something that may move the page, once nothing is pressed: what moves away between a press and
 * its release is not clicked.
 */
export function afterPress(run: () => void): void {
  // A tap presses and lets go before its mouse events are heard; they follow within the same task.
  const later = (): unknown => setTimeout(run);
  if (!isPressed) {
    later();
    return;
  }
  const released = new AbortController();
  const onRelease = (): void => {
    released.abort();
    later();
  };
  for (const ended of ['pointerup', 'pointercancel'])
    window.addEventListener(ended, onRelease, { signal: released.signal });
}
