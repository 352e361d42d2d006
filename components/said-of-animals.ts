/** Says what was done to animals, in the dialog where it was done. */
export function sayOfAnimals(from: HTMLElement, sentence: string): void {
  from.dispatchEvent(
    new CustomEvent('animals-said', { detail: { sentence }, bubbles: true, composed: true }),
  );
}
