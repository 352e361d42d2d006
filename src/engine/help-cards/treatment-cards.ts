import type { CardSource, HelpCard } from './help-card.ts';
import { say } from '../../text/say.ts';

const arithmetic: CardSource = { text: say('Arithmetic in exact decimals'), status: 'computed' };
const sugar: CardSource = {
  text: say('Density of sugar solutions at 20 °C: to 35 % Poradnik fizykochemiczny 1974'),
  status: 'read',
};
const denseSugar: CardSource = {
  text: say('Above 35 %: handbook values (NBS Circular C440)'),
  status: 'from memory',
};
const ask = say(
  'Follow the label and ask a vet. Goats often need other doses than sheep, and many products are not licensed for them.',
);

/** Cards about doses, clear days and the flotation fluid. */
export const TREATMENT_CARDS: readonly HelpCard[] = [
  {
    name: 'DOSEML',
    category: 'treatment',
    what: say(
      'The volume of a dose by the strength of the product, rounded up to the syringe’s step.',
    ),
    missing: say('Without a weight there is no dose: never guess one.'),
    example: { formula: 'DOSEML(3, 0.4, 0.8, 0.25)', answer: 1.5 },
    inWords: say('kg × mg per kg ÷ mg per mL, up to the next step.'),
    sources: [arithmetic],
    caution: say('{ask} Where rounding would add more than 10 %, use a finer syringe.', { ask }),
  },
  {
    name: 'DOSEBYLABEL',
    category: 'treatment',
    what: say('The volume of a dose by the label’s own line, so many mL for so many kg.'),
    missing: say('Without a weight there is no dose: never guess one.'),
    example: { formula: 'DOSEBYLABEL(41.5, 1, 5, 0.5)', answer: 8.5 },
    inWords: say('kg × mL ÷ kg of the label, up to the next step.'),
    sources: [arithmetic],
    caution: say('{ask} Where rounding would add more than 10 %, use a finer syringe.', { ask }),
  },
  {
    name: 'CLEARDATE',
    category: 'treatment',
    what: say('The first day clear of a withdrawal period.'),
    missing: say('Both the date and the days are needed.'),
    example: { formula: 'CLEARDATE("2026-06-01", 10)', answer: '2026-06-12' },
    inWords: say('Date + days + 1; a withdrawal of 0 days is the day itself.'),
    sources: [{ text: say('Calendar'), status: 'computed' }],
    caution: say('{ask} A label’s withdrawal does not hold for another dose, route or species.', {
      ask,
    }),
  },
  {
    name: 'SYRUPSG',
    category: 'fluid',
    what: say('Specific gravity of a sugar solution at 20 °C.'),
    missing: say('Both are needed.'),
    example: { formula: 'SYRUPSG(454, 355)', answer: 1.2665 },
    inWords: say(
      'Sugar by weight of the whole, its density between rows of the table, ÷ that of water.',
    ),
    sources: [sugar, denseSugar],
    caution: say('Measure the water before mixing. Hot syrup burns. Dung water thins the fluid.'),
  },
  {
    name: 'SUGARFOR',
    category: 'fluid',
    what: say('Grams of sugar for a wanted specific gravity.'),
    missing: say('Both are needed.'),
    example: { formula: 'SUGARFOR(1.2, 1000)', answer: 787.965 },
    inWords: say('SYRUPSG the other way round.'),
    sources: [sugar, denseSugar],
    caution: say('Measure the water before mixing. Hot syrup burns. Dung water thins the fluid.'),
  },
];
