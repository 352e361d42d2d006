import { isFault, type Fault } from '../../../shared/value.ts';
import { aggregation } from '../../stats/aggregation.ts';
import { countedMeanLimits } from '../../stats/counted-mean-limits.ts';
import { eggShare } from '../../stats/egg-share.ts';
import { herdMean } from '../../stats/herd-mean.ts';
import { herdMeanHigh, herdMeanLow } from '../../stats/herd-mean-limits.ts';
import type { Limits } from '../../stats/limits.ts';
import { shareFrom } from '../../stats/share-from.ts';
import { shedderLuck } from '../../stats/shedder-luck.ts';
import { shedderShare } from '../../stats/shedder-share.ts';
import { needed, optional, type Given, type TradeFunction } from './trade-function.ts';
import { say } from '../../text/say.ts';

const meanParams = [
  needed('eggs', say('eggs seen, a list'), 'list'),
  needed('factor', say('epg per egg, one or a list'), 'list or number'),
  optional('level', say('0.95 unless given')),
];

function countedMean(given: Given): Limits | Fault {
  return countedMeanLimits(given.list(0), given.listOrNumberIf(1) ?? 1, given.numberIf(2));
}

/** The herd as a whole: its mean, and who sheds. */
export const HERD_FUNCTIONS: readonly TradeFunction[] = [
  {
    name: 'HERDMEAN',
    params: [needed('epg', say('epg, a list'), 'list')],
    gives: 'number',
    call: (given) => herdMean(given.list(0)),
  },
  {
    name: 'COUNTEDMEANLOW',
    params: meanParams,
    gives: 'number',
    call: (given) => side(countedMean(given), 'low'),
  },
  {
    name: 'COUNTEDMEANHIGH',
    params: meanParams,
    gives: 'number',
    call: (given) => side(countedMean(given), 'high'),
  },
  {
    name: 'HERDMEANLOW',
    params: meanParams,
    gives: 'number',
    call: (given) => herdMeanLow(given.list(0), given.listOrNumberIf(1) ?? 1, given.numberIf(2)),
  },
  {
    name: 'HERDMEANHIGH',
    params: meanParams,
    gives: 'number',
    call: (given) => herdMeanHigh(given.list(0), given.listOrNumberIf(1) ?? 1, given.numberIf(2)),
  },
  {
    name: 'SHEDDERSHARE',
    params: [
      needed('epg', say('epg, a list'), 'list'),
      optional('egg_share', say('0.8 unless given')),
    ],
    gives: 'number',
    call: (given) => shedderShare(given.list(0), given.numberIf(1)),
  },
  {
    name: 'EGGSHARE',
    params: [
      needed('epg', say('epg, a list'), 'list'),
      optional('animal_share', say('0.2 unless given')),
    ],
    gives: 'number',
    call: (given) => eggShare(given.list(0), given.numberIf(1)),
  },
  {
    name: 'SHEDDERLUCK',
    params: [
      needed('eggs', say('eggs seen, a list'), 'list'),
      optional('egg_share', say('0.8 unless given')),
    ],
    gives: 'number',
    call: (given) => shedderLuck(given.list(0), given.numberIf(1)),
  },
  {
    name: 'AGGREGATION',
    params: [
      needed('eggs', say('eggs seen, a list'), 'list'),
      optional('factor', say('epg per egg, one or a list'), 'list or number'),
    ],
    gives: 'number',
    call: (given) => aggregation(given.list(0), given.listOrNumberIf(1)),
  },
  {
    name: 'SHAREFROM',
    params: [needed('epg', say('epg, a list'), 'list'), needed('limit', 'epg')],
    gives: 'number',
    call: (given) => shareFrom(given.list(0), given.number(1)),
  },
];

function side(limits: Limits | Fault, which: keyof Limits): number | Fault {
  return isFault(limits) ? limits : limits[which];
}
