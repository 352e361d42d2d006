import * as Plot from '@observablehq/plot';
import { asPicture, plotStyle } from './plot-style.ts';
import { areaWords, GOOD_SHARE, type PlanOfDrug } from './plan-words.ts';
import { answerWords } from './code-words.ts';
import { say } from '../src/text/say.ts';

export interface PlanChart {
  readonly drugs: readonly PlanOfDrug[];
  /** The chart in words, for those who do not see it. */
  readonly sentence: string;
}

/** Told apart without colour: each number of areas has its own mark and its own dashes. */
const SYMBOLS = ['circle', 'square', 'triangle', 'diamond', 'cross', 'star', 'wye', 'asterisk'];
const DASHES = ['none', '8 3', '2 4', '10 3 2 3', '5 5', '1 3', '12 4', '3 2'];

/** Side by side from this width on, else one below the other, px. */
const SIDE_BY_SIDE = 560;

/** How often the right thing is said, by the number of animals: a panel for each drug, a line for each number of areas. */
export function planPlot(chart: PlanChart, width: number): SVGSVGElement | HTMLElement {
  const { drugs } = chart;
  const panel = (drug: PlanOfDrug): string =>
    say('the drug that {is, select, works {works} other {fails}}, {percent} %: called {answer}', {
      is: drug.is,
      percent: drug.efficacy,
      answer: answerWords(drug.rightAnswer),
    });
  const points = drugs.flatMap((drug) =>
    drug.lines.map((line) => ({ ...line, panel: panel(drug), of: areaWords(line.areas) })),
  );
  const kinds = [...new Set(points.map(({ of }) => of))];
  const panels = drugs.map(panel);
  const isWide = width >= SIDE_BY_SIDE;
  const facet = (name: string): Record<string, string> => ({ [isWide ? 'fx' : 'fy']: name });
  const last = Math.max(0, ...points.map(({ animals }) => animals));
  const plot = Plot.plot({
    width,
    height: isWide ? 280 : 480,
    marginLeft: 48,
    marginRight: 70,
    marginBottom: 40,
    marginTop: isWide ? 26 : 12,
    style: plotStyle,
    ariaLabel: chart.sentence,
    x: { domain: [0, Math.max(1, last)], axis: null },
    y: { domain: [0, 100], axis: null },
    fx: { domain: panels, axis: null, padding: 0.16 },
    fy: { domain: panels, axis: null, padding: 0.16 },
    symbol: { domain: kinds, range: SYMBOLS.slice(0, kinds.length) },
    marks: [
      Plot.gridY([0, 20, 40, 60, 80, 100], { stroke: 'var(--line)', strokeOpacity: 1 }),
      Plot.axisY([0, 20, 40, 60, 80, 100], {
        label: null,
        tickSize: 0,
        tickFormat: (percent: number) => `${percent} %`,
        color: 'var(--soft)',
      }),
      Plot.axisX({
        label: say('animals'),
        labelAnchor: 'center',
        labelArrow: 'none',
        ticks: 5,
        tickSize: 3,
        color: 'var(--soft)',
      }),
      Plot.ruleY([100 * GOOD_SHARE], { stroke: 'var(--ink)', strokeDasharray: '6 4' }),
      ...kinds.map((of, at) =>
        Plot.line(
          points.filter((point) => point.of === of),
          {
            x: 'animals',
            y: ({ right }: { right: number }) => 100 * right,
            ...facet('panel'),
            sort: 'animals',
            stroke: 'var(--accent)',
            strokeWidth: 1.75,
            strokeDasharray: DASHES[at] ?? 'none',
          },
        ),
      ),
      Plot.dot(points, {
        x: 'animals',
        y: ({ right }: { right: number }) => 100 * right,
        ...facet('panel'),
        symbol: 'of',
        r: 4,
        fill: 'var(--sheet)',
        stroke: 'var(--accent)',
        strokeWidth: 1.5,
        title: ({ animals, of, right }: { animals: number; of: string; right: number }) =>
          say('{animals} animals, {areas}: {percent} %', {
            animals,
            areas: of,
            percent: Math.round(100 * right),
          }),
      }),
      Plot.text(
        panels.flatMap((name) =>
          spread(points.filter((point) => point.panel === name && point.animals === last)),
        ),
        {
          x: 'animals',
          y: 'labelAt',
          ...facet('panel'),
          text: 'of',
          textAnchor: 'start',
          dx: 9,
          fill: 'var(--soft)',
          stroke: 'var(--sheet)',
          strokeWidth: 4,
        },
      ),
      Plot.text(panels, {
        ...facet('panel'),
        [isWide ? 'fx' : 'fy']: (name: string) => name,
        text: (name: string) => name,
        frameAnchor: 'top-left',
        dy: isWide ? -22 : -14,
        fontWeight: 600,
        fill: 'var(--ink)',
      }),
    ],
  });
  return asPicture(plot);
}

/** Least distance between two labels, in % of the scale. */
const LABEL_GAP = 8;

/** Label places at the points' own heights, moved down where they would lie on one another. */
function spread<T extends { readonly right: number }>(
  points: readonly T[],
): readonly (T & { readonly labelAt: number })[] {
  let above = 100 + LABEL_GAP;
  return [...points]
    .sort((a, b) => b.right - a.right)
    .map((point) => {
      above = Math.min(100 * point.right, above - LABEL_GAP);
      return { ...point, labelAt: above };
    });
}
