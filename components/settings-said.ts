/** Says what was kept of the settings, in the dialog where it was done. */
export function sayOfSettings(from: HTMLElement, sentence: string): void {
  from.dispatchEvent(
    new CustomEvent('settings-said', { detail: { sentence }, bubbles: true, composed: true }),
  );
}
