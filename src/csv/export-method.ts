import type { Engine, FigureAnswer } from '../../shared/derived.ts';
import type { Notebook, SamplingDay } from '../../shared/notebook.ts';
import type { DayId } from '../../shared/ref.ts';
import { isFault } from '../../shared/value.ts';
import { newest } from '../notebook/cell.ts';
import { dayName } from '../notebook/edit-days.ts';
import { factorSum } from '../notebook/factor-sum.ts';
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
import { productName, productOf } from '../treating/product.ts';
import type { WriteCell, WriteStyle } from './write-table.ts';

/** What the page says of formulas: a stored one in today's names. */
export type Shown = (formula: string) => string;

/**
 * What stands beside the vet's list, as a second file: how it was counted, how many of how many, the
 * figures, limits and criteria with who said so, the products, and the cautions. Three columns: day (empty for
 * all), what, and what is said of it.
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
  const rows: WriteCell[][] = [
    ['day', 'what', 'says'],
    ['', 'notebook', title ?? ''],
    ['', 'place', place ?? ''],
  ];
  for (const id of days) {
    const day = dayOf(notebook, id);
    if (!day) continue;
    await engine.open(notebook, id);
    const name = dayName(notebook, id);
    const answers = await engine.figures(
      figuresOf(notebook).map(({ formula }) => ({ formula, day: id, group: null })),
    );
    const lines = [
      ...methodLines(notebook, day, style),
      ...numberLines(notebook, engine, day),
      ...figureLines(notebook, answers),
      ...limitLines(notebook, day),
      ...criterionLines(notebook, day, shown),
    ];
    rows.push(...lines.map(([what, says]): WriteCell[] => [name, what, says]));
  }
  rows.push(...productLines(notebook, days).map(([what, says]): WriteCell[] => ['', what, says]));
  const cautions = [
    ...LIST_CAUTIONS,
    ...UNTREATED_CAUTIONS,
    ...DOSE_CAUTIONS,
    ...CLEAR_DATE_CAUTIONS,
  ];
  rows.push(...cautions.map((caution): WriteCell[] => ['', 'caution', caution]));
  return rows;
}

type Line = readonly [what: string, says: WriteCell];

function methodLines(notebook: Notebook, day: SamplingDay, style: WriteStyle): readonly Line[] {
  const protocol = { ...defaultsOf(notebook), ...day };
  const { grams, fluidMl, fluidIs = 'added', areaMl, areas, fluid, gravity } = protocol;
  const mark = style === 'comma' ? '.' : ',';
  const sum =
    grams !== undefined && fluidMl !== undefined && areaMl !== undefined && areas !== undefined
      ? factorSum({ grams, fluidMl, fluidIs, areaMl, areas }, mark)
      : null;
  return [
    ['counted by', day.countedBy ?? 'not said'],
    ['grams of dung', grams ?? null],
    [
      fluidIs === 'added' ? 'mL of fluid added' : 'mL, made up to with the dung in it',
      fluidMl ?? null,
    ],
    ['mL under one counted area', areaMl ?? null],
    ['areas counted, unless a row says otherwise', areas ?? null],
    ['fluid', fluid ?? null],
    ['specific gravity', gravity ?? null],
    ['multiplication factor', sum === null ? null : isFault(sum) ? sum.sentence : sum.words],
    ['egg types looked for', lookedFor(notebook, day)],
  ];
}

function lookedFor(notebook: Notebook, day: SamplingDay): string {
  const ids = day.lookedFor ?? defaultsOf(notebook).lookedFor ?? [];
  const names = columnsOf(notebook)
    .filter(({ id }) => ids.includes(id))
    .map(({ key, label }) => label ?? key);
  return ['strongyle-type eggs', ...names].join(', ');
}

function numberLines(notebook: Notebook, engine: Engine, day: SamplingDay): readonly Line[] {
  const present = presentAnimals(notebook, day.id);
  const epg = columnByKey(notebook, 'epg');
  const of = (count: number): string => `${count} of ${present.length}`;
  const typed = present.filter(({ id }) =>
    Object.values(notebook.readings[day.id]?.[id] ?? {}).some((cell) => newest(cell) !== undefined),
  );
  const counted = present.filter(({ id }) => epg && typeof engine.value(id, epg.id) === 'number');
  const outcomes = present.map(({ id }) => outcomeOf(notebook, day.id, engine.criteria(id)).kind);
  const over = outcomes.filter((kind) => kind === 'over').length;
  const below = outcomes.filter((kind) => kind === 'below').length;
  return [
    ['animals present', present.length],
    ['animals with something noted', of(typed.length)],
    ['animals with an epg', of(counted.length)],
    ['animals judged by the criteria', of(over + below)],
    ['over the criteria', of(over)],
    ['below the criteria', of(below)],
    ['not enough known', of(present.length - over - below)],
  ];
}

function figureLines(notebook: Notebook, answers: readonly FigureAnswer[]): readonly Line[] {
  return figuresOf(notebook).map(({ key, label, unit, shownAs, decimals }, i): Line => {
    const answer = answers[i];
    const ofN = answer?.counted == null ? '' : ` (${answer.counted} of ${answer.present} counted)`;
    const share = shownAs === 'percent' || shownAs === 'animals';
    const what = `${label ?? key}${share ? ', %' : unit ? `, ${unit}` : ''}${ofN}`;
    const value = answer?.value ?? null;
    if (answer?.counted === 0 || value === null) return [what, 'no counts yet'];
    if (isFault(value)) return [what, value.sentence];
    if (typeof value === 'boolean') return [what, value ? 'yes' : 'no'];
    if (typeof value === 'string') return [what, value];
    return [what, Number((share ? value * 100 : value).toFixed(decimals ?? 2))];
  });
}

function limitLines(notebook: Notebook, day: SamplingDay): readonly Line[] {
  return limitsOf(notebook).flatMap(({ id, key, label, unit, saidBy, confirmed }): Line[] => {
    const value = limitValue(notebook, day.id, id);
    if (value === undefined) return [];
    const source = confirmed === true ? saidBy : `an example nobody has confirmed: ${saidBy ?? ''}`;
    return [
      [`limit: ${label ?? key}`, `${value} ${unit ?? ''}${source ? `; ${source}` : ''}`.trim()],
    ];
  });
}

function criterionLines(notebook: Notebook, day: SamplingDay, shown: Shown): readonly Line[] {
  const criteria = day.criteria ?? defaultsOf(notebook).criteria ?? [];
  return criteria.map(({ reason, condition, ready, mustBeKnown, saidBy }): Line => {
    const rule = ready === 'too-many' ? 'too many eggs to count' : shown(condition);
    const more = [mustBeKnown ? 'must be known' : '', saidBy ?? ''].filter((text) => text !== '');
    return [`criterion: ${reason}`, [rule, ...more].join('; ')];
  });
}

/** The products given up to the last of these days, as their labels were typed. */
function productLines(notebook: Notebook, days: readonly DayId[]): readonly Line[] {
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
        : `label: ${product.labelMl} mL per ${product.labelPer ?? 1} ${product.labelUnit ?? 'kg'}`,
      product?.activeGroup ? `group: ${product.activeGroup}` : '',
      product?.route ? `route: ${product.route}` : '',
      product?.batch ? `batch: ${product.batch}` : '',
      product?.expires ? `expires: ${product.expires}` : '',
      product?.vetDose ? `dose set by ${product.vetName ?? 'a vet'}: ${product.vetDose}` : '',
    ].filter((text) => text !== '');
    return [
      `product: ${productName(notebook, id)}`,
      said.join('; ') || 'nothing noted from its label',
    ];
  });
}
