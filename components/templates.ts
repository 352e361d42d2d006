import type { Template } from '../shared/template.ts';
import autumnAndHousing from '../templates/autumn-and-housing.json';
import barbersPoleSeason from '../templates/barbers-pole-season.json';
import breedingChoice from '../templates/breeding-choice.json';
import dewormerCheck from '../templates/dewormer-check.json';
import earlySummerLambs from '../templates/early-summer-lambs.json';
import lambingAndKidding from '../templates/lambing-and-kidding.json';
import quarantine from '../templates/quarantine.json';
import summerGrazing from '../templates/summer-grazing.json';
import youngStockBeforeWeaning from '../templates/young-stock-before-weaning.json';

/**
 * The season templates that come with the program, in the order offered: the year of an ordinary farm
 * first, then what is done now and then. A new one is two lines.
 */
const shipped: readonly unknown[] = [
  summerGrazing,
  lambingAndKidding,
  earlySummerLambs,
  youngStockBeforeWeaning,
  barbersPoleSeason,
  autumnAndHousing,
  dewormerCheck,
  quarantine,
  breedingChoice,
];

export const templates = shipped as readonly Template[];
