import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { ImportPlan, ImportProblem } from '../src/csv/import-plan.ts';
import { writeTable } from '../src/csv/write-table.ts';
import { showDayId } from '../src/text/day-id.ts';
import { downloadText } from './download.ts';
import { countWords } from './import-words.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/** Lines shown of each kind of finding; the rest can be saved as a file. */
const most = 100;

/** What an import would do: animals, days, values, and every line that needs a look. */
export class SdImportFindings extends LitElement {
  static override properties = { plan: { attribute: false } };

  static override styles = [
    ...theme,
    css`
      :host {
        display: grid;
        gap: 10px;
      }

      dl {
        display: grid;
        grid-template-columns: max-content minmax(0, 1fr);
        gap: 4px 16px;
        margin: 0;
      }

      dt {
        color: var(--soft);
      }

      dd {
        margin: 0;
        overflow-wrap: anywhere;
      }

      details {
        border-left: 3px solid var(--line-strong);
        padding-left: 12px;
      }

      details.warm {
        border-color: var(--warm);
      }

      summary {
        min-height: var(--control);
        padding: 6px 0;
        font-weight: 600;
        cursor: pointer;
      }

      .warm summary {
        color: var(--warm);
      }

      ul {
        max-height: 15em;
        margin: 0 0 8px;
        padding-left: 1.1em;
        overflow: auto;
        font-size: var(--size-small);
      }

      li {
        overflow-wrap: anywhere;
      }

      .text {
        font-family: var(--font-code);
        white-space: pre-wrap;
      }
    `,
  ];

  declare plan: ImportPlan | null;

  constructor() {
    super();
    this.plan = null;
  }

  private save(): void {
    const rows = (this.plan?.problems ?? []).map(({ line, what, text, sentence }) => [
      line,
      what,
      text,
      sentence,
    ]);
    const table = writeTable([['line', 'what', 'text', 'why'], ...rows], { style: 'comma' });
    downloadText(say('what to look at.csv'), table, 'text/csv;charset=utf-8');
  }

  private renderKind(
    what: ImportProblem['what'],
    title: (count: number) => string,
    isWarm = false,
  ): TemplateResult | typeof nothing {
    const found = (this.plan?.problems ?? []).filter((problem) => problem.what === what);
    if (found.length === 0) return nothing;
    return html`
      <details class=${isWarm ? 'warm' : nothing} ?open=${found.length <= 12}>
        <summary>${title(found.length)}</summary>
        <ul>
          ${found
            .slice(0, most)
            .map(
              ({ sentence, text }) =>
                html`<li>
                  ${sentence}
                  ${
                    what === 'left out' && text !== '' && !sentence.includes(text)
                      ? html`<span class="text">${text}</span>`
                      : nothing
                  }
                </li>`,
            )}
        </ul>
        ${
          found.length > most
            ? html`<p class="small">
                ${say('The first {most} are shown.', { most })}
                <button class="quiet" @click=${this.save}>
                  ${say('Save all of them as a file')}
                </button>
              </p>`
            : nothing
        }
      </details>
    `;
  }

  private renderAnimals(plan: ImportPlan): TemplateResult {
    const fresh = plan.animals.filter(({ isNew }) => isNew);
    const known = plan.animals.length - fresh.length;
    const tags = fresh.slice(0, 30).map(({ tag }) => tag);
    const more = fresh.length - tags.length;
    return html`
      <dt>${say('Animals')}</dt>
      <dd>
        ${countWords(fresh.length, say('new animal'))}${known > 0 ? `, ${countWords(known, say('known one'))}` : ''}
        ${
          tags.length > 0
            ? html`<div class="small soft">
                ${say('New: {tags}{it}', { tags: tags.join(' · '), it: more > 0 ? say(' and {more} more', { more }) : '' })}
              </div>`
            : nothing
        }
      </dd>
    `;
  }

  private renderDays({ days }: ImportPlan): TemplateResult | typeof nothing {
    if (days.length === 0) return nothing;
    return html`
      <dt>${days.length === 1 ? say('Sampling day') : say('Sampling days')}</dt>
      <dd>${days.map(({ id, isNew }) => `${showDayId(id)}${isNew ? ' (new)' : ''}`).join(', ')}</dd>
    `;
  }

  private renderReadings(plan: ImportPlan): TemplateResult {
    const kept =
      plan.countKept > 0
        ? say(', {countKept} of them kept as typed', { countKept: plan.countKept })
        : '';
    const same =
      plan.countSame > 0
        ? say('; {countSame} are there already', { countSame: plan.countSame })
        : '';
    return html`
      <dt>${say('Values')}</dt>
      <dd>
        ${say('{countWords} to take{kept}{same}', { countWords: countWords(plan.count, 'value'), kept, same })}
        ${
          plan.countAdded > 0
            ? html`<div class="small soft">
                ${say('With {countWords} that go with the counts', { countWords: countWords(plan.countAdded, say('factor or zero'), say('factors and zeros')) })}
              </div>`
            : nothing
        }
      </dd>
    `;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { plan } = this;
    if (!plan) return nothing;
    const cups = plan.cups.length;
    return html`
      <dl>
        ${this.renderAnimals(plan)} ${this.renderDays(plan)} ${this.renderReadings(plan)}
        ${
          cups > 0
            ? html`<dt>${say('Cups')}</dt>
                <dd>
                  ${say('{countWords} of their own, not an animal’s row', { countWords: countWords(cups, 'cup') })}
                </dd>`
            : nothing
        }
      </dl>
      ${this.renderKind('left out', (n) => say('{n} left out', { n }), true)}
      ${this.renderKind('kept as typed', (n) => say('{n} kept as typed, in no figure', { n }))}
      ${this.renderKind('look', (n) => say('{n} to have a look at', { n }))}
    `;
  }
}

customElements.define('sd-import-findings', SdImportFindings);

declare global {
  interface HTMLElementTagNameMap {
    'sd-import-findings': SdImportFindings;
  }
}
