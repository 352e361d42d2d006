import * as Plot from '@observablehq/plot';
import { asPicture, plotStyle } from './plot-style.ts';
import { say } from '../src/text/say.ts';

/** A mean on a day. */
export interface SeasonPlotPoint {
  /** ISO date. */
  readonly date: string;
  readonly epg: number;
  readonly words: string;
}

export interface SeasonPlotLine {
  readonly name: string;
  readonly isAll: boolean;
  readonly points: readonly SeasonPlotPoint[];
}

export interface SeasonChart {
  readonly lines: readonly SeasonPlotLine[];
  /** Means of counts soon after a treatment, drawn apart. */
  readonly apart: readonly SeasonPlotPoint[];
  /** Dates of all sampling days, with what stands under them. */
  readonly days: readonly { readonly date: string; readonly words: string }[];
  readonly sentence: string;
}

/** Lines are told apart by their strokes and the name at their end, never by hue. */
const dashes = ['7 4', '2 4', '10 3 2 3', '4 2', '12 5', '1 6'];
const HEIGHT = 260;
const TOP = 24;
const BOTTOM = 30;
const LABEL_STEP = 15;
/** Days closer than this share one label, px. */
const DAY_STEP = 52;

const moment = (date: string): Date => new Date(`${date}T00:00:00Z`);

/** The mean epg of each group over the sampling days. */
export function seasonPlot(chart: SeasonChart, width: number): SVGSVGElement | HTMLElement {
  const { lines, apart, days } = chart;
  const longest = Math.max(...lines.map(({ name }) => name.length));
  const margins = { marginLeft: 52, marginRight: Math.min(width / 3, 18 + longest * 6.6) };
  const most = Math.max(1, ...lines.flatMap(({ points }) => points.map(({ epg }) => epg)));
  const top = Math.max(most, ...apart.map(({ epg }) => epg)) * 1.05;
  const ticks = spacedDays(days, width - margins.marginLeft - margins.marginRight);
  const wordsOf = new Map(days.map(({ date, words }) => [moment(date).getTime(), words]));
  const plot = Plot.plot({
    width,
    height: HEIGHT,
    marginTop: TOP,
    marginBottom: BOTTOM,
    ...margins,
    style: plotStyle,
    ariaLabel: chart.sentence,
    x: { type: 'utc', domain: domainOf(days), axis: null },
    y: { domain: [0, top], axis: null },
    marks: [
      Plot.gridY({ stroke: 'var(--line)', strokeOpacity: 1, ticks: 5 }),
      Plot.axisY({
        ticks: 5,
        label: say('mean epg'),
        labelArrow: 'none',
        labelAnchor: 'top',
        tickSize: 0,
        color: 'var(--soft)',
      }),
      Plot.axisX(
        ticks.map(({ date }) => moment(date)),
        {
          tickFormat: (at: Date) => wordsOf.get(at.getTime()) ?? '',
          label: null,
          tickSize: 4,
          color: 'var(--soft)',
        },
      ),
      ...lines.flatMap((line, i) => lineMarks(line, i)),
      Plot.dot(apart, {
        x: ({ date }: SeasonPlotPoint) => moment(date),
        y: 'epg',
        symbol: 'diamond',
        r: 5,
        fill: 'var(--sheet)',
        stroke: 'var(--ink)',
        title: 'words',
      }),
      Plot.text(endLabels(lines, top), {
        x: ({ date }: EndLabel) => moment(date),
        y: 'at',
        text: 'name',
        textAnchor: 'start',
        dx: 9,
      }),
    ],
  });
  return asPicture(plot);
}

function lineMarks({ points, isAll }: SeasonPlotLine, index: number): Plot.Markish[] {
  const x = ({ date }: SeasonPlotPoint): Date => moment(date);
  const dash = isAll ? {} : { strokeDasharray: dashes[index % dashes.length] ?? '' };
  return [
    Plot.line(points, {
      x,
      y: 'epg',
      stroke: 'var(--accent)',
      strokeWidth: isAll ? 3 : 1.5,
      ...dash,
    }),
    Plot.dot(points, { x, y: 'epg', r: isAll ? 4.5 : 3, fill: 'var(--accent)', title: 'words' }),
  ];
}

function domainOf(days: SeasonChart['days']): [Date, Date] {
  const first = moment(days[0]?.date ?? '2000-01-01');
  const last = moment(days.at(-1)?.date ?? '2000-01-01');
  const isOne = first.getTime() === last.getTime();
  const week = 7 * 86_400_000;
  return isOne
    ? [new Date(first.getTime() - week), new Date(last.getTime() + week)]
    : [first, last];
}

/** The days whose labels fit, the newest always among them. */
function spacedDays(days: SeasonChart['days'], width: number): SeasonChart['days'] {
  const [from, to] = domainOf(days).map((day) => day.getTime()) as [number, number];
  const at = (date: string): number => ((moment(date).getTime() - from) / (to - from)) * width;
  const kept: SeasonChart['days'][number][] = [];
  for (const day of [...days].reverse()) {
    const next = kept.at(-1);
    if (!next || at(next.date) - at(day.date) >= DAY_STEP) kept.push(day);
  }
  return kept.reverse();
}

interface EndLabel {
  readonly name: string;
  readonly date: string;
  /** Where the name stands, in epg. */
  readonly at: number;
}

/** Names at the ends of the lines, pushed apart where they would lie on one another. */
function endLabels(lines: readonly SeasonPlotLine[], top: number): readonly EndLabel[] {
  const step = (LABEL_STEP / (HEIGHT - TOP - BOTTOM)) * top;
  let floor = -Infinity;
  return lines
    .flatMap(({ name, points }) => {
      const last = points.at(-1);
      return last ? [{ name, date: last.date, at: last.epg }] : [];
    })
    .sort((a, b) => a.at - b.at)
    .map((label) => {
      floor = Math.max(label.at, floor + step);
      return { ...label, at: floor };
    });
}
