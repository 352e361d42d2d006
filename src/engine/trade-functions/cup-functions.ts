import { fault, type Fault } from '../../../shared/value.ts';
import { chamberGap } from '../../stats/chamber-gap.ts';
import { eggFactor } from '../../stats/egg-factor.ts';
import { epg } from '../../stats/epg.ts';
import { overChance } from '../../stats/over-chance.ts';
import { epgHigh, epgLow } from '../../stats/poisson-limits.ts';
import { needed, optional, type TradeFunction } from './trade-function.ts';
import { say } from '../../text/say.ts';

/** The eggs of the areas that were counted; no answer where none was. */
function eggsSeen(counts: readonly (number | undefined)[]): number | null {
  const given = counts.filter((count) => count !== undefined);
  return given.length === 0 ? null : given.reduce((sum, count) => sum + count, 0);
}

/** How many areas the counts cover: each its part, 1 where no part is given; uncounted ones none. */
function areasCounted(pairs: readonly (number | undefined)[]): number | null | Fault {
  let areas: number | null = null;
  for (let i = 0; i < pairs.length; i += 2) {
    if (pairs[i] === undefined) continue;
    const part = pairs[i + 1] ?? 1;
    if (!(part > 0))
      return fault(
        'bad-part',
        say('The part of a grid that was counted must be more than 0: 3/6 or 1.'),
      );
    areas = (areas ?? 0) + part;
  }
  return areas;
}

/** One cup under the microscope: from eggs seen to eggs per gram. */
export const CUP_FUNCTIONS: readonly TradeFunction[] = [
  {
    name: 'EGGS',
    params: [optional('count', say('eggs seen'))],
    rest: [optional('count', say('eggs seen'))],
    gives: 'number',
    call: (given) => eggsSeen(given.numbers()),
  },
  {
    name: 'COUNTED',
    params: [optional('count', say('eggs seen')), optional('part', say('share of a grid'))],
    rest: [optional('count', say('eggs seen')), optional('part', say('share of a grid'))],
    gives: 'number',
    call: (given) => areasCounted(given.numbers()),
  },
  {
    name: 'EGGFACTOR',
    params: [
      needed('grams', say('g of dung')),
      needed('fluid_ml', say('mL of fluid added')),
      needed('area_ml', say('mL under one grid')),
      needed('areas', say('grids counted')),
    ],
    gives: 'number',
    call: (given) => eggFactor(given.number(0), given.number(1), given.number(2), given.number(3)),
  },
  {
    name: 'EPG',
    params: [needed('eggs', say('eggs seen')), needed('factor', say('epg per egg'))],
    gives: 'number',
    call: (given) => epg(given.number(0), given.number(1)),
  },
  {
    name: 'EPGLOW',
    params: [
      needed('eggs', say('eggs seen')),
      needed('factor', say('epg per egg')),
      optional('level', say('0.95 unless given')),
    ],
    gives: 'number',
    call: (given) => epgLow(given.number(0), given.number(1), given.numberIf(2)),
  },
  {
    name: 'EPGHIGH',
    params: [
      needed('eggs', say('eggs seen')),
      needed('factor', say('epg per egg')),
      optional('level', say('0.95 unless given')),
    ],
    gives: 'number',
    call: (given) => epgHigh(given.number(0), given.number(1), given.numberIf(2)),
  },
  {
    name: 'CHAMBERGAP',
    params: [
      needed('chamber1', say('eggs seen')),
      needed('chamber2', say('eggs seen')),
      optional('part1', say('share of a grid, 1 unless given')),
      optional('part2', say('share of a grid, 1 unless given')),
    ],
    gives: 'number',
    call: (given) =>
      chamberGap(given.number(0), given.number(1), given.numberIf(2), given.numberIf(3)),
  },
  {
    name: 'OVERCHANCE',
    params: [
      needed('eggs', say('eggs seen')),
      needed('factor', say('epg per egg')),
      needed('limit', 'epg'),
      optional('k', say("the herd's aggregation")),
      optional('mean_epg', say("the herd's mean, epg")),
    ],
    gives: 'number',
    call: (given) => {
      const k = given.numberIf(3);
      const meanEpg = given.numberIf(4);
      if ((k === undefined) !== (meanEpg === undefined)) {
        return fault('half-a-prior', say("Give both the herd's k and its mean epg, or neither."));
      }
      const prior = k === undefined || meanEpg === undefined ? undefined : { k, meanEpg };
      return overChance(given.number(0), given.number(1), given.number(2), prior);
    },
  },
];
