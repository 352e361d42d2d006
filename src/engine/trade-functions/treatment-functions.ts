import { doseByLabel, doseMl } from '../../stats/dose.ts';
import { clearDate } from '../../text/date.ts';
import { needed, optional, type TradeFunction } from './trade-function.ts';
import { say } from '../../text/say.ts';

/** The dose in the syringe, and the first day clear of it. */
export const TREATMENT_FUNCTIONS: readonly TradeFunction[] = [
  {
    name: 'DOSEML',
    params: [
      needed('kg', 'kg'),
      needed('mg_per_kg', say('mg per kg')),
      needed('mg_per_ml', say('mg per mL')),
      optional('step_ml', say('mL, the step of the syringe')),
    ],
    gives: 'number',
    call: (given) => doseMl(given.number(0), given.number(1), given.number(2), given.numberIf(3)),
  },
  {
    name: 'DOSEBYLABEL',
    params: [
      needed('kg', 'kg'),
      needed('ml', say('mL, as the label says')),
      needed('per_kg', say('kg, as the label says')),
      optional('step_ml', say('mL, the step of the syringe')),
    ],
    gives: 'number',
    call: (given) =>
      doseByLabel(given.number(0), given.number(1), given.number(2), given.numberIf(3)),
  },
  {
    name: 'CLEARDATE',
    params: [
      needed('date', say('like 2026-06-01'), 'text'),
      needed('days', say('days of withdrawal')),
    ],
    gives: 'text',
    call: (given) => clearDate(given.text(0), given.number(1)),
  },
];
