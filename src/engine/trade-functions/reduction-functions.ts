import { fault, isFault, type Fault } from '../../../shared/value.ts';
import { groupReduction, groupReductionLimits } from '../../stats/group-reduction.ts';
import { reduction } from '../../stats/reduction.ts';
import { reductionLimits, type ReductionMethod } from '../../stats/reduction-limits.ts';
import { reductionVerdict } from '../../stats/reduction-verdict.ts';
import type { Limits } from '../../stats/limits.ts';
import { needed, optional, type Given, type TradeFunction } from './trade-function.ts';
import { say } from '../../text/say.ts';

const methods: readonly ReductionMethod[] = ['adjusted', 'log-t', 'gamma'];

const limitParams = [
  needed('before_eggs', say('eggs seen, a list'), 'list'),
  needed('after_eggs', say('eggs seen, a list'), 'list'),
  optional('factor_before', say('epg per egg, one or a list, 1 unless given'), 'list or number'),
  optional('factor_after', say('epg per egg, one or a list, 1 unless given'), 'list or number'),
  optional('level', say('0.90 unless given')),
  optional('method', say('"adjusted", "log-t" or "gamma"'), 'text'),
];

function pairedLimits(given: Given): Limits | Fault {
  const asked = given.textIf(5) ?? 'adjusted';
  const method = methods.find((known) => known === asked.toLowerCase());
  if (!method) {
    return fault(
      'bad-method',
      say('“{asked}” is no method: write "adjusted", "log-t" or "gamma", or leave it out.', {
        asked,
      }),
    );
  }
  const counts = {
    before: given.list(0),
    after: given.list(1),
    factorBefore: given.listOrNumberIf(2) ?? 1,
    factorAfter: given.listOrNumberIf(3) ?? 1,
  };
  return reductionLimits(counts, given.numberIf(4), method);
}

const groupParams = [
  needed('treated', say('epg after treatment, a list'), 'list'),
  needed('control', say('epg without treatment, a list'), 'list'),
];

const groupLimitParams = [...groupParams, optional('level', say('0.95 unless given'))];

function groupLimits(given: Given): Limits | Fault {
  return groupReductionLimits(given.list(0), given.list(1), given.numberIf(2));
}

/** Whether a dewormer still works: reductions with their limits. */
export const REDUCTION_FUNCTIONS: readonly TradeFunction[] = [
  {
    name: 'FECR',
    params: [
      needed('before_epg', say('epg, a list'), 'list'),
      needed('after_epg', say('epg of the same animals, a list'), 'list'),
    ],
    gives: 'number',
    call: (given) => reduction(given.list(0), given.list(1)),
  },
  {
    name: 'FECRLOW',
    params: limitParams,
    gives: 'number',
    call: (given) => side(pairedLimits(given), 'low'),
  },
  {
    name: 'FECRHIGH',
    params: limitParams,
    gives: 'number',
    call: (given) => side(pairedLimits(given), 'high'),
  },
  {
    name: 'FECRVERDICT',
    params: [
      needed('low', '%'),
      needed('high', '%'),
      needed('expected', '%'),
      needed('threshold', '%'),
    ],
    gives: 'text',
    call: (given) =>
      reductionVerdict(given.number(0), given.number(1), given.number(2), given.number(3)),
  },
  {
    name: 'GROUPFECR',
    params: groupParams,
    gives: 'number',
    call: (given) => groupReduction(given.list(0), given.list(1)),
  },
  {
    name: 'GROUPFECRLOW',
    params: groupLimitParams,
    gives: 'number',
    call: (given) => side(groupLimits(given), 'low'),
  },
  {
    name: 'GROUPFECRHIGH',
    params: groupLimitParams,
    gives: 'number',
    call: (given) => side(groupLimits(given), 'high'),
  },
];

function side(limits: Limits | Fault, which: keyof Limits): number | Fault {
  return isFault(limits) ? limits : limits[which];
}
