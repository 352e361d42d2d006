import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { isFault } from '../shared/value.ts';
import { daysOf } from '../src/notebook/read.ts';
import { dayId } from '../src/text/day-id.ts';
import { dayWords } from '../src/text/day-words.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/** The sampling day of a list that names none: one there is, or a new one. Fires `day-chosen` `{day}`. */
export class SdImportDay extends LitElement {
  static override properties = { day: { attribute: false }, isNew: { state: true } };

  static override styles = [
    ...theme,
    css`
      fieldset {
        display: flex;
        flex-wrap: wrap;
        align-items: end;
        gap: 10px 14px;
        margin: 0;
        padding: 10px 14px 12px;
        border: 1px solid var(--line);
        border-radius: var(--radius);
      }

      fieldset.open {
        border-color: var(--accent);
        background: var(--accent-soft);
      }

      legend {
        float: left;
        width: 100%;
        padding: 0;
        font-weight: 600;
      }

      input[name='label'] {
        width: 9em;
      }
    `,
  ];

  declare day: string | null;
  declare private isNew: boolean;
  private readonly days = new Select(this, (session) => daysOf(session.notebook));
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.day = null;
    this.isNew = false;
  }

  private choose(day: string | null): void {
    const detail = { day };
    this.dispatchEvent(new CustomEvent('day-chosen', { detail, bubbles: true, composed: true }));
  }

  private onSelect(event: Event): void {
    const { value } = event.target as HTMLSelectElement;
    this.isNew = value === 'new';
    if (this.isNew) void this.updateComplete.then(() => this.onNew());
    else this.choose(value === '' ? null : value);
  }

  private onNew(): void {
    const of = (name: string): string =>
      this.renderRoot.querySelector<HTMLInputElement>(`[name="${name}"]`)?.value ?? '';
    const id = dayId(of('date'), of('label'));
    this.choose(isFault(id) ? null : id);
  }

  protected override render(): TemplateResult {
    const days = [...(this.days.value ?? [])].reverse();
    return html`
      <fieldset class=${this.day === null ? 'open' : nothing}>
        <legend>${say('Values of this list name no day. Which sampling day are they of?')}</legend>
        <label class="field"
          >${say('Day')}
          <select @change=${this.onSelect}>
            <option value="" .selected=${this.day === null && !this.isNew}>${say('choose')}</option>
            ${days.map(
              (day) =>
                html`<option value=${day.id} .selected=${day.id === this.day && !this.isNew}>
                  ${dayWords(day)}
                </option>`,
            )}
            <option value="new" .selected=${this.isNew}>${say('a new day')}</option>
          </select>
        </label>
        ${
          this.isNew
            ? html`
                <label class="field"
                  >${say('Date')}
                  <input
                    name="date"
                    type="date"
                    .defaultValue=${this.services.value?.today() ?? ''}
                    @change=${this.onNew}
                  />
                </label>
                <label class="field"
                  >${say('Label, if need be')}
                  <input
                    name="label"
                    autocomplete="off"
                    placeholder=${say('evening')}
                    @change=${this.onNew}
                  />
                </label>
              `
            : nothing
        }
      </fieldset>
    `;
  }
}

customElements.define('sd-import-day', SdImportDay);

declare global {
  interface HTMLElementTagNameMap {
    'sd-import-day': SdImportDay;
  }
}
