import { CUP_FUNCTIONS } from './cup-functions.ts';
import { FLUID_FUNCTIONS } from './fluid-functions.ts';
import { HERD_FUNCTIONS } from './herd-functions.ts';
import { REDUCTION_FUNCTIONS } from './reduction-functions.ts';
import type { TradeFunction } from './trade-function.ts';
import { TREATMENT_FUNCTIONS } from './treatment-functions.ts';

/** Every trade function, in the order in which help shows them. */
export const TRADE_FUNCTIONS: readonly TradeFunction[] = [
  ...CUP_FUNCTIONS,
  ...HERD_FUNCTIONS,
  ...REDUCTION_FUNCTIONS,
  ...TREATMENT_FUNCTIONS,
  ...FLUID_FUNCTIONS,
];
