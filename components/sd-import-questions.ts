import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Question } from '../src/csv/role.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/** What only the person knows of a list, each asked once. Fires `answered` `{id, value}`. */
export class SdImportQuestions extends LitElement {
  static override properties = { questions: { attribute: false }, answers: { attribute: false } };

  static override styles = [
    ...theme,
    css`
      :host {
        display: grid;
        gap: 12px;
      }

      fieldset {
        margin: 0;
        padding: 10px 14px 12px;
        border: 1px solid var(--accent);
        border-radius: var(--radius);
        background: var(--accent-soft);
      }

      fieldset.done {
        border-color: var(--line);
        background: none;
      }

      legend {
        float: left;
        width: 100%;
        margin-bottom: 6px;
        padding: 0;
        font-weight: 600;
      }

      .choice {
        display: flex;
        clear: both;
        align-items: center;
        min-height: 32px;
      }

      .choice input[type='radio'] {
        flex: none;
      }

      .factor {
        width: 6em;
        margin-left: 8px;
      }

      @media (pointer: coarse) {
        .choice {
          min-height: 44px;
        }
      }
    `,
  ];

  declare questions: readonly Question[];
  declare answers: ReadonlyMap<string, string>;

  constructor() {
    super();
    this.questions = [];
    this.answers = new Map();
  }

  private give(id: string, value: string): void {
    const detail = { id, value };
    this.dispatchEvent(new CustomEvent('answered', { detail, bubbles: true, composed: true }));
  }

  private renderFactor(given: string): TemplateResult {
    return html`
      <label class="choice"
        >${say('Factor the laboratory used')}
        <input
          class="factor"
          inputmode="decimal"
          .value=${given.slice('back:'.length)}
          @change=${(event: Event) => {
            const typed = (event.target as HTMLInputElement).value.trim().replace(',', '.');
            if (/^\d+(\.\d+)?$/.test(typed) && Number(typed) > 0) this.give('epg', `back:${typed}`);
          }}
        />
      </label>
    `;
  }

  private renderQuestion({ id, sentence, choices, usual }: Question): TemplateResult {
    const given = this.answers.get(id) ?? usual ?? '';
    const isBack = given.startsWith('back:');
    return html`
      <fieldset class=${given === '' ? nothing : 'done'}>
        <legend>${sentence}</legend>
        ${choices.map(
          ({ value, label }) => html`
            <label class="choice">
              <input
                type="radio"
                name=${id}
                value=${value}
                .checked=${value === given || (isBack && value.startsWith('back:'))}
                @change=${() => this.give(id, value)}
              />
              ${label}
            </label>
          `,
        )}
        ${isBack ? this.renderFactor(given) : nothing}
      </fieldset>
    `;
  }

  protected override render(): TemplateResult {
    return html`${this.questions.map((question) => this.renderQuestion(question))}`;
  }
}

customElements.define('sd-import-questions', SdImportQuestions);

declare global {
  interface HTMLElementTagNameMap {
    'sd-import-questions': SdImportQuestions;
  }
}
