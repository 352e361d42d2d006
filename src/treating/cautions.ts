import { say } from '../text/say.ts';

/**
 * What must stand wherever a dose, a clear date or "leave untreated" is shown: on the page, on paper
 * and in exports. Each is one or two plain sentences; none names a product or a dose.
 */

/** Beside every dose. */
export const DOSE_CAUTIONS: readonly string[] = [
  say('Follow the label and your local rules, and ask your vet where they leave you in doubt.'),
  say(
    'Dose for the weight the animal has today, weighed and not guessed: guesses run low, and too small a dose breeds resistant worms.',
  ),
  say(
    'Goats often need another dose than sheep, and many products are not licensed for them: ask your vet.',
  ),
  say('Measure what the gun or syringe really gives before the first animal.'),
];

/** Beside every clear date. */
export const CLEAR_DATE_CAUTIONS: readonly string[] = [
  say(
    'A clear date holds for the dose, route and species of the label, or for what your vet wrote down for you; check it against the label you have in hand.',
  ),
  say('Several products, or a second dose, can make it later; the latest date holds.'),
];

/** Beside the treatment list: what a count cannot say. */
export const LIST_CAUTIONS: readonly string[] = [
  say('Counts alone do not decide: an anaemic animal with a low count is an emergency.'),
  say(
    'Young worms lay no eggs, so harm can come before the count does, in lambs and kids above all.',
  ),
  say('This count does not show liver fluke, and paleness has other causes than worms.'),
  say('Good eyelids do not clear an animal that scours or loses weight.'),
];

/** Beside "leave untreated". */
export const UNTREATED_CAUTIONS: readonly string[] = [
  say(
    'Leaving animals untreated keeps worms on the pasture that the product still kills. It is never a reason to leave an animal that shows a sign.',
  ),
  say('Look again in a week or two at every animal left untreated.'),
];

/** What to ask before a dewormer is called resistant. */
export const RESISTANT_QUESTIONS: readonly string[] = [
  say('Was every animal dosed by its actual weight?'),
  say('Was the gun or syringe measured, and was all of the dose swallowed?'),
  say('Was the product in date, kept as its label says, and shaken?'),
  say('Was the second sample taken on the right days after treatment?'),
];

/** What a good result does not show. */
export const SUSCEPTIBLE_CAUTION = say(
  'A strongyle-type count mixes several kinds of worm, so one resistant kind can hide among the others. Ask your vet whether a larval culture is worth while.',
);

/** What the word resistant does not say. */
export const RESISTANT_CAUTION = say(
  'Resistant means that it works less well than expected: it may still kill most of the worms, or none. Look at the reduction, and settle with your vet what to use.',
);

/** Under the adjusted limits. */
export const LIMITS_CAUTION = say(
  'The limits miss on either side about 5 times in 100 where the product works alike in all animals, and up to 13 times in 100 on the low side where it works very unevenly.',
);
