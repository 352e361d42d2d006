import type { CardSource, HelpCard } from './help-card.ts';
import { say } from '../../text/say.ts';

const byR: CardSource = { text: say('Values by R'), status: 'computed' };
const herd = '{5,10,9,51,3,11,7,5,3,14,19}';
const leftOut = say(
  'Animals that were not counted are left out; with none counted there is no answer.',
);
const inGrams = say('Per gram of dung, not per day.');

/** Cards about the herd as a whole. */
export const HERD_CARDS: readonly HelpCard[] = [
  {
    name: 'HERDMEAN',
    category: 'the herd',
    what: say('The arithmetic mean epg of the animals counted.'),
    missing: leftOut,
    example: { formula: 'HERDMEAN({500, "", 100, 0})', answer: 200 },
    inWords: say('Sum of the epg ÷ animals counted.'),
    sources: [{ text: say('Arithmetic'), status: 'computed' }],
    caution: say(
      'One high animal can make most of it: look at the median and the highest as well.',
    ),
  },
  {
    name: 'COUNTEDMEANLOW',
    category: 'the herd',
    what: say('Lower limit of the mean of these very animals: the luck of the counts alone.'),
    missing: leftOut,
    example: { formula: `COUNTEDMEANLOW(${herd}, 15)`, answer: 156.8462 },
    inWords: say(
      'Gamma limit with each animal’s factor ÷ n for weight; with one factor, exact Poisson.',
    ),
    sources: [{ text: 'Fay & Feuer 1997, Stat Med 16:791–801', status: 'second-hand' }, byR],
  },
  {
    name: 'COUNTEDMEANHIGH',
    category: 'the herd',
    what: say('Upper limit of the mean of these very animals: the luck of the counts alone.'),
    missing: leftOut,
    example: { formula: `COUNTEDMEANHIGH(${herd}, 15)`, answer: 220.8496 },
    inWords: say(
      'Gamma limit with each animal’s factor ÷ n for weight; with one factor, exact Poisson.',
    ),
    sources: [{ text: 'Fay & Feuer 1997, Stat Med 16:791–801', status: 'second-hand' }, byR],
  },
  {
    name: 'HERDMEANLOW',
    category: 'the herd',
    what: say('Lower limit of the mean of a herd from which these animals were drawn.'),
    missing: say('{leftOut} It takes 6 counted, 3 of them with eggs.', { leftOut }),
    example: { formula: `HERDMEANLOW(${herd}, 15)`, answer: 114.3778 },
    inWords: say('Profile likelihood of the mean in a negative binomial herd.'),
    sources: [{ text: say('Own simulation: 95 % limits cover 91–97 %'), status: 'own work' }, byR],
    caution: say('Only for animals taken at random: a choice of thin ones is no herd.'),
  },
  {
    name: 'HERDMEANHIGH',
    category: 'the herd',
    what: say('Upper limit of the mean of a herd from which these animals were drawn.'),
    missing: say('{leftOut} It takes 6 counted, 3 of them with eggs.', { leftOut }),
    example: { formula: `HERDMEANHIGH(${herd}, 15)`, answer: 329.2566 },
    inWords: say('Profile likelihood of the mean in a negative binomial herd.'),
    sources: [{ text: say('Own simulation: 95 % limits cover 91–97 %'), status: 'own work' }, byR],
    caution: say('Only for animals taken at random: a choice of thin ones is no herd.'),
  },
  {
    name: 'SHEDDERSHARE',
    category: 'the herd',
    what: say('The smallest share of the animals that sheds 80 % of the eggs.'),
    missing: say('{leftOut} Without any eggs there is nothing to share out.', { leftOut }),
    example: { formula: `SHEDDERSHARE(${herd})`, answer: 0.545454545 },
    inWords: say('Highest epg first, animals until the share is reached ÷ animals counted.'),
    sources: [
      {
        text: say('Own definition; “20 % lay 80 %” is a rule of extension pages'),
        status: 'own work',
      },
      byR,
    ],
    caution: say('{inGrams} Luck alone makes some animals look worse: see SHEDDERLUCK.', {
      inGrams,
    }),
  },
  {
    name: 'EGGSHARE',
    category: 'the herd',
    what: say('The share of the eggs that comes from the top 20 % of the animals.'),
    missing: say('{leftOut} Without any eggs there is nothing to share out.', { leftOut }),
    example: { formula: `EGGSHARE(${herd})`, answer: 0.613138686 },
    inWords: say('Epg of the highest animals, 20 % of them rounded up, ÷ epg of all.'),
    sources: [{ text: say('Own definition, after extension pages'), status: 'own work' }, byR],
    caution: inGrams,
  },
  {
    name: 'SHEDDERLUCK',
    category: 'the herd',
    what: say('The shedder share that luck alone would show if all animals shed alike.'),
    missing: leftOut,
    example: { formula: `SHEDDERLUCK(${herd})`, answer: 0.7047 },
    inWords: say(
      'The same share in a Poisson distribution with the herd’s mean number of eggs seen.',
    ),
    sources: [{ text: say('Elementary'), status: 'own work' }, byR],
    caution: say('Below 10 animals or 5 eggs on average there are too few eggs to say who sheds.'),
  },
  {
    name: 'AGGREGATION',
    category: 'the herd',
    what: say('k of the negative binomial: the smaller, the more the eggs sit in few animals.'),
    missing: leftOut,
    example: { formula: `AGGREGATION(${herd}, 15)`, answer: 1.6694 },
    inWords: say(
      'Maximum likelihood; none where the counts differ no more than by chance. The quick form, by moments, is m² ÷ (s² − m) of the raw counts: 0.8883 for the herd of the example.',
    ),
    sources: [
      { text: say('Negative binomial likelihood of statistics texts'), status: 'from memory' },
      {
        text: say('Sreter et al. 1994, Int J Parasitol 24:103–108: k below 1 in two flocks'),
        status: 'read',
      },
      byR,
    ],
  },
  {
    name: 'SHAREFROM',
    category: 'the herd',
    what: say('The share of the animals counted that is at the limit or more.'),
    missing: leftOut,
    example: { formula: 'SHAREFROM({500, 499, 0, 1350}, 500)', answer: 0.5 },
    inWords: say(
      'Animals at the limit or above ÷ animals counted; at the limit counts as reached.',
    ),
    sources: [{ text: say('Arithmetic'), status: 'computed' }],
  },
];
