import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Protocol } from '../shared/notebook.ts';
import { isFault, type Fault } from '../shared/value.ts';
import { changeDayCopy, type Reach } from '../src/notebook/edit-days.ts';
import { dayOf, defaultsOf, markOf } from '../src/notebook/read.ts';
import { factorSum, type FactorSum, type Sample } from '../src/notebook/factor-sum.ts';
import { parseNumber, writeNumber, type DecimalMark } from '../src/text/decimal-text.ts';
import { notKept } from './not-kept.ts';
import { reachField } from './reach-field.ts';
import { reachWords } from './reach-words.ts';
import { Select } from './selector-controller.ts';
import { sayOfSettings } from './settings-said.ts';
import { formStyles } from './form-styles.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

const numbers = ['grams', 'fluidMl', 'areaMl', 'areas', 'lanes', 'gravity'] as const;
type NumberName = (typeof numbers)[number];

const fieldWords: Readonly<Record<NumberName, string>> = {
  grams: say('Dung, g'),
  fluidMl: say('Fluid, mL'),
  areaMl: say('Under one grid, mL'),
  areas: say('Grids counted'),
  lanes: say('Lanes in one grid'),
  gravity: say('Specific gravity'),
};

/** Why a number cannot be this measure; null when it can. */
function measureFault(name: NumberName, number: number, mark: DecimalMark): string | null {
  const field = fieldWords[name];
  if (number <= 0) return say('{field}: type a number above 0.', { field });
  if ((name === 'areas' || name === 'lanes') && !Number.isInteger(number))
    return say('{field}: type a whole number. A row that counted less has its own.', { field });
  if (name === 'gravity' && (number < 1 || number > 2))
    return say('{field}: water has 1, and the fluid somewhat more, like {example}.', {
      field,
      example: writeNumber(1.2, mark),
    });
  return null;
}

/**
 * How a sample is made up and counted on the open day. What was changed reaches the days asked for, the rest stays
 * as each of them has it; where nothing was changed, all of it reaches them. It comes with the sum that gives the multiplication
 * factor as it is typed. A row may have its own grams and fluid.
 */
export class SdProtocolForm extends LitElement {
  static override properties = {
    drafts: { state: true },
    reach: { state: true },
    faults: { state: true },
  };

  static override styles = [
    ...theme,
    formStyles,
    css`
      /* As wide as the words of a list, none of which may be cut. */
      .row {
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 14em), 1fr));
      }

      @media (max-width: 37.5em) {
        .row {
          grid-template-columns: repeat(auto-fit, minmax(9.5em, 1fr));
        }

        .field:has(select) {
          grid-column: 1 / -1;
        }
      }
    `,
  ];

  /** What was typed and not yet kept, by day and field. */
  declare private drafts: Readonly<Record<string, Readonly<Record<string, string>>>>;
  declare private reach: Reach;
  /** What is wrong with it, by day. */
  declare private faults: Readonly<Record<string, string>>;
  private readonly protocol = new Select(this, (session) =>
    session.openDay === null
      ? defaultsOf(session.notebook)
      : dayOf(session.notebook, session.openDay),
  );
  private readonly mark = new Select(this, (session) => markOf(session.notebook));

  constructor() {
    super();
    this.drafts = {};
    this.reach = 'from this day on';
    this.faults = {};
  }

  /** The next change reaches from its day on again, whatever was chosen for the one before. */
  forgetReach(): void {
    this.reach = 'from this day on';
  }

  private get day(): string {
    return this.protocol.session?.openDay ?? '';
  }

  private get draft(): Readonly<Record<string, string>> {
    return this.drafts[this.day] ?? {};
  }

  private hold(draft: Readonly<Record<string, string>>): void {
    this.drafts = { ...this.drafts, [this.day]: draft };
    this.wrong('');
  }

  private wrong(sentence: string): void {
    this.faults = { ...this.faults, [this.day]: sentence };
  }

  private text(name: keyof Protocol): string {
    const typed = this.draft[name];
    if (typed !== undefined) return typed;
    const known = this.protocol.value?.[name];
    return typeof known === 'number'
      ? writeNumber(known, this.mark.value ?? '.')
      : (known ?? '').toString();
  }

  /** The number typed in a field, or why there is none. */
  private number(name: NumberName): number | Fault {
    return parseNumber(this.text(name), this.mark.value ?? '.');
  }

  private get fluidIs(): Protocol['fluidIs'] {
    const typed = this.draft['fluidIs'] ?? this.protocol.value?.fluidIs;
    return typed === 'made up to' ? 'made up to' : 'added';
  }

  private onInput(event: Event): void {
    const input = event.target as HTMLInputElement;
    if (input.name === '') return;
    this.hold({ ...this.draft, [input.name]: input.value });
  }

  private async onSubmit(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const { session } = this.protocol;
    if (!session?.mayWrite()) return;
    const facts: Record<string, number | string> = {
      fluidIs: this.fluidIs,
      fluid: this.text('fluid').trim(),
    };
    for (const name of numbers) {
      const number = this.number(name);
      if (isFault(number)) {
        const { sentence } = number;
        this.wrong(say('{name}: {sentence}', { name: fieldWords[name], sentence }));
        return;
      }
      const sentence = measureFault(name, number, this.mark.value ?? '.');
      if (sentence !== null) {
        this.wrong(sentence);
        return;
      }
      facts[name] = number;
    }
    const { sum } = this;
    if (isFault(sum)) {
      this.wrong(sum.sentence);
      return;
    }
    const { day } = this;
    const typed = Object.entries(facts).filter(([name]) => name in this.draft);
    const changed = typed.length === 0 ? facts : Object.fromEntries(typed);
    const edit = changeDayCopy(session.notebook, day, changed, this.reach);
    this.hold({});
    await session.dispatch({
      ...edit,
      label: say('how you count, {reach}', { reach: reachWords[this.reach] }),
    });
    sayOfSettings(this, say('Kept.'));
  }

  /** The factor with its sum, or why the measures give none. */
  private get sum(): FactorSum | Fault {
    const measures: Record<string, number> = {};
    for (const name of ['grams', 'fluidMl', 'areaMl', 'areas'] as const) {
      const number = this.number(name);
      if (isFault(number)) return number;
      measures[name] = number;
    }
    const sample = { ...measures, fluidIs: this.fluidIs } as Sample;
    return factorSum(sample, this.mark.value ?? '.');
  }

  private renderSum(): TemplateResult {
    const { sum } = this;
    if (isFault(sum)) return html`<p class="sum fault">${sum.sentence}</p>`;
    return html`
      <p class="sum">
        ${say('Factor: {sum}', { sum: sum.words })}
        <span class="small soft">${say('epg for one egg seen')}</span>
      </p>
    `;
  }

  private renderNumber(name: NumberName): TemplateResult {
    return html`
      <label class="field">
        ${fieldWords[name]}
        <input name=${name} inputmode="decimal" autocomplete="off" .value=${this.text(name)} />
      </label>
    `;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { session } = this.protocol;
    if (!session) return nothing;
    const fault = this.faults[this.day] ?? '';
    return html`
      <form @submit=${this.onSubmit} @input=${this.onInput} novalidate>
        <div class="row">
          ${this.renderNumber('grams')} ${this.renderNumber('fluidMl')}
          <label class="field">
            ${say('That fluid is')}
            <select name="fluidIs">
              <option value="added" .selected=${this.fluidIs === 'added'}>
                ${say('added to the dung')}
              </option>
              <option value="made up to" .selected=${this.fluidIs === 'made up to'}>
                ${say('made up to, dung and all')}
              </option>
            </select>
          </label>
          ${this.renderNumber('areaMl')} ${this.renderNumber('areas')}
        </div>
        <div aria-live="polite">${this.renderSum()}</div>
        <div class="row">
          ${this.renderNumber('lanes')}
          <label class="field">
            ${say('Fluid used')}
            <input name="fluid" autocomplete="off" .value=${this.text('fluid')} />
          </label>
          ${this.renderNumber('gravity')}
          ${reachField(session, this.reach, (reach) => {
            this.reach = reach;
          })}
        </div>
        ${fault ? html`<p class="fault" role="alert">${fault}</p>` : nothing}
        <div class="actions">
          ${notKept(Object.keys(this.draft).length > 0, () => this.hold({}))}
          <button class="main">${say('Keep these')}</button>
        </div>
      </form>
    `;
  }
}

customElements.define('sd-protocol-form', SdProtocolForm);

declare global {
  interface HTMLElementTagNameMap {
    'sd-protocol-form': SdProtocolForm;
  }
}
