import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { isFault, type Fault } from '../shared/value.ts';
import { meanSureness, type MeanSureness } from '../src/stats/mean-sureness.ts';
import { AfterPaint } from './after-paint.ts';
import { herdLists, herdReady, isAboutCounts, type HerdLists } from './herd-lists.ts';
import { meanLines, wordingOf, type MeanLine } from './sureness-words.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

interface Worked {
  readonly lists: HerdLists;
  readonly sure: MeanSureness | Fault;
}

/**
 * The limits of the open day's mean epg, of a group or of all animals present: the answer to the question
 * most likely meant in the open, the other one folded. Stands under the mean among the figures.
 *
 *     <sd-mean-limits .group=${null}></sd-mean-limits>
 */
export class SdMeanLimits extends LitElement {
  static override properties = { group: { type: String } };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
        color: var(--soft);
        font-size: var(--size-small);
      }

      p {
        margin: 0;
      }

      b {
        color: var(--ink);
        font-weight: 600;
      }

      summary {
        width: fit-content;
        padding-block: 2px;
        cursor: pointer;
      }

      .pulled {
        margin-top: 4px;
        color: var(--warm);
      }
    `,
  ];

  declare group: string | null;
  private readonly worked = new AfterPaint<Worked | null>(
    this,
    async (session, signal) => {
      await herdReady(session, signal);
      const lists = herdLists(session, this.group);
      if (!lists) return null;
      const { eggs, factors, animals } = lists;
      return { lists, sure: meanSureness(eggs, factors, animals.length) };
    },
    isAboutCounts,
  );

  constructor() {
    super();
    this.group = null;
  }

  protected override updated(changed: ReadonlyMap<PropertyKey, unknown>): void {
    if (changed.has('group') && changed.get('group') !== undefined) this.worked.again();
  }

  private renderLine({ question, figure, rest }: MeanLine, herd: string): TemplateResult {
    return html`<p>
      ${
        question === 'these'
          ? say('95 % limits of the mean of these animals:')
          : say(
              '95 % limits of the mean of the {herd, select, flock {flock} mob {mob} other {herd}} they were drawn from:',
              { herd },
            )
      }
      ${figure === '' ? nothing : html`<b>${figure}</b>, `}${rest}
    </p>`;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { value, session } = this.worked;
    if (!value || !session || isFault(value.sure)) return nothing;
    const wording = wordingOf(session.notebook);
    const { herd } = wording;
    const tagOf = (row: number): string => value.lists.animals[row]?.tag ?? '';
    const { lines, pulled } = meanLines(value.sure, tagOf, wording);
    const [first, ...others] = lines;
    if (!first) return nothing;
    const left = value.lists.tooMany.map(({ tag }) => tag).join(', ');
    return html`
      ${this.renderLine(first, herd)}
      ${left === '' ? nothing : html`<p>${say('at least that: {tags}, too many to count, left out', { tags: left })}</p>`}
      <details>
        <summary>
          ${first.question === 'these' ? say('If they stand for a larger {herd, select, flock {flock} mob {mob} other {herd}}', { herd }) : say('For these animals alone')}
        </summary>
        ${others.map((line) => this.renderLine(line, herd))}
      </details>
      ${pulled === null ? nothing : html`<p class="pulled">${pulled}</p>`}
    `;
  }
}

customElements.define('sd-mean-limits', SdMeanLimits);

declare global {
  interface HTMLElementTagNameMap {
    'sd-mean-limits': SdMeanLimits;
  }
}
