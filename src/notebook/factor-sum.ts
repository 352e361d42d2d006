import type { Protocol } from '../../shared/notebook.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { TOLERANCE } from '../stats/at-least.ts';
import { eggFactor } from '../stats/egg-factor.ts';
import { exact, product, sum, toNumber } from '../stats/exact-decimal.ts';
import { say } from '../text/say.ts';

/** A typed factor farther than this from the sum gets a warning: published ones are rounded (67 for 66.67). */
export const MOST_ROUNDED = 0.035;

/** How one sample was made up and what was counted of it. */
export type Sample = Pick<Protocol, 'grams' | 'fluidMl' | 'fluidIs' | 'areaMl' | 'areas'>;

/** A multiplication factor with the arithmetic that gives it. */
export interface FactorSum {
  /** epg that one egg seen stands for. */
  readonly factor: number;
  /** `(28 mL + 2 g) ÷ (2 g × 0.15 mL × 2) = 50`. */
  readonly words: string;
}

/**
 * mL of fluid *added*: the amount itself, or the volume made up to less the dung in it (1 mL per gram),
 * in exact decimals. Fault: made up to less than the dung fills.
 */
export function fluidAdded(sample: Pick<Sample, 'grams' | 'fluidMl' | 'fluidIs'>): number | Fault {
  if (sample.fluidIs !== 'made up to') return sample.fluidMl;
  const minusDung = product(exact(sample.grams), exact(-1));
  const added = toNumber(sum(exact(sample.fluidMl), minusDung));
  return added >= 0
    ? added
    : fault(
        'made-up-too-small',
        say(
          '{grams} g of dung alone fill more than {volume} mL. Check the grams and the mL made up to.',
          { grams: sample.grams, volume: sample.fluidMl },
        ),
      );
}

/**
 * The multiplication factor of a sample, with its sum as a person would write it down. A made-up volume
 * stands in the sum as it was typed. Missing: ask only with all measures known. Faults: as `eggFactor` and
 * `fluidAdded`.
 *
 * Source: dilution arithmetic, as in `eggFactor`.
 */
export function factorSum(sample: Sample, mark: '.' | ',' = '.'): FactorSum | Fault {
  const { grams, areaMl, areas } = sample;
  const added = fluidAdded(sample);
  if (isFault(added)) return added;
  const factor = eggFactor(grams, added, areaMl, areas);
  if (isFault(factor)) return factor;
  const amount = (size: number): string => amountWords(size, mark);
  const whole =
    sample.fluidIs === 'made up to'
      ? `${amount(sample.fluidMl)} mL`
      : `(${amount(sample.fluidMl)} mL + ${amount(grams)} g)`;
  const seen = `(${amount(grams)} g × ${amount(areaMl)} mL × ${amount(areas)})`;
  return { factor, words: `${whole} ÷ ${seen} ${equalsWords(factor, mark)}` };
}

/**
 * Whether a typed factor differs from the arithmetic by more than 3.5 %: null where it does not. A method
 * with a step that concentrates the eggs has a factor of its own, so this warns and refuses nothing.
 *
 * Source: the published 67, 33 and 100 lie up to 3.3 % from their exact 66.67, 33.33 and 103.33.
 */
export function typedFactorFault(
  typed: number,
  sum: FactorSum,
  mark: '.' | ',' = '.',
): Fault | null {
  const apart = typed / sum.factor - 1;
  if (Math.abs(apart) <= MOST_ROUNDED * (1 + TOLERANCE)) return null;
  const size = amountWords(Math.abs(apart) * 100, mark, 0);
  return fault(
    'factor-apart',
    say(
      'The factor typed, {factor}, is {size} % {side, select, above {above} other {below}} what the grams, fluid and areas give: {sum}. Right for a method that concentrates the eggs; otherwise check them.',
      {
        factor: amountWords(typed, mark),
        size,
        side: apart > 0 ? 'above' : 'below',
        sum: sum.words,
      },
    ),
  );
}

/** `= 50`, or `≈ 66.67` where more figures follow. */
function equalsWords(factor: number, mark: '.' | ','): string {
  const shown = Number(factor.toFixed(2));
  const isWhole = Math.abs(factor - shown) <= TOLERANCE * factor;
  return `${isWhole ? '=' : '≈'} ${amountWords(factor, mark, 2)}`;
}

/** As typed, with the notebook's decimal mark; rounded only where `places` is given. */
function amountWords(amount: number, mark: '.' | ',', places?: number): string {
  const plain = places === undefined ? amount : Number(amount.toFixed(places));
  return String(plain).replace('.', mark);
}
