/**
 * What must stand wherever a dose, a clear date or "leave untreated" stands: on the page, on paper and
 * in files. Common practice in the advisory literature of sheep and goat keeping; no single source.
 */

/** For every list of animals to treat or to leave untreated. */
export const cautions: readonly string[] = [
  'Follow the label and local rules, and ask your vet. Dose for the actual weight, not a guess.',
  'Counts alone do not decide. A pale animal with a low count is an emergency; young worms lay no eggs; this count does not show liver fluke.',
  'Paleness has other causes, and good eyelids do not clear an animal that scours or loses weight.',
];

/** Where a goat is on the list. */
export const goatCaution =
  'Goats often need other doses than sheep, and many products are not licensed for them: ask your vet first.';

/** For the bench. */
export const benchCaution =
  'Gloves on, hands clean before you eat, samples out of the food fridge. Hot syrup burns.';

/** When many of the animals scored are pale. `of` is how many were scored. */
export function manyPale(pale: number, of: number): string {
  return `${pale} of ${of} animals scored are pale (4 or 5): ring your vet today.`;
}
