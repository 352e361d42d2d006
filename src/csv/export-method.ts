import type { Engine, FigureAnswer } from '../../shared/derived.ts';
import type { Notebook, SamplingDay } from '../../shared/notebook.ts';
import type { DayId } from '../../shared/ref.ts';
import { isFault } from '../../shared/value.ts';
import { newest } from '../notebook/cell.ts';
import { dayName } from '../notebook/edit-days.ts';
import { factorSum } from '../notebook/factor-sum.ts';
import { limitWordOn } from '../notebook/limit-words.ts';
import { outcomeOf } from '../notebook/outcome.ts';
import { presentAnimals } from '../notebook/present.ts';
import {
  aboutOf,
  columnByKey,
  columnsOf,
  dayOf,
  defaultsOf,
  figuresOf,
  limitsOf,
  limitValue,
  treatmentsOf,
} from '../notebook/read.ts';
import {
  CLEAR_DATE_CAUTIONS,
  DOSE_CAUTIONS,
  LIST_CAUTIONS,
  UNTREATED_CAUTIONS,
} from '../treating/cautions.ts';
import type { DecimalMark } from '../text/decimal-text.ts';
import { sayInEnglish, type Filling } from '../text/say.ts';
import { productName, productOf } from '../treating/product.ts';
import type { WriteCell, WriteStyle } from './write-table.ts';

/** What the page says of formulas: a stored one in today's names. */
export type Shown = (formula: string) => string;

/** How the method is told: on paper in the language spoken, in files always in the same words. */
export interface MethodVoice {
  readonly say: (english: string, filling?: Filling) => string;
  readonly mark: DecimalMark;
  /** A number inside a text. */
  readonly number: (value: number) => string;
}

/** One thing said of a day: the day (empty for all of them), what, and what is said of it. */
export type MethodLine = readonly [day: string, what: string, says: WriteCell];

/**
 * How it was counted, how many of how many, the figures, limits and criteria with who said so, and the products.
 *
 * @param engine one of the caller's own, since its open day changes.
 */
export async function methodLines(
  notebook: Notebook,
  engine: Engine,
  days: readonly DayId[],
  voice: MethodVoice,
  shown: Shown,
): Promise<readonly MethodLine[]> {
  const rows: MethodLine[] = [];
  for (const id of days) {
    const day = dayOf(notebook, id);
    if (!day) continue;
    await engine.open(notebook, id);
    const name = dayName(notebook, id);
    const answers = await engine.figures(
      figuresOf(notebook).map(({ formula }) => ({ formula, day: id, group: null })),
    );
    const lines = [
      ...countingLines(notebook, day, voice),
      ...numberLines(notebook, engine, day, voice),
      ...figureLines(notebook, answers, voice),
      ...limitLines(notebook, day, voice),
      ...criterionLines(notebook, day, shown, voice),
    ];
    rows.push(...lines.map(([what, says]): MethodLine => [name, what, says]));
  }
  const products = productLines(notebook, days, voice);
  return [...rows, ...products.map(([what, says]): MethodLine => ['', what, says])];
}

/** What such a list never says by itself. */
export const METHOD_CAUTIONS: readonly string[] = [
  ...LIST_CAUTIONS,
  ...UNTREATED_CAUTIONS,
  ...DOSE_CAUTIONS,
  ...CLEAR_DATE_CAUTIONS,
];

/**
 * What stands beside the vet's list, as a second file: the method and the cautions. Three columns: day (empty
 * for all), what, and what is said of it.
 *
 * @param engine one of the export's own, since its open day changes.
 */
export async function methodRows(
  notebook: Notebook,
  engine: Engine,
  days: readonly DayId[],
  style: WriteStyle,
  shown: Shown,
): Promise<readonly (readonly WriteCell[])[]> {
  const { title, place } = aboutOf(notebook);
  const voice = {
    say: sayInEnglish,
    mark: style === 'comma' ? '.' : ',',
    number: String,
  } as const;
  return [
    ['day', 'what', 'says'],
    ['', 'notebook', title ?? ''],
    ['', 'place', place ?? ''],
    ...(await methodLines(notebook, engine, days, voice, shown)),
    ...METHOD_CAUTIONS.map((caution): WriteCell[] => ['', 'caution', caution]),
  ];
}

type Line = readonly [what: string, says: WriteCell];

function countingLines(
  notebook: Notebook,
  day: SamplingDay,
  { say, mark }: MethodVoice,
): readonly Line[] {
  const protocol = { ...defaultsOf(notebook), ...day };
  const { grams, fluidMl, fluidIs = 'added', areaMl, areas, fluid, gravity } = protocol;
  const sum =
    grams !== undefined && fluidMl !== undefined && areaMl !== undefined && areas !== undefined
      ? factorSum({ grams, fluidMl, fluidIs, areaMl, areas }, mark)
      : null;
  return [
    [say('counted by'), day.countedBy ?? say('not said')],
    [say('grams of dung'), grams ?? null],
    [
      fluidIs === 'added' ? say('mL of fluid added') : say('mL, made up to with the dung in it'),
      fluidMl ?? null,
    ],
    [say('mL under one counted area'), areaMl ?? null],
    [say('areas counted, unless a row says otherwise'), areas ?? null],
    [say('fluid'), fluid ?? null],
    [say('specific gravity'), gravity ?? null],
    [say('multiplication factor'), sum === null ? null : isFault(sum) ? sum.sentence : sum.words],
    [
      say('egg types looked for'),
      [say('strongyle-type eggs'), ...lookedFor(notebook, day)].join(', '),
    ],
  ];
}

/** The further egg types looked for, by name. */
function lookedFor(notebook: Notebook, day: SamplingDay): readonly string[] {
  const ids = day.lookedFor ?? defaultsOf(notebook).lookedFor ?? [];
  return columnsOf(notebook)
    .filter(({ id }) => ids.includes(id))
    .map(({ key, label }) => label ?? key);
}

function numberLines(
  notebook: Notebook,
  engine: Engine,
  day: SamplingDay,
  { say }: MethodVoice,
): readonly Line[] {
  const present = presentAnimals(notebook, day.id);
  const epg = columnByKey(notebook, 'epg');
  const of = (count: number): string =>
    say('{counted} of {present}', { counted: count, present: present.length });
  const typed = present.filter(({ id }) =>
    Object.values(notebook.readings[day.id]?.[id] ?? {}).some((cell) => newest(cell) !== undefined),
  );
  const counted = present.filter(({ id }) => epg && typeof engine.value(id, epg.id) === 'number');
  const outcomes = present.map(({ id }) => outcomeOf(notebook, day.id, engine.criteria(id)).kind);
  const over = outcomes.filter((kind) => kind === 'over').length;
  const below = outcomes.filter((kind) => kind === 'below').length;
  return [
    [say('animals present'), present.length],
    [say('animals with something noted'), of(typed.length)],
    [say('animals with an epg'), of(counted.length)],
    [say('animals judged by the criteria'), of(over + below)],
    [say('over the criteria'), of(over)],
    [say('below the criteria'), of(below)],
    [say('not enough known'), of(present.length - over - below)],
  ];
}

function figureLines(
  notebook: Notebook,
  answers: readonly FigureAnswer[],
  { say }: MethodVoice,
): readonly Line[] {
  return figuresOf(notebook).map(({ key, label, unit, shownAs, decimals }, i): Line => {
    const answer = answers[i];
    const share = shownAs === 'percent' || shownAs === 'animals';
    const figure = `${label ?? key}${share ? ', %' : unit ? `, ${unit}` : ''}`;
    const what =
      answer?.counted == null
        ? figure
        : say('{figure} ({counted} of {present} counted)', {
            figure,
            counted: answer.counted,
            present: answer.present,
          });
    const value = answer?.value ?? null;
    if (answer?.counted === 0 || value === null) return [what, say('no counts yet')];
    if (isFault(value)) return [what, value.sentence];
    if (typeof value === 'boolean') return [what, value ? say('yes') : say('no')];
    if (typeof value === 'string') return [what, value];
    return [what, Number((share ? value * 100 : value).toFixed(decimals ?? 2))];
  });
}

function limitLines(
  notebook: Notebook,
  day: SamplingDay,
  { say, number }: MethodVoice,
): readonly Line[] {
  return limitsOf(notebook).flatMap((limit): Line[] => {
    const { id, key, label, unit } = limit;
    const { saidBy, confirmed } = limitWordOn(notebook, day.id, limit);
    const value = limitValue(notebook, day.id, id);
    if (value === undefined) return [];
    const source =
      confirmed === true
        ? saidBy
        : say('an example nobody has confirmed: {source}', { source: saidBy ?? '' });
    return [
      [
        say('limit: {limit}', { limit: label ?? key }),
        `${number(value)} ${unit ?? ''}${source ? `; ${source}` : ''}`.trim(),
      ],
    ];
  });
}

function criterionLines(
  notebook: Notebook,
  day: SamplingDay,
  shown: Shown,
  { say }: MethodVoice,
): readonly Line[] {
  const criteria = day.criteria ?? defaultsOf(notebook).criteria ?? [];
  return criteria.map(({ reason, condition, ready, mustBeKnown, saidBy }): Line => {
    const rule = ready === 'too-many' ? say('too many eggs to count') : shown(condition);
    const more = [mustBeKnown ? say('must be known') : '', saidBy ?? ''].filter(
      (text) => text !== '',
    );
    return [say('criterion: {reason}', { reason }), [rule, ...more].join('; ')];
  });
}

/** The products given up to the last of these days, as their labels were typed. */
function productLines(
  notebook: Notebook,
  days: readonly DayId[],
  { say, number }: MethodVoice,
): readonly Line[] {
  const last =
    days
      .map((id) => dayOf(notebook, id)?.date ?? '')
      .sort()
      .at(-1) ?? '';
  const ids = new Set(
    treatmentsOf(notebook)
      .filter(({ date }) => (date ?? '') <= last)
      .flatMap(({ product }) => product ?? []),
  );
  return [...ids].map((id): Line => {
    const product = productOf(notebook, id);
    const said = [
      product?.labelMl === undefined
        ? ''
        : say('label: {ml} mL per {weight} {unit}', {
            ml: number(product.labelMl),
            weight: number(product.labelPer ?? 1),
            unit: product.labelUnit ?? 'kg',
          }),
      product?.activeGroup ? say('group: {group}', { group: product.activeGroup }) : '',
      product?.route ? say('route: {route}', { route: product.route }) : '',
      product?.batch ? say('batch: {batch}', { batch: product.batch }) : '',
      product?.expires ? say('expires: {expires}', { expires: product.expires }) : '',
      product?.vetDose
        ? say('dose set by {vet}: {dose}', {
            vet: product.vetName ?? say('a vet'),
            dose: product.vetDose,
          })
        : '',
    ].filter((text) => text !== '');
    return [
      say('product: {product}', { product: productName(notebook, id) }),
      said.join('; ') || say('nothing noted from its label'),
    ];
  });
}
