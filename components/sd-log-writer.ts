import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { groupOn, presentAnimals } from '../src/notebook/present.ts';
import { animalOf, dayOf } from '../src/notebook/read.ts';
import { animalsNamed } from '../src/treating/animals-named.ts';
import { formStyles } from './form-styles.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-dose-round.ts';
import { say } from '../src/text/say.ts';

/** Chooses animals by their tags or a whole group, for a treatment that no list led to, and hands them to a round of doses. */
export class SdLogWriter extends LitElement {
  static override properties = { text: { state: true }, said: { state: true } };

  static override styles = [
    ...theme,
    formStyles,
    css`
      .field {
        margin-bottom: 8px;
      }

      .groups {
        display: flex;
        flex-wrap: wrap;
        gap: 6px;
        margin-bottom: 4px;
      }

      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  declare private text: string;
  /** What to say of the round written last. */
  declare private said: readonly string[];
  private readonly day = new Select(this, (session) => session.openDay);

  constructor() {
    super();
    this.text = '';
    this.said = [];
  }

  private groups(): readonly (readonly [name: string, tags: readonly string[]])[] {
    const { session, value: day } = this.day;
    if (!session || !day) return [];
    const date = dayOf(session.notebook, day)?.date ?? '';
    const tags = new Map<string, string[]>();
    for (const { id } of presentAnimals(session.notebook, day)) {
      const group = groupOn(session.notebook, id, date);
      const tag = animalOf(session.notebook, id)?.tag;
      if (group === undefined || tag === undefined) continue;
      const ofGroup = tags.get(group);
      if (ofGroup) ofGroup.push(tag);
      else tags.set(group, [tag]);
    }
    return [...tags];
  }

  protected override render(): TemplateResult | typeof nothing {
    const { session } = this.day;
    if (!session) return nothing;
    const named = animalsNamed(session.notebook, this.text);
    return html`
      <label class="field">
        ${say('Tags, with commas between')}
        <textarea
          rows="2"
          .value=${this.text}
          @change=${(event: Event) => {
            this.text = (event.target as HTMLTextAreaElement).value;
          }}
        ></textarea>
      </label>
      <div class="groups" role="group" aria-label=${say('Take a whole group')}>
        ${this.groups().map(
          ([name, tags]) =>
            html`<button
              @click=${() => {
                this.text = tags.join(', ');
              }}
            >
              ${say('All {n} {group}', { n: tags.length, group: name })}
            </button>`,
        )}
      </div>
      ${named.sentence === '' ? nothing : html`<p class="fault small" role="alert">${named.sentence}</p>`}
      ${
        named.animals.length === 0
          ? nothing
          : html`<sd-dose-round
              .animals=${named.animals}
              @round-written=${(event: CustomEvent<{ warnings: readonly string[] }>) => {
                this.text = '';
                this.said = event.detail.warnings;
              }}
            ></sd-dose-round>`
      }
      <div class="small" role="status">
        ${this.said.map((words) => html`<p class="fault">${words}</p>`)}
      </div>
    `;
  }
}

customElements.define('sd-log-writer', SdLogWriter);

declare global {
  interface HTMLElementTagNameMap {
    'sd-log-writer': SdLogWriter;
  }
}
