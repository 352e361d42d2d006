import { sugarFor, syrupGravity } from '../../stats/sugar.ts';
import { needed, type TradeFunction } from './trade-function.ts';
import { say } from '../../text/say.ts';

/** The flotation fluid. */
export const FLUID_FUNCTIONS: readonly TradeFunction[] = [
  {
    name: 'SYRUPSG',
    params: [needed('sugar_g', 'g'), needed('water_ml', say('mL before mixing'))],
    gives: 'number',
    call: (given) => syrupGravity(given.number(0), given.number(1)),
  },
  {
    name: 'SUGARFOR',
    params: [
      needed('sg', say('specific gravity 20/20')),
      needed('water_ml', say('mL before mixing')),
    ],
    gives: 'number',
    call: (given) => sugarFor(given.number(0), given.number(1)),
  },
];
