import { LitElement, css, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { aboutOf } from '../src/notebook/read.ts';
import type { SeasonMean } from '../src/treating/season-means.ts';
import { AfterPaint } from './after-paint.ts';
import { dayWords } from '../src/text/day-words.ts';
import { figureText } from './figure-text.ts';
import { isAboutCounts } from './herd-lists.ts';
import { plotBlockStyles } from './plot-block-styles.ts';
import type { SeasonChart, SeasonPlotPoint } from './plot-season.ts';
import { seasonOf, type Season } from './season-of.ts';
import { apartSentence, groupWords, seasonHeadline, seasonSentence } from './season-words.ts';
import { theme } from './theme.ts';
import './sd-season-ranking.ts';
import { BeforePrint } from './before-print.ts';
import { say } from '../src/text/say.ts';

/**
 * The season so far: the mean of each group on each sampling day, and the animals ranked by the mean of their
 * ordinary counts. Counts soon after a treatment are in neither and drawn apart.
 */
export class SdSeasonTrend extends LitElement {
  static override properties = {
    blockId: { type: String },
    chart: { state: true },
    trouble: { state: true },
    isOpen: { state: true },
  };

  static override styles = [
    ...theme,
    plotBlockStyles,
    css`
      small {
        display: block;
        color: var(--soft);
        font-size: var(--size-tiny);
      }

      h3 {
        margin: 12px 0 4px;
      }
    `,
  ];

  declare blockId: string;
  declare private chart: Element | null;
  declare private trouble: string;
  declare private isOpen: boolean;
  private width = 0;
  private drawn: { readonly of: Season; readonly width: number } | null = null;
  private readonly season = new AfterPaint<Season | null>(
    this,
    seasonOf,
    (notice, session) =>
      isAboutCounts(notice, session) || notice.refs.some(({ day }) => day !== session.openDay),
  );
  private readonly size = new ResizeObserver(([entry]) => {
    this.width = Math.floor(entry?.contentRect.width ?? 0);
    void this.draw();
  });

  constructor() {
    super();
    this.blockId = '';
    this.chart = null;
    this.trouble = '';
    this.isOpen = false;
    new BeforePrint(this, () => {
      this.isOpen = true;
      this.performUpdate();
    });
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.size.observe(this);
  }

  override disconnectedCallback(): void {
    this.size.disconnect();
    super.disconnectedCallback();
  }

  private get mark(): '.' | ',' {
    const { session } = this.season;
    return (session && aboutOf(session.notebook).decimalMark) ?? '.';
  }

  protected override updated(_changed: PropertyValues): void {
    void this.draw();
  }

  /** Draws anew when the season or the width are other than those drawn; the library comes when first needed. */
  private async draw(): Promise<void> {
    const of = this.season.value;
    const { width } = this;
    if (!of || width < 120 || of.all.means.every(({ mean }) => mean === null)) return;
    if (this.drawn?.of === of && this.drawn.width === width) return;
    this.drawn = { of, width };
    try {
      const { seasonPlot } = await import('./plot-season.ts');
      if (this.drawn.of !== of || this.drawn.width !== width) return;
      this.chart = seasonPlot(this.plotOf(of), width);
      this.trouble = '';
    } catch {
      this.trouble = say('The chart could not be drawn; its figures stand in the table below.');
    }
  }

  private plotOf({ groups, all }: Season): SeasonChart {
    const year = all.means[0]?.date.slice(0, 4);
    const point = (of: SeasonMean, mean: number, about: string): SeasonPlotPoint => ({
      date: of.date,
      epg: mean,
      words: say('{about}, {day}: {bound, select, least {at least {epg} epg} other {{epg} epg}}', {
        about,
        day: dayWords(of, 'long', year),
        bound: mean === of.mean && of.tooMany > 0 ? 'least' : 'exact',
        epg: figureText(mean, 0, this.mark),
      }),
    });
    return {
      lines: groups.map((line) => ({
        name: groupWords(line),
        isAll: line.group === null,
        points: line.means.flatMap((of) =>
          of.mean === null ? [] : [point(of, of.mean, groupWords(line))],
        ),
      })),
      apart: all.means.flatMap((of) =>
        of.afterMean === null ? [] : [point(of, of.afterMean, say('soon after treatment'))],
      ),
      days: all.means.map((of) => ({ date: of.date, words: dayWords(of, 'short', year) })),
      sentence: groups.map((line) => seasonSentence(line, this.mark)).join(' '),
    };
  }

  private renderTable({ groups, all }: Season): TemplateResult {
    const year = all.means[0]?.date.slice(0, 4);
    return html`<div
      class="scroll"
      role="region"
      aria-label=${say('Means by day and group')}
      tabindex="0"
    >
      <table>
        <thead>
          <tr>
            <th scope="col">${say('day')}</th>
            ${groups.map((line) => html`<th scope="col">${groupWords(line)}</th>`)}
            <th scope="col">${say('soon after treatment')}</th>
          </tr>
        </thead>
        <tbody>
          ${all.means.map(
            (row) =>
              html`<tr>
                <th scope="row">${dayWords(row, 'long', year)}</th>
                ${groups.map(({ means }) =>
                  this.renderMean(means.find(({ day }) => day === row.day)),
                )}
                ${this.renderFigure(row.afterMean, say('{n} counted', { n: row.afterCounted }))}
              </tr>`,
          )}
        </tbody>
      </table>
    </div>`;
  }

  private renderMean(of: SeasonMean | undefined): TemplateResult {
    if (!of) return html`<td>–</td>`;
    return this.renderFigure(
      of.mean,
      say('{counted} of {present}{tooMany, plural, =0 {} other {, # too many to count left out}}', {
        counted: of.counted,
        present: of.present,
        tooMany: of.tooMany,
      }),
      of.tooMany > 0,
    );
  }

  private renderFigure(mean: number | null, under: string, isAtLeast = false): TemplateResult {
    if (mean === null) return html`<td>–</td>`;
    return html`<td>
      ${isAtLeast ? say('at least {epg}', { epg: figureText(mean, 0, this.mark) }) : figureText(mean, 0, this.mark)}<small
        >${under}</small
      >
    </td>`;
  }

  private onToggle(event: Event): void {
    this.isOpen = (event.target as HTMLDetailsElement).open;
  }

  private renderSeason(season: Season): TemplateResult {
    const apart = apartSentence(season.all);
    return html`
      <p class="headline">${seasonHeadline(season.all, this.mark)}</p>
      ${apart === '' ? nothing : html`<p class="beside">${apart}</p>`}
      <div class="chart">${this.chart}</div>
      ${this.trouble === '' ? nothing : html`<p class="fault" role="alert">${this.trouble}</p>`}
      <details .open=${this.isOpen} @toggle=${this.onToggle}>
        <summary>${say('As a table')}</summary>
        ${this.isOpen ? this.renderTable(season) : nothing}
      </details>
      <h3>${say('Animals over the season')}</h3>
      <sd-season-ranking .lines=${season.ranking} .mark=${this.mark}></sd-season-ranking>
    `;
  }

  protected override render(): TemplateResult {
    const { value, error } = this.season;
    if (error !== undefined && !value)
      return html`<p class="fault" role="alert">
        ${say('The season could not be worked out. The counts are safe; change any cell to try again.')}
      </p>`;
    if (value === undefined) return html`<p class="soft">${say('Working…')}</p>`;
    if (value === null)
      return html`<p class="soft">
        ${say('No sampling days yet: the season begins with the first.')}
      </p>`;
    return this.renderSeason(value);
  }
}

customElements.define('sd-season-trend', SdSeasonTrend);

declare global {
  interface HTMLElementTagNameMap {
    'sd-season-trend': SdSeasonTrend;
  }
}
