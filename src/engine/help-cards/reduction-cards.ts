import type { CardSource, HelpCard } from './help-card.ts';
import { say } from '../../text/say.ts';

const byR: CardSource = { text: say('Values by R'), status: 'computed' };
const before = '{52,1,0,0,6,1,13,0,2,0}';
const after = '{34,0,1,1,3,1,15,0,0,0}';
const treated = '{1,3,0,1,4,2,2,8,6,0,3,0}';
const control = '{0,101,32,12,12,3,1,16,0,3,7,30}';
const pairs = say(
  'Animals without a count on both days are left out; a pair of 0 and 0 counts. Without eggs before, a sentence.',
);
const form1992: CardSource = {
  text: 'Coles et al. 1992, Vet Parasitol 44:35–44',
  status: 'from memory',
};
const ownLimits: CardSource = {
  text: say(
    'Own simulation of 360 kinds of herd: errs at most 5.4 % a side (5 % promised) where the drug works alike in all animals, up to 13 % where it does not',
  ),
  status: 'own work',
};

/** Cards about whether a dewormer still works. */
export const REDUCTION_CARDS: readonly HelpCard[] = [
  {
    name: 'FECR',
    category: 'a dewormer',
    what: say('By how many per cent the egg count fell in the same animals.'),
    missing: pairs,
    example: { formula: 'FECR({500, 300}, {10, 0})', answer: 98.75 },
    inWords: say('100 × (1 − mean after ÷ mean before), arithmetic means of the pairs.'),
    sources: [
      { text: 'McKenna 2006, NZ Vet J 54:202–203', status: 'read' },
      {
        text: say('Kaplan et al. 2023, Vet Parasitol 318:109936: same animals before and after'),
        status: 'read',
      },
    ],
    caution: say('Negative where counts went up; never cut off at 0.'),
  },
  {
    name: 'FECRLOW',
    category: 'a dewormer',
    what: say('Lower 90 % limit of the reduction, from the eggs seen.'),
    missing: say('{pairs} It takes 2 pairs.', { pairs }),
    example: { formula: `FECRLOW(${before}, ${after}, 50, 50)`, answer: -21.9163 },
    inWords: say(
      'Log ratio of the totals with leave-one-out residuals and never less than the luck of the counts, Student t; with no egg after, the exact limit given the eggs seen.',
    ),
    sources: [
      ownLimits,
      {
        text: '"gamma": Levecke et al. 2018, Int J Parasitol Drugs Drug Resist 8:67–69',
        status: 'from memory',
      },
      byR,
    ],
    caution: say('Give eggs and factors, not epg: how many eggs were seen decides how sure it is.'),
  },
  {
    name: 'FECRHIGH',
    category: 'a dewormer',
    what: say('Upper 90 % limit of the reduction, from the eggs seen.'),
    missing: say('{pairs} It takes 2 pairs.', { pairs }),
    example: { formula: `FECRHIGH(${before}, ${after}, 50, 50)`, answer: 55.8896 },
    inWords: say('As FECRLOW, the other side; 100 where no egg is seen after.'),
    sources: [
      ownLimits,
      {
        text: '"gamma": Levecke et al. 2018, Int J Parasitol Drugs Drug Resist 8:67–69',
        status: 'from memory',
      },
      byR,
    ],
    caution: say('Give eggs and factors, not epg: how many eggs were seen decides how sure it is.'),
  },
  {
    name: 'FECRVERDICT',
    category: 'a dewormer',
    what: say('The class of a dewormer: susceptible, low resistant, resistant or inconclusive.'),
    missing: say('All four are needed.'),
    example: { formula: 'FECRVERDICT(95, 99.5, 99, 90)', answer: 'susceptible' },
    inWords: say(
      'Is the upper limit below what is expected? Has the lower limit reached the threshold? No and yes: susceptible; yes and yes: low resistant; yes and no: resistant; no and no: inconclusive.',
    ),
    sources: [
      {
        text: say('Kaplan et al. 2023, Vet Parasitol 318:109936, restated by AAEP 2024 for horses'),
        status: 'second-hand',
      },
      { text: say('Expected 99 %, threshold 90 % for sheep and goats'), status: 'from memory' },
    ],
    caution: say(
      'A count mixes kinds of worm; one resistant kind can hide. Weighed? Gun measured? In date? Right days? Ask your vet.',
    ),
  },
  {
    name: 'GROUPFECR',
    category: 'a dewormer',
    what: say('Reduction in % of a treated group against an untreated one on the same day.'),
    missing: say('Animals that were not counted are left out of their group.'),
    example: { formula: `GROUPFECR(${treated}, ${control})`, answer: 86.1751 },
    inWords: say('100 × (1 − mean of the treated ÷ mean of the untreated).'),
    sources: [form1992, byR],
  },
  {
    name: 'GROUPFECRLOW',
    category: 'a dewormer',
    what: say('Lower 95 % limit of the reduction of a treated group against an untreated one.'),
    missing: say('As GROUPFECR; it takes 2 animals in each group.'),
    example: { formula: `GROUPFECRLOW(${treated}, ${control})`, answer: 57.942 },
    inWords: say('Log ratio of the two means, their variances ÷ n ÷ mean² added, Student t.'),
    sources: [form1992, byR],
  },
  {
    name: 'GROUPFECRHIGH',
    category: 'a dewormer',
    what: say('Upper 95 % limit of the reduction of a treated group against an untreated one.'),
    missing: say('As GROUPFECR; it takes 2 animals in each group.'),
    example: { formula: `GROUPFECRHIGH(${treated}, ${control})`, answer: 95.4556 },
    inWords: say('Log ratio of the two means, their variances ÷ n ÷ mean² added, Student t.'),
    sources: [form1992, byR],
  },
];
