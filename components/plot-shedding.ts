import * as Plot from '@observablehq/plot';
import { asPicture, plotStyle } from './plot-style.ts';
import { say } from '../src/text/say.ts';

/** One animal of the chart, in its order. */
export interface SheddingBar {
  readonly tag: string;
  /** As it is read, such as `1,350`. */
  readonly epg: string;
  /** Running total before and with this animal, in %. */
  readonly from: number;
  readonly to: number;
  /** Among the fewest that reach the share. */
  readonly isAmong: boolean;
}

export interface SheddingChart {
  readonly bars: readonly SheddingBar[];
  /** The share to reach, in %. */
  readonly share: number;
  /** Running total by luck alone: `animals` from the top hold `share` % of the eggs. */
  readonly luck: readonly { readonly animals: number; readonly share: number }[];
  /** The chart in one sentence, for those who do not see it. */
  readonly sentence: string;
}

/** Narrower bars than this bear no tag, px. */
const TAG_STEP = 14;
/** More animals than this are drawn as one stepped area. */
const MOST_BARS = 300;

/**
 * A bar for each animal, from the running total before it to the running total with it: its height is its
 * share of the eggs, its top the running total.
 */
export function sheddingPlot(chart: SheddingChart, width: number): SVGSVGElement | HTMLElement {
  const { bars, share, luck } = chart;
  const count = bars.length;
  const margins = { marginLeft: 44, marginRight: 12, marginTop: 30 };
  const step = (width - 56) / Math.max(count, 1);
  const hasTags = step >= TAG_STEP;
  const longest = Math.max(...bars.map(({ tag }) => tag.length));
  const marginBottom = hasTags ? Math.min(96, 26 + longest * 6.2) : 40;
  const placed = bars.map((bar, i) => ({ ...bar, x1: i, x2: i + 1, middle: i + 0.5 }));
  const inset = step > 6 ? 1 : 0;
  const plot = Plot.plot({
    width,
    height: 246 + marginBottom,
    ...margins,
    marginBottom,
    style: plotStyle,
    ariaLabel: chart.sentence,
    x: { domain: [0, Math.max(count, 1)], axis: null },
    y: { domain: [0, 100], axis: null },
    marks: [
      Plot.axisY([0, 20, 40, 60, 80, 100], {
        label: say('running total of eggs'),
        labelArrow: 'none',
        labelAnchor: 'top',
        tickSize: 0,
        tickFormat: (percent: number) => `${percent} %`,
        color: 'var(--soft)',
      }),
      Plot.gridY([0, 20, 40, 60, 80, 100], { stroke: 'var(--line)', strokeOpacity: 1 }),
      count > MOST_BARS
        ? null
        : Plot.rect(placed, {
            x1: 'x1',
            x2: 'x2',
            y1: 0,
            y2: 'from',
            insetLeft: inset,
            insetRight: inset,
            fill: 'var(--accent-soft)',
            fillOpacity: 0.7,
          }),
      count > MOST_BARS
        ? Plot.areaY(placed, {
            x: 'x2',
            y: 'to',
            curve: 'step-before',
            fill: 'var(--accent)',
            fillOpacity: 0.25,
          })
        : Plot.rect(placed, {
            x1: 'x1',
            x2: 'x2',
            y1: 'from',
            y2: 'to',
            insetLeft: inset,
            insetRight: inset,
            fill: ({ isAmong }: SheddingBar) => (isAmong ? 'var(--accent)' : 'var(--sheet)'),
            stroke: 'var(--accent)',
            title: ({ tag, epg, to }: SheddingBar) =>
              say('{tag}: {epg} epg, running total {percent} %', {
                tag,
                epg,
                percent: Math.round(to),
              }),
          }),
      Plot.ruleY([share], { stroke: 'var(--ink)', strokeDasharray: '6 4' }),
      Plot.line(luck, {
        x: 'animals',
        y: 'share',
        stroke: 'var(--soft)',
        strokeWidth: 1.5,
        strokeDasharray: '1 4',
        strokeLinecap: 'round',
      }),
      Plot.text(luckLabel(luck), {
        x: 'animals',
        y: 'share',
        text: () => say('if all shed alike'),
        textAnchor: 'start',
        dx: 10,
        dy: 12,
        fill: 'var(--soft)',
        stroke: 'var(--paper)',
        strokeWidth: 4,
      }),
      hasTags
        ? Plot.text(placed, {
            x: 'middle',
            y: 0,
            text: 'tag',
            rotate: -60,
            dx: 3,
            dy: 8,
            textAnchor: 'end',
            fill: 'var(--soft)',
          })
        : Plot.axisX({
            label: say('animals, highest epg first'),
            labelAnchor: 'center',
            labelArrow: 'none',
            tickSize: 3,
            color: 'var(--soft)',
          }),
    ],
  });
  return asPicture(plot);
}

/** Where the words of the luck line stand: under its middle, away from the bars. */
function luckLabel(luck: SheddingChart['luck']): SheddingChart['luck'] {
  const at = luck[Math.floor(luck.length * 0.45)];
  return at ? [at] : [];
}
