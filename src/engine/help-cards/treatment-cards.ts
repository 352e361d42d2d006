import type { CardSource, HelpCard } from './help-card.ts';

const arithmetic: CardSource = { text: 'Arithmetic in exact decimals', status: 'computed' };
const sugar: CardSource = {
  text: 'Density of sugar solutions at 20 °C: to 35 % Poradnik fizykochemiczny 1974',
  status: 'read',
};
const denseSugar: CardSource = {
  text: 'Above 35 %: handbook values (NBS Circular C440)',
  status: 'from memory',
};
const ask =
  'Follow the label and ask a vet. Goats often need other doses than sheep, and many products are not licensed for them.';

/** Cards about doses, clear days and the flotation fluid. */
export const TREATMENT_CARDS: readonly HelpCard[] = [
  {
    name: 'DOSEML',
    category: 'treatment',
    what: 'The volume of a dose by the strength of the product, rounded up to the syringe’s step.',
    missing: 'Without a weight there is no dose: never guess one.',
    example: { formula: 'DOSEML(3, 0.4, 0.8, 0.25)', answer: 1.5 },
    inWords: 'kg × mg per kg ÷ mg per mL, up to the next step.',
    sources: [arithmetic],
    caution: `${ask} Where rounding would add more than 10 %, use a finer syringe.`,
  },
  {
    name: 'DOSEBYLABEL',
    category: 'treatment',
    what: 'The volume of a dose by the label’s own line, so many mL for so many kg.',
    missing: 'Without a weight there is no dose: never guess one.',
    example: { formula: 'DOSEBYLABEL(41.5, 1, 5, 0.5)', answer: 8.5 },
    inWords: 'kg × mL ÷ kg of the label, up to the next step.',
    sources: [arithmetic],
    caution: `${ask} Where rounding would add more than 10 %, use a finer syringe.`,
  },
  {
    name: 'CLEARDATE',
    category: 'treatment',
    what: 'The first day clear of a withdrawal period.',
    missing: 'Both the date and the days are needed.',
    example: { formula: 'CLEARDATE("2026-06-01", 10)', answer: '2026-06-12' },
    inWords: 'Date + days + 1; a withdrawal of 0 days is the day itself.',
    sources: [{ text: 'Calendar', status: 'computed' }],
    caution: `${ask} A label’s withdrawal does not hold for another dose, route or species.`,
  },
  {
    name: 'SYRUPSG',
    category: 'fluid',
    what: 'Specific gravity of a sugar solution at 20 °C.',
    missing: 'Both are needed.',
    example: { formula: 'SYRUPSG(454, 355)', answer: 1.2665 },
    inWords:
      'Sugar by weight of the whole, its density between rows of the table, ÷ that of water.',
    sources: [sugar, denseSugar],
    caution: 'Measure the water before mixing. Hot syrup burns. Dung water thins the fluid.',
  },
  {
    name: 'SUGARFOR',
    category: 'fluid',
    what: 'Grams of sugar for a wanted specific gravity.',
    missing: 'Both are needed.',
    example: { formula: 'SUGARFOR(1.2, 1000)', answer: 787.965 },
    inWords: 'SYRUPSG the other way round.',
    sources: [sugar, denseSugar],
    caution: 'Measure the water before mixing. Hot syrup burns. Dung water thins the fluid.',
  },
];
