import type { Template } from '../shared/template.ts';
import { isFault } from '../shared/value.ts';
import { factorSum } from '../src/notebook/factor-sum.ts';
import { say } from '../src/text/say.ts';

/** How a template has a cup made up and counted, and what one egg then stands for. */
export function protocolWords({ protocol }: Template): string {
  const { grams, fluidMl, fluidIs, fluid, gravity, areaMl, areas } = protocol;
  const fluidWords =
    fluidIs === 'added'
      ? say('{fluidMl} mL of {fluid} added', { fluidMl, fluid })
      : say('made up to {fluidMl} mL with {fluid}', { fluidMl, fluid });
  const grids =
    areas === 1
      ? say('one grid of {areaMl} mL', { areaMl })
      : say('{areas} grids of {areaMl} mL each', { areas, areaMl });
  const sum = factorSum(protocol);
  const factor = isFault(sum)
    ? ''
    : say(' One egg seen stands for {Number} epg: {words}.', {
        Number: Number(sum.factor.toFixed(1)),
        words: sum.words,
      });
  return say('{grams} g of dung, {fluidWords} (specific gravity {gravity}); {grids}.{factor}', {
    grams,
    fluidWords,
    gravity,
    grids,
    factor,
  });
}

/** The columns of a template in sight, and those that wait to be shown, by their labels. */
export function columnNames({ columns }: Template): {
  readonly shown: readonly string[];
  readonly hidden: readonly string[];
} {
  const names = (isHidden: boolean): readonly string[] =>
    columns.filter(({ hidden = false }) => hidden === isHidden).map(({ label }) => label);
  return { shown: names(false), hidden: names(true) };
}

/** Its criteria as a person reads them: the reason, the condition in names, whom it is about. */
export function criterionWords(criterion: Template['criteria'][number]): string {
  const { reason, condition, species, classes, mustBeKnown } = criterion;
  const whom = [species, ...(classes ?? [])].filter((word) => word !== undefined).join(', ');
  const about = whom === '' ? '' : say(' ({whom} only)', { whom });
  const known = mustBeKnown ? say('; must be known') : '';
  return `${reason}${about}${condition === '' ? '' : `: ${condition}`}${known}`;
}

/** Its limits with their values: examples until a person has confirmed them. */
export function limitWords({ label, value, unit }: Template['limits'][number]): string {
  return `${label}: ${value.toLocaleString('en')}${unit ? ` ${unit}` : ''}`;
}
