import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { ImportPlan, ImportProblem, PlannedDay } from '../src/csv/import-plan.ts';
import { writeTable } from '../src/csv/write-table.ts';
import { dayWords } from '../src/text/day-words.ts';
import { downloadText } from './download.ts';
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
        ${
          known > 0
            ? say(
                '{fresh, plural, one {# new animal} other {# new animals}}, {known, plural, one {# known one} other {# known ones}}',
                { fresh: fresh.length, known },
              )
            : say('{fresh, plural, one {# new animal} other {# new animals}}', {
                fresh: fresh.length,
              })
        }
        ${
          tags.length > 0
            ? html`<div class="small soft">
                ${
                  more > 0
                    ? say('New: {tags} and {more} more', { tags: tags.join(' · '), more })
                    : say('New: {tags}', { tags: tags.join(' · ') })
                }
              </div>`
            : nothing
        }
      </dd>
    `;
  }

  private renderDays({ days }: ImportPlan): TemplateResult | typeof nothing {
    if (days.length === 0) return nothing;
    return html`
      <dt>
        ${say('{days, plural, one {Sampling day} other {Sampling days}}', { days: days.length })}
      </dt>
      <dd>${days.map(plannedDayWords).join(', ')}</dd>
    `;
  }

  private renderReadings(plan: ImportPlan): TemplateResult {
    return html`
      <dt>${say('Values')}</dt>
      <dd>
        ${say(
          '{values, plural, one {# value} other {# values}} to take{kept, plural, =0 {} other {, # of them kept as typed}}{same, plural, =0 {} one {; # is there already} other {; # are there already}}',
          { values: plan.count, kept: plan.countKept, same: plan.countSame },
        )}
        ${
          plan.countAdded > 0
            ? html`<div class="small soft">
                ${say(
                  '{added, plural, one {With # factor or zero that goes with the counts} other {With # factors and zeros that go with the counts}}',
                  { added: plan.countAdded },
                )}
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
                  ${say(
                    '{cups, plural, one {# cup of its own, not an animal’s row} other {# cups of their own, not an animal’s row}}',
                    { cups },
                  )}
                </dd>`
            : nothing
        }
      </dl>
      ${this.renderKind('left out', (n) => say('{n, plural, one {# left out} other {# left out}}', { n }), true)}
      ${this.renderKind('kept as typed', (n) => say('{n, plural, one {# kept as typed, in no figure} other {# kept as typed, in no figure}}', { n }))}
      ${this.renderKind('look', (n) => say('{n, plural, one {# to have a look at} other {# to have a look at}}', { n }))}
    `;
  }
}

function plannedDayWords({ date, label, isNew }: PlannedDay): string {
  const day = dayWords({ date, label });
  return isNew ? say('{day} (new)', { day }) : day;
}

customElements.define('sd-import-findings', SdImportFindings);

declare global {
  interface HTMLElementTagNameMap {
    'sd-import-findings': SdImportFindings;
  }
}
