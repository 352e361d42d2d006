import type { Template } from '../shared/template.ts';
import { isFault } from '../shared/value.ts';
import { factorSum } from '../src/notebook/factor-sum.ts';
import { decimalMarkOf, writeNumber } from '../src/text/decimal-text.ts';
import { say, spokenLocale } from '../src/text/say.ts';
import { shortNumber } from '../src/treating/short-number.ts';
import { animalWord } from './animal-words.ts';

/** How a template has a cup made up and counted, and what one egg then stands for. */
export function protocolWords({ protocol }: Template): string {
  const { grams, fluidMl, fluidIs, fluid, gravity, areaMl, areas } = protocol;
  // A notebook begun from it writes decimals so.
  const mark = decimalMarkOf(spokenLocale());
  const made = say(
    '{grams} g of dung, {how, select, added {{fluidMl} mL of {fluid} added} other {made up to {fluidMl} mL with {fluid}}} (specific gravity {gravity}); {areas, plural, =1 {one grid of {areaMl} mL} other {# grids of {areaMl} mL each}}.',
    {
      grams: writeNumber(grams, mark),
      how: fluidIs === 'added' ? 'added' : 'madeUp',
      fluidMl: writeNumber(fluidMl, mark),
      fluid,
      gravity: writeNumber(gravity, mark),
      areas,
      areaMl: writeNumber(areaMl, mark),
    },
  );
  const sum = factorSum(protocol, mark);
  if (isFault(sum)) return made;
  const factor = say('One egg seen stands for {factor} epg: {sum}.', {
    factor: shortNumber(sum.factor, 1, mark),
    sum: sum.words,
  });
  return `${made} ${factor}`;
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
  const whom = [species, ...(classes ?? [])].flatMap((word) =>
    word === undefined ? [] : [animalWord(word)],
  );
  const about =
    whom.length === 0 ? reason : say('{reason} ({whom} only)', { reason, whom: whom.join(', ') });
  const whole = condition === '' ? about : `${about}: ${condition}`;
  return mustBeKnown ? say('{criterion}; must be known', { criterion: whole }) : whole;
}

/** Its limits with their values: examples until a person has confirmed them. */
export function limitWords({ label, value, unit }: Template['limits'][number]): string {
  return `${label}: ${value.toLocaleString(spokenLocale())}${unit ? ` ${unit}` : ''}`;
}
