import type { HelpCard } from './help-card.ts';
import { say } from '../../text/say.ts';

/** Cards about one cup under the microscope. */
export const CUP_CARDS: readonly HelpCard[] = [
  {
    name: 'EGGS',
    category: 'one cup',
    what: say('The eggs seen in all areas that were counted.'),
    missing: say('Counts left empty are left out; with no count at all there is no answer, not 0.'),
    example: { formula: 'EGGS(12, 15)', answer: 27 },
    inWords: say('The counts given, added up.'),
    sources: [{ text: say('Addition.'), status: 'computed' }],
  },
  {
    name: 'COUNTED',
    category: 'one cup',
    what: say('How many areas the counts cover: pairs of a count and the part of its grid.'),
    missing: say('An empty count covers nothing; an empty part is a whole grid, 1.'),
    example: { formula: 'COUNTED(20, 1, 10, 0.5)', answer: 1.5 },
    inWords: say('The parts that go with the counts given, added up.'),
    sources: [{ text: say('Addition.'), status: 'computed' }],
  },
  {
    name: 'EGGFACTOR',
    category: 'one cup',
    what: say('The multiplication factor: how many eggs per gram one egg seen stands for.'),
    missing: say('All four are needed.'),
    example: { formula: 'EGGFACTOR(2, 28, 0.15, 2)', answer: 50 },
    inWords: say('(fluid added + grams as mL) ÷ (grams × mL under one grid × grids counted).'),
    sources: [
      {
        text: say('FAO/RVC guide to faecal examination: 3 g + 42 mL, two grids: 50'),
        status: 'read',
      },
      {
        text: 'Cork & Lejeune, Veterinary Laboratory and Field Manual, 3rd ed., p. 120',
        status: 'read',
      },
    ],
    caution: say(
      'Methods with a concentrating step cannot be worked out this way: type their factor. The method reads low on average; counts are not corrected for it.',
    ),
  },
  {
    name: 'EPG',
    category: 'one cup',
    what: say('Eggs per gram of dung.'),
    missing: say('Not counted is not 0: without eggs or factor there is no answer.'),
    example: { formula: 'EPG(27, 50)', answer: 1350 },
    inWords: say('Eggs seen × multiplication factor.'),
    sources: [
      {
        text: say('FAO/RVC guide to faecal examination: 12 and 15 eggs, × 50 = 1350'),
        status: 'read',
      },
    ],
    caution: say(
      '0 epg is not free of worms: young worms lay no eggs, and few eggs are easily missed.',
    ),
  },
  {
    name: 'EPGLOW',
    category: 'one cup',
    what: say(
      'Lower limit of what this animal may really shed, as far as the luck of the count goes.',
    ),
    missing: say('Without eggs or factor there is no answer.'),
    example: { formula: 'EPGLOW(10, 50)', answer: 239.7694 },
    inWords: say('Exact Poisson limit of the eggs seen, χ²(0.025, 2 × eggs) ÷ 2, × factor.'),
    sources: [
      { text: 'Garwood 1936, Biometrika 28:437–442', status: 'from memory' },
      { text: say('Values by R'), status: 'computed' },
    ],
    caution: say('Dung varies from day to day beyond this.'),
  },
  {
    name: 'EPGHIGH',
    category: 'one cup',
    what: say(
      'Upper limit of what this animal may really shed, as far as the luck of the count goes.',
    ),
    missing: say('Without eggs or factor there is no answer.'),
    example: { formula: 'EPGHIGH(10, 50)', answer: 919.5178 },
    inWords: say('Exact Poisson limit of the eggs seen, χ²(0.975, 2 × eggs + 2) ÷ 2, × factor.'),
    sources: [
      { text: 'Garwood 1936, Biometrika 28:437–442', status: 'from memory' },
      { text: say('Values by R'), status: 'computed' },
    ],
    caution: say('Dung varies from day to day beyond this.'),
  },
  {
    name: 'CHAMBERGAP',
    category: 'one cup',
    what: say(
      'How likely luck alone parts two chambers of one cup at least this far. Below 0.01: stir, refill, recount, or check the typing.',
    ),
    missing: say(
      'With one chamber only there is no gap and no answer. An empty part is a whole grid.',
    ),
    example: { formula: 'CHAMBERGAP(12, 15)', answer: 0.7011 },
    inWords: say(
      'Exact two-sided binomial p of the two counts given their total, chances in the ratio of the parts counted.',
    ),
    sources: [
      { text: say('Binomial test, elementary'), status: 'from memory' },
      { text: say('Values by R'), status: 'computed' },
    ],
  },
  {
    name: 'OVERCHANCE',
    category: 'one cup',
    what: say('The chance that this cup, counted completely, would be at the limit or more.'),
    missing: say(
      'Without a count there is no answer. Without k and mean of the herd, none is assumed.',
    ),
    example: { formula: 'OVERCHANCE(15, 50, 1000)', answer: 0.1565 },
    inWords: say(
      'Gamma with shape eggs + 1; with the herd’s k and mean m: shape k + eggs, rate k × factor ÷ m + 1; the part beyond limit ÷ factor.',
    ),
    sources: [
      { text: say('Gamma-Poisson rule of probability texts'), status: 'from memory' },
      { text: say('Values by R'), status: 'computed' },
    ],
    caution: say('Dung varies from day to day beyond this.'),
  },
];
