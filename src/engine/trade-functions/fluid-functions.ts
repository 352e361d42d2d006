import { sugarFor, syrupGravity } from '../../stats/sugar.ts';
import { needed, type TradeFunction } from './trade-function.ts';

/** The flotation fluid. */
export const FLUID_FUNCTIONS: readonly TradeFunction[] = [
  {
    name: 'SYRUPSG',
    params: [needed('sugar_g', 'g'), needed('water_ml', 'mL before mixing')],
    gives: 'number',
    call: (given) => syrupGravity(given.number(0), given.number(1)),
  },
  {
    name: 'SUGARFOR',
    params: [needed('sg', 'specific gravity 20/20'), needed('water_ml', 'mL before mixing')],
    gives: 'number',
    call: (given) => sugarFor(given.number(0), given.number(1)),
  },
];
