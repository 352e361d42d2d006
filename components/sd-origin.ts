import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { columnByKey, columnOf, dayOf, markOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { isFault } from '../shared/value.ts';
import { aggregationByMoments } from '../src/stats/aggregation.ts';
import { outcomeOf } from '../src/notebook/outcome.ts';
import { functionCard, helpCardStyles } from './help-card.ts';
import type { NamedValues } from './figure-origin.ts';
import { figureText } from './figure-text.ts';
import { herdLists } from './herd-lists.ts';
import { originOf, type Origin, type OriginTarget } from './origin-of.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-mean-limits.ts';
import './sd-shedder-note.ts';
import './sd-sheet.ts';
import type { SdSheet } from './sd-sheet.ts';
import './sd-sureness.ts';
import { say, sayParts } from '../src/text/say.ts';

/**
 * Where a number comes from: its formula, the same with the values used, n of N, how sure it is, and what
 * each function does with its source. A name that was itself worked out leads on to where it comes from.
 */
export class SdOrigin extends LitElement {
  static override properties = {
    trail: { state: true },
    origin: { state: true },
  };

  static override styles = [
    ...theme,
    helpCardStyles,
    css`
      .answer {
        margin: 0 0 2px;
        font-size: 1.5rem;
        font-weight: 600;
      }

      .formula {
        display: grid;
        gap: 4px;
        margin: 12px 0;
        padding: 10px 12px;
        border-radius: var(--radius);
        background: var(--sunk);
        overflow-wrap: anywhere;
      }

      .formula p {
        margin: 0;
      }

      h3 {
        margin: 18px 0 6px;
      }

      table {
        width: 100%;
        border-collapse: collapse;
      }

      th,
      td {
        padding: 4px 12px 4px 0;
        border-bottom: 1px solid var(--line);
        font-weight: 400;
        text-align: left;
        vertical-align: baseline;
      }

      td:last-child {
        padding-right: 0;
        text-align: right;
      }

      th button {
        min-height: var(--control);
        margin-left: -10px;
        color: var(--accent);
      }

      .values {
        columns: 9em;
        margin: 6px 0 0;
        padding: 0;
        font-size: var(--size-small);
        list-style: none;
      }

      .values li {
        display: flex;
        justify-content: space-between;
        gap: 8px;
        padding-right: 12px;
      }

      .card + .card {
        margin-top: 14px;
      }
    `,
  ];

  /** What was asked for, and what it led on to; the last one is shown. */
  declare private trail: readonly OriginTarget[];
  declare private origin: Origin | null;
  private readonly heard = new Select(this, (session) => session, { when: () => true });
  private asked = 0;

  constructor() {
    super();
    this.trail = [];
    this.origin = null;
  }

  /** Says what the next `open` is about. */
  show(target: OriginTarget): void {
    this.trail = [target];
    this.origin = null;
    void this.work();
  }

  async open(): Promise<void> {
    await this.updateComplete;
    await this.sheet?.open();
  }

  private get sheet(): SdSheet | null {
    return this.renderRoot.querySelector('sd-sheet');
  }

  private async work(): Promise<void> {
    await this.updateComplete;
    const { session } = this.heard;
    const target = this.trail.at(-1);
    const asked = ++this.asked;
    if (!session || !target) return;
    const origin = await originOf(session, target);
    if (asked === this.asked) this.origin = origin;
  }

  private follow(target: OriginTarget): void {
    this.trail = [...this.trail, target];
    void this.work();
  }

  private back(): void {
    this.trail = this.trail.slice(0, -1);
    void this.work();
  }

  private renderInputs({ inputs }: Origin): TemplateResult | typeof nothing {
    if (inputs.length === 0) return nothing;
    return html`<h3>${say('What went in')}</h3>
      <table>
        <tbody>
          ${inputs.map(
            ({ key, label, text, target }) =>
              html`<tr>
                <th scope="row">
                  ${
                    target
                      ? html`<button class="quiet" @click=${() => this.follow(target)}>
                          <code>${key}</code>
                        </button>`
                      : html`<code>${key}</code>`
                  }
                </th>
                <td>${label}</td>
                <td>${text}</td>
              </tr>`,
          )}
        </tbody>
      </table>`;
  }

  private renderList({ name, values, missing }: NamedValues): TemplateResult {
    const filling = { name: html`<code>${name}</code>`, n: values.length, missing };
    return html`<details>
      <summary>
        ${
          missing === 0
            ? sayParts('{name}: {n, plural, one {# value} other {# values}}', filling)
            : sayParts(
                '{name}: {n, plural, one {# value} other {# values}}, {missing} present without one left out',
                filling,
              )
        }
      </summary>
      <ul class="values">
        ${values.map(({ tag, text }) => html`<li><span>${tag}</span> <span>${text}</span></li>`)}
      </ul>
    </details>`;
  }

  /** What stands beside certain figures: how sure they are, and what luck alone would show. */
  private renderSureness(session: Session, { functions }: Origin): TemplateResult | typeof nothing {
    const target = this.trail.at(-1);
    if (!target) return nothing;
    if (target.kind === 'figure') {
      const { group } = target;
      return html`${
        functions.includes('HERDMEAN')
          ? html`<sd-mean-limits .group=${group}></sd-mean-limits>`
          : nothing
      }
      ${
        functions.includes('SHEDDERSHARE')
          ? html`<sd-shedder-note .group=${group}></sd-shedder-note>`
          : nothing
      }
      ${functions.includes('AGGREGATION') ? this.renderMoments(session, group) : nothing}`;
    }
    const isSure = ['eggs', 'factor', 'epg', 'epg_low', 'epg_high', 'agree'].some(
      (key) => columnByKey(session.notebook, key)?.id === target.column,
    );
    return isSure
      ? html`<h3>${say('How sure this count is')}</h3>
          <sd-sureness .row=${target.row}></sd-sureness>`
      : nothing;
  }

  /** The quick form of k beside the one by maximum likelihood. */
  private renderMoments(session: Session, group: string | null): TemplateResult | typeof nothing {
    const k = aggregationByMoments(herdLists(session, group)?.eggs ?? []);
    if (isFault(k)) return nothing;
    const mark = markOf(session.notebook);
    return html`<p class="small soft">
      ${say('By moments of the raw counts: {k}.', { k: figureText(k, 2, mark) })}
    </p>`;
  }

  /** An outcome comes from the day's criteria, each with how it stands for this animal. */
  private renderCriteria(session: Session): TemplateResult | typeof nothing {
    const target = this.trail.at(-1);
    const { notebook, openDay, engine } = session;
    if (target?.kind !== 'cell' || openDay === null) return nothing;
    if (columnOf(notebook, target.column)?.kind !== 'outcome') return nothing;
    const answers = engine.criteria(target.row);
    const criteria = dayOf(notebook, openDay)?.criteria ?? [];
    const { kind } = outcomeOf(notebook, openDay, answers);
    const labels = (keys: readonly string[]): string =>
      keys.map((key) => columnByKey(notebook, key)?.label ?? key).join(', ');
    return html`<p class="answer">
        ${{ over: say('over your criteria'), below: say('below your criteria'), 'not enough known': say('not enough known') }[kind]}
      </p>
      <table>
        <tbody>
          ${answers.map(({ criterion, holds, lacking }) => {
            const reason = criteria.find(({ id }) => id === criterion)?.reason ?? criterion;
            const unknown =
              lacking.length === 0
                ? say('not judged')
                : say('{labels} not known', { labels: labels(lacking) });
            return html`<tr>
              <th scope="row">${reason}</th>
              <td>${holds === null ? unknown : holds ? say('holds') : say('does not hold')}</td>
            </tr>`;
          })}
        </tbody>
      </table>`;
  }

  private renderOrigin(session: Session, origin: Origin): TemplateResult {
    const { formula, withValues, answer, typed, functions } = origin;
    const isOutcome = this.isOutcome(session);
    return html`
      <p class="soft small">${origin.day}${origin.ofN === null ? '' : `, ${origin.ofN}`}</p>
      ${isOutcome ? this.renderCriteria(session) : html`<p class="answer">${answer}</p>`}
      ${typed === null ? nothing : html`<p>${sayParts('Typed: {text}', { text: html`<b>${typed}</b>` })}</p>`}
      ${
        formula === null
          ? nothing
          : html`<div class="formula code">
              <p>= ${formula}</p>
              ${
                withValues === null || withValues === formula
                  ? nothing
                  : html`<p>= ${withValues}</p>`
              }
            </div>`
      }
      ${origin.help === '' ? nothing : html`<p class="soft">${origin.help}</p>`}
      ${this.renderInputs(origin)} ${origin.lists.map((list) => this.renderList(list))}
      ${this.renderSureness(session, origin)}
      ${
        functions.length === 0
          ? nothing
          : html`<h3>${say('Method and source')}</h3>
              ${functions.map((name) => functionCard(name))}`
      }
      ${
        this.trail.length < 2
          ? nothing
          : html`<div class="actions"><button @click=${this.back}>${say('Back')}</button></div>`
      }
    `;
  }

  private isOutcome({ notebook }: Session): boolean {
    const target = this.trail.at(-1);
    return target?.kind === 'cell' && columnOf(notebook, target.column)?.kind === 'outcome';
  }

  protected override render(): TemplateResult {
    const { session } = this.heard;
    const { origin } = this;
    return html`<sd-sheet heading=${origin?.heading ?? say('Where this number comes from')}>
      ${
        session && origin
          ? this.renderOrigin(session, origin)
          : html`<p class="soft">
              ${say('Open a sampling day to see where its figures come from.')}
            </p>`
      }
    </sd-sheet>`;
  }
}

customElements.define('sd-origin', SdOrigin);

declare global {
  interface HTMLElementTagNameMap {
    'sd-origin': SdOrigin;
  }
}
