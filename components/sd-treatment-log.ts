import { ContextConsumer } from '@lit/context';
import { LitElement, html, nothing, type TemplateResult } from 'lit';
import { keyed } from 'lit/directives/keyed.js';
import type { Notebook } from '../shared/notebook.ts';
import { markOf, treatmentsOf } from '../src/notebook/read.ts';
import { CLEAR_DATE_CAUTIONS } from '../src/treating/cautions.ts';
import type { Clear } from '../src/treating/clear-date.ts';
import { treatmentLog, type LogLine } from '../src/treating/treatment-log.ts';
import { clearWords } from './clear-words.ts';
import { dayWords } from '../src/text/day-words.ts';
import { figureText } from './figure-text.ts';
import { logStyles } from './log-styles.ts';
import { notClearOn } from './not-clear.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { showHistory } from './show-history.ts';
import { theme } from './theme.ts';
import './sd-follow-ups.ts';
import './sd-log-writer.ts';
import './sd-tag-line.ts';
import './sd-treatment-line.ts';
import { dateWords } from '../src/text/date-words.ts';
import { BeforePrint } from './before-print.ts';
import { say } from '../src/text/say.ts';

/** Lines shown before "Show all". */
const few = 60;

/**
 * The treatment log: who got what and when, by whom, and when meat and milk are clear; what is not clear today, and
 * what follows. Each line can be put right or taken off; undo brings it back.
 */
export class SdTreatmentLog extends LitElement {
  static override properties = {
    blockId: { type: String },
    find: { state: true },
    editing: { state: true },
    isWriting: { state: true },
    isWhole: { state: true },
    said: { state: true },
  };

  static override styles = [...theme, logStyles];

  declare blockId: string;
  declare private find: string;
  declare private editing: string;
  declare private isWriting: boolean;
  declare private isWhole: boolean;
  declare private said: readonly string[];
  private readonly treatments = new Select(this, (session) => treatmentsOf(session.notebook));
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.blockId = '';
    this.find = '';
    this.editing = '';
    this.isWriting = false;
    this.isWhole = false;
    this.said = [];
    new Select(this, (session) => session.notebook.products);
    new Select(this, (session) => session.notebook.animals);
    new BeforePrint(this, () => {
      this.isWhole = true;
      this.performUpdate();
    });
  }

  private async done(id: string, warnings: readonly string[]): Promise<void> {
    this.editing = '';
    this.said = warnings;
    await this.updateComplete;
    const line = this.renderRoot.querySelector<HTMLElement>(`[data-change="${CSS.escape(id)}"]`);
    (line ?? this.renderRoot.querySelector('input'))?.focus();
  }

  private renderLine(line: LogLine, mark: '.' | ','): TemplateResult {
    const { treatment, tag, meat, milk } = line;
    const { id, doseMl, weightKg, animal = '', vet } = treatment;
    const number = (value: number): string => figureText(value, undefined, mark);
    const dose =
      doseMl === undefined ? say('no dose noted') : say('{ml} mL', { ml: number(doseMl) });
    const kg = weightKg === undefined ? '' : ` (${number(weightKg)} kg)`;
    const isEditing = this.editing === id;
    return html`
      <li>
        <div class="line">
          <button
            class="quiet tag"
            aria-label=${say('History of {tag}', { tag })}
            @click=${() => showHistory(this, animal)}
          >
            ${tag}
          </button>
          <span class="small">${dose}${kg}</span>
          <span class="clear">${bothClear(meat, milk)}</span>
          <button
            class="quiet change"
            data-change=${id}
            aria-expanded=${isEditing ? 'true' : 'false'}
            aria-label=${say('Change the treatment of {tag} on {date}', { tag, date: dateWords(treatment.date ?? '') })}
            @click=${() => {
              this.editing = isEditing ? '' : id;
              this.said = [];
            }}
          >
            ${say('Change')}
          </button>
        </div>
        ${vet === undefined ? nothing : html`<p class="note">${say('By the dose of {vet}.', { vet })}</p>`}
        ${treatment.note ? html`<p class="note">${treatment.note}</p>` : nothing}
        ${
          isEditing
            ? keyed(
                id,
                html`<sd-treatment-line
                  .treatmentId=${id}
                  @line-done=${(event: CustomEvent<{ warnings: readonly string[] }>) =>
                    this.done(id, event.detail.warnings)}
                ></sd-treatment-line>`,
              )
            : nothing
        }
      </li>
    `;
  }

  /** Lines of one date, time, product, route and person, under one heading. */
  private renderRounds(lines: readonly LogLine[], mark: '.' | ','): readonly TemplateResult[] {
    const rounds = new Map<string, LogLine[]>();
    for (const line of lines) {
      const { date = '', time = '', product, by = '', route = '' } = line.treatment;
      const key = [date, time, product, by, route].join('\n');
      rounds.set(key, [...(rounds.get(key) ?? []), line]);
    }
    return [...rounds.values()].map((round) => {
      const [first] = round;
      const { date = '', time, by, route } = first?.treatment ?? {};
      const words = [first?.productName, route, by && say('by {by}', { by })]
        .filter(Boolean)
        .join(', ');
      const when = `${dayWords({ date })}${time ? `, ${time}` : ''}`;
      return html`
        <h3 class="round">${when}: ${words}</h3>
        <ul>
          ${round.map((line) => this.renderLine(line, mark))}
        </ul>
      `;
    });
  }

  private renderNotClear(notebook: Notebook, today: string): TemplateResult | typeof nothing {
    const groups = notClearOn(notebook, today);
    if (groups.length === 0) return nothing;
    return html`
      <h3>${say('Not clear on {day}', { day: dayWords({ date: today }) })}</h3>
      <ul aria-label=${say('Not clear')}>
        ${groups.map(
          ({ sentence, tags }) =>
            html`<li class="small">
              <span class="fault">${sentence}</span> <sd-tag-line .tags=${tags}></sd-tag-line>
            </li>`,
        )}
      </ul>
    `;
  }

  private renderTools(): TemplateResult {
    return html`
      <div class="tools">
        <label class="field">
          ${say('Find by part of the tag')}
          <input
            type="search"
            autocomplete="off"
            .value=${this.find}
            @input=${(event: Event) => {
              this.find = (event.target as HTMLInputElement).value;
            }}
          />
        </label>
        <button
          aria-expanded=${this.isWriting ? 'true' : 'false'}
          @click=${() => {
            this.isWriting = !this.isWriting;
          }}
        >
          ${say('Write down a treatment')}
        </button>
      </div>
      ${this.isWriting ? html`<sd-log-writer class="write"></sd-log-writer>` : nothing}
    `;
  }

  private renderLog(notebook: Notebook): TemplateResult {
    const part = this.find.trim().toLowerCase();
    const lines = treatmentLog(notebook).filter(({ tag }) => tag.toLowerCase().includes(part));
    const shown = this.isWhole ? lines : lines.slice(0, few);
    const mark = markOf(notebook);
    if (treatmentsOf(notebook).length === 0)
      return html`<p class="soft">
        ${say('Nothing in the log yet. Tick animals in the treatment list and dose them there, or write down a treatment here.')}
      </p>`;
    return html`
      ${lines.length === 0 ? html`<p class="soft">${say('No treatment of such a tag.')}</p>` : nothing}
      ${this.renderRounds(shown, mark)}
      ${
        shown.length < lines.length
          ? html`<button
              class="quiet change"
              @click=${() => {
                this.isWhole = true;
              }}
            >
              ${say('Show all {n}', { n: lines.length })}
            </button>`
          : nothing
      }
      <div class="cautions">${CLEAR_DATE_CAUTIONS.map((words) => html`<p>${words}</p>`)}</div>
    `;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { session } = this.treatments;
    if (!session) return nothing;
    const { notebook } = session;
    const today = this.services.value?.today();
    return html`
      ${this.renderTools()}
      ${
        this.said.length > 0
          ? html`<div class="small" role="status">
              ${this.said.map((words) => html`<p class="fault">${words}</p>`)}
            </div>`
          : nothing
      }
      ${today === undefined ? nothing : this.renderNotClear(notebook, today)}
      ${this.renderLog(notebook)}
      ${
        (this.treatments.value ?? []).length > 0
          ? html`<sd-follow-ups .blockId=${this.blockId}></sd-follow-ups>`
          : nothing
      }
    `;
  }
}

function bothClear(meat: Clear, milk: Clear): string {
  if (meat.kind === 'ask' && milk.kind === 'ask') return clearWords(meat);
  return say('meat {meat}; milk {milk}', { meat: clearWords(meat), milk: clearWords(milk) });
}

customElements.define('sd-treatment-log', SdTreatmentLog);

declare global {
  interface HTMLElementTagNameMap {
    'sd-treatment-log': SdTreatmentLog;
  }
}
