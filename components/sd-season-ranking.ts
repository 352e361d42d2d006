import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { SeasonLine } from '../src/treating/season-line.ts';
import { figureText } from './figure-text.ts';
import { plotBlockStyles } from './plot-block-styles.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/** Rows shown before "Show all". */
const FEW = 8;

/**
 * The animals by the mean of their ordinary counts over the season, with how many days that rests on;
 * highest first, or lowest first for choosing whom to keep. It knows no session: the lines are handed in.
 */
export class SdSeasonRanking extends LitElement {
  static override properties = {
    lines: { attribute: false },
    mark: { attribute: false },
    isLowestFirst: { state: true },
    isAll: { state: true },
  };

  static override styles = [
    ...theme,
    plotBlockStyles,
    css`
      .order {
        display: flex;
        flex-wrap: wrap;
        gap: 8px;
        align-items: center;
        margin-bottom: 6px;
      }

      .order button {
        min-height: 36px;
        padding-inline: 10px;
        font-size: var(--size-small);
      }

      @media (pointer: coarse) {
        .order button {
          min-height: 44px;
        }
      }

      tbody th {
        color: var(--ink);
      }

      .rank,
      th.tag {
        text-align: left;
      }

      .rank {
        width: 3.5em;
        padding-left: 0;
        color: var(--soft);
      }

      @media print {
        button {
          display: none;
        }
      }
    `,
  ];

  /** Highest first, as `seasonRanking` gives them. */
  declare lines: readonly SeasonLine[];
  declare mark: '.' | ',';
  declare private isLowestFirst: boolean;
  declare private isAll: boolean;

  constructor() {
    super();
    this.lines = [];
    this.mark = '.';
    this.isLowestFirst = false;
    this.isAll = false;
  }

  private renderRow(
    { tag, mean, line, apart, daysPresent }: SeasonLine,
    rank: number,
  ): TemplateResult {
    return html`<tr>
      <td class="rank">${rank}</td>
      <th scope="row" class="tag">${tag}</th>
      <td>${mean === null ? '–' : figureText(mean, 0, this.mark)}</td>
      <td>
        ${say('{counts} of {days}', { counts: line.length, days: daysPresent })}${apart.length === 0 ? nothing : html`<small> ${say('+ {n} after treatment', { n: apart.length })}</small>`}
      </td>
    </tr>`;
  }

  protected override render(): TemplateResult {
    const { lines, isLowestFirst } = this;
    if (lines.length === 0)
      return html`<p class="soft small">${say('No animal has an ordinary count yet.')}</p>`;
    const ranked = lines.map((line, i) => ({ line, rank: i + 1 }));
    const ordered = isLowestFirst ? ranked.reverse() : ranked;
    const shown = this.isAll ? ordered : ordered.slice(0, FEW);
    return html`
      <div class="order">
        <button
          aria-pressed=${isLowestFirst ? 'false' : 'true'}
          @click=${() => (this.isLowestFirst = false)}
        >
          ${say('Highest first')}
        </button>
        <button
          aria-pressed=${isLowestFirst ? 'true' : 'false'}
          @click=${() => (this.isLowestFirst = true)}
        >
          ${say('Lowest first')}
        </button>
        <span class="soft small">${say('A mean of one or two days says little.')}</span>
      </div>
      <table>
        <thead>
          <tr>
            <th scope="col" class="rank">${say('rank')}</th>
            <th scope="col" class="tag">${say('animal')}</th>
            <th scope="col">${say('mean epg')}</th>
            <th scope="col">${say('counts of days here')}</th>
          </tr>
        </thead>
        <tbody>
          ${shown.map(({ line, rank }) => this.renderRow(line, rank))}
        </tbody>
      </table>
      ${
        lines.length <= FEW
          ? nothing
          : html`<button
              class="quiet"
              aria-expanded=${this.isAll ? 'true' : 'false'}
              @click=${() => (this.isAll = !this.isAll)}
            >
              ${this.isAll ? say('Show {n}', { n: FEW }) : say('Show all {n}', { n: lines.length })}
            </button>`
      }
    `;
  }
}

customElements.define('sd-season-ranking', SdSeasonRanking);

declare global {
  interface HTMLElementTagNameMap {
    'sd-season-ranking': SdSeasonRanking;
  }
}
