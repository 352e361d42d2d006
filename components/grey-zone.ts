import { nothing, svg, html, type TemplateResult } from 'lit';
import type { DecimalMark } from '../src/text/decimal-text.ts';
import { limitWords, reductionWords } from '../src/treating/check-words.ts';
import { shortNumber } from '../src/treating/short-number.ts';
import { say } from '../src/text/say.ts';

/** A reduction with its limits against threshold and expected efficacy; all in %. */
export interface GreyZoneFacts {
  readonly low: number;
  readonly high: number;
  readonly reduction: number;
  readonly threshold: number;
  readonly expected: number;
  /** How decimals are written. */
  readonly mark: DecimalMark;
}

const WIDTH = 640;
const HEIGHT = 122;
const MARGIN = 18;
/** Further down than this nothing is told by length: the line ends in an arrow, and the words have the figure. */
const LOWEST = -50;

/** What the drawing shows, in words. */
export function greyZoneWords({
  low,
  high,
  reduction,
  threshold,
  expected,
  mark,
}: GreyZoneFacts): string {
  return say(
    'The count {reduction}, 90 % limits {limits}: the lower limit {from, select, reaches {reaches} other {is below}} the threshold of {threshold} %, the upper limit {to, select, reaches {reaches} other {is below}} what is expected, {expected} %.',
    {
      reduction: reductionWords(reduction, mark),
      limits: limitWords(low, high, mark),
      from: low >= threshold ? 'reaches' : 'below',
      threshold: shortNumber(threshold, 2, mark),
      to: high < expected ? 'below' : 'reaches',
      expected: shortNumber(expected, 2, mark),
    },
  );
}

/**
 * The interval as a line with a mark at the reduction, over the grey zone between threshold and expected
 * efficacy. Words stand in its label; nothing is told by colour.
 */
export function greyZone(facts: GreyZoneFacts): TemplateResult {
  const { low, high, reduction, threshold, expected, mark } = facts;
  const least = Math.max(
    LOWEST,
    Math.floor((Math.min(low, reduction, threshold - 10) - 2) / 10) * 10,
  );
  const x = (percent: number): number => {
    const share = (Math.max(least, Math.min(100, percent)) - least) / (100 - least);
    return MARGIN + share * (WIDTH - 2 * MARGIN);
  };
  const [left, right, dot] = [x(low), x(high), x(reduction)];
  const step = 100 - least > 60 ? 25 : 100 - least > 30 ? 10 : 5;
  const ticks = Array.from(
    { length: Math.floor((100 - Math.ceil(least / step) * step) / step) + 1 },
    (_, i) => Math.ceil(least / step) * step + i * step,
  );
  const y = 56;
  return html`
    <svg
      class="zone"
      viewBox="0 0 ${WIDTH} ${HEIGHT}"
      role="img"
      aria-label=${greyZoneWords(facts)}
    >
      ${svg`
        <rect class="grey" x=${x(threshold)} y="26" width=${x(expected) - x(threshold)} height="60"></rect>
        <line class="edge" x1=${x(threshold)} x2=${x(threshold)} y1="22" y2="86"></line>
        <line class="edge" x1=${x(expected)} x2=${x(expected)} y1="22" y2="86"></line>
        <text x=${x(threshold) - 4} y="18" text-anchor="end">${say('threshold {percent} %', { percent: shortNumber(threshold, 2, mark) })}</text>
        <text x=${WIDTH - MARGIN} y="18" text-anchor="end">${say('expected {percent} %', { percent: shortNumber(expected, 2, mark) })}</text>
        <line class="axis" x1=${MARGIN} x2=${WIDTH - MARGIN} y1="86" y2="86"></line>
        ${ticks.map(
          (tick) => svg`
            <line class="axis" x1=${x(tick)} x2=${x(tick)} y1="86" y2="91"></line>
            <text x=${x(tick)} y="112" text-anchor="middle">${String(tick).replace('-', '−')}</text>`,
        )}
        <line class="span" x1=${left} x2=${right} y1=${y} y2=${y}></line>
        ${
          low < least
            ? svg`<path class="cap" d=${`M ${left + 10} ${y - 8} L ${left} ${y} L ${left + 10} ${y + 8}`}></path>`
            : svg`<line class="cap" x1=${left} x2=${left} y1=${y - 9} y2=${y + 9}></line>`
        }
        <line class="cap" x1=${right} x2=${right} y1=${y - 9} y2=${y + 9}></line>
        ${reduction < least ? nothing : svg`<circle class="dot" cx=${dot} cy=${y} r="6"></circle>`}
      `}
    </svg>
  `;
}
