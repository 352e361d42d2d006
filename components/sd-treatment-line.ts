import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Edit } from '../shared/edit.ts';
import { isFault, type Fault } from '../shared/value.ts';
import { aboutOf, treatmentsOf } from '../src/notebook/read.ts';
import { parseNumber, writeNumber } from '../src/text/decimal-text.ts';
import type { Produce } from '../src/treating/clearance.ts';
import { productName, productOf, productsInUse } from '../src/treating/product.ts';
import {
  changeTreatment,
  giveClearDate,
  removeTreatment,
  type TreatmentChange,
} from '../src/treating/treatment-log.ts';
import { formText } from './form-text.ts';
import { formStyles } from './form-styles.ts';
import { logStyles } from './log-styles.ts';
import { pageOf, tell } from './page-message.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';
import { askForWholeDate } from './whole-date.ts';
import { say } from '../src/text/say.ts';

/**
 * One line of the treatment log, to be put right: what was given and when, a clear date that a vet gave, or taking it
 * off. Fires `line-done`, with what to say about the change.
 */
export class SdTreatmentLine extends LitElement {
  static override properties = {
    treatmentId: { type: String },
    fault: { state: true },
    vetFault: { state: true },
  };

  static override styles = [
    ...theme,
    formStyles,
    logStyles,
    css`
      :host {
        display: grid;
        gap: 8px;
        margin: 6px 0;
      }
    `,
  ];

  declare treatmentId: string;
  declare private fault: string;
  declare private vetFault: string;
  private readonly line = new Select(this, (session) =>
    treatmentsOf(session.notebook).find(({ id }) => id === this.treatmentId),
  );
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.treatmentId = '';
    this.fault = '';
    this.vetFault = '';
  }

  private get mark(): '.' | ',' {
    const { session } = this.line;
    return (session && aboutOf(session.notebook).decimalMark) ?? '.';
  }

  private done(warnings: readonly string[]): void {
    this.dispatchEvent(
      new CustomEvent('line-done', { detail: { warnings }, bubbles: true, composed: true }),
    );
  }

  private amount(form: HTMLFormElement, name: string, what: string): number | undefined | Fault {
    const text = formText(form, name);
    if (text === '') return undefined;
    const value = parseNumber(text, this.mark);
    return isFault(value) ? { ...value, sentence: `${what}: ${value.sentence}` } : value;
  }

  private async keep(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const { session } = this.line;
    const form = event.target as HTMLFormElement;
    if (!session?.mayWrite()) return;
    this.fault = askForWholeDate(form);
    if (this.fault !== '') return;
    const doseMl = this.amount(form, 'dose', say('The dose'));
    const weightKg = this.amount(form, 'weight', say('The weight'));
    if (isFault(doseMl) || isFault(weightKg)) {
      this.fault = isFault(doseMl) ? doseMl.sentence : isFault(weightKg) ? weightKg.sentence : '';
      return;
    }
    const change: TreatmentChange = {
      product: formText(form, 'product'),
      date: formText(form, 'date'),
      time: formText(form, 'time'),
      by: formText(form, 'by'),
      route: formText(form, 'route'),
      note: formText(form, 'note'),
      ...(doseMl === undefined ? {} : { doseMl }),
      ...(weightKg === undefined ? {} : { weightKg }),
    };
    const today = this.services.value?.today();
    const edit = changeTreatment(session.notebook, this.treatmentId, change, today);
    if (isFault(edit)) {
      this.fault = edit.sentence;
      return;
    }
    this.fault = '';
    await session.dispatch(edit.edit);
    this.done(edit.warnings);
  }

  private async giveDate(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const { session } = this.line;
    const form = event.target as HTMLFormElement;
    if (!session?.mayWrite()) return;
    this.vetFault = askForWholeDate(form);
    if (this.vetFault !== '') return;
    const edit = giveClearDate(
      session.notebook,
      this.treatmentId,
      formText(form, 'produce') as Produce,
      formText(form, 'clear'),
      formText(form, 'vet'),
    );
    if (isFault(edit)) {
      this.vetFault = edit.sentence;
      return;
    }
    this.vetFault = '';
    await session.dispatch(edit);
    this.done([]);
  }

  private async takeOff(): Promise<void> {
    const { session } = this.line;
    const edit: Edit | Fault | undefined =
      session && removeTreatment(session.notebook, this.treatmentId);
    if (!session?.mayWrite() || !edit) return;
    if (isFault(edit)) {
      this.fault = edit.sentence;
      return;
    }
    const page = pageOf(this);
    await session.dispatch(edit);
    tell(page, say('The treatment is off the log.'), 'with undo');
    this.done([]);
  }

  private renderProducts(chosen: string): TemplateResult {
    const notebook = this.line.session?.notebook;
    if (!notebook) return html``;
    const inUse = productsInUse(notebook).map(({ id }) => id);
    const ids = inUse.includes(chosen) ? inUse : [chosen, ...inUse];
    return html`<select name="product">
      ${ids
        .filter((id) => productOf(notebook, id))
        .map(
          (id) =>
            html`<option value=${id} .selected=${id === chosen}>
              ${productName(notebook, id)}
            </option>`,
        )}
    </select>`;
  }

  private renderLine(): TemplateResult {
    const { value: line } = this.line;
    const number = (value: number | undefined): string =>
      value === undefined ? '' : writeNumber(value, this.mark);
    return html`
      <form @submit=${this.keep} novalidate>
        <label class="field">${say('Product')} ${this.renderProducts(line?.product ?? '')}</label>
        <div class="row">
          <label class="field">
            ${say('Given on')} <input name="date" type="date" .value=${line?.date ?? ''} />
          </label>
          <label class="field">
            ${say('At')} <input name="time" type="time" .value=${line?.time ?? ''} />
          </label>
          <label class="field">
            ${say('Dose, mL')}
            <input
              name="dose"
              inputmode="decimal"
              autocomplete="off"
              .value=${number(line?.doseMl)}
            />
          </label>
          <label class="field">
            ${say('Weight, kg')}
            <input
              name="weight"
              inputmode="decimal"
              autocomplete="off"
              .value=${number(line?.weightKg)}
            />
          </label>
          <label class="field">
            ${say('By whom')} <input name="by" autocomplete="off" .value=${line?.by ?? ''} />
          </label>
          <label class="field">
            ${say('Route')} <input name="route" autocomplete="off" .value=${line?.route ?? ''} />
          </label>
        </div>
        <label class="field">
          ${say('Note')} <input name="note" autocomplete="off" .value=${line?.note ?? ''} />
        </label>
        ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
        <div class="actions">
          <button type="button" @click=${this.takeOff}>${say('Take it off the log')}</button>
          <button type="button" @click=${() => this.done([])}>${say('Leave it')}</button>
          <button class="main">${say('Keep the change')}</button>
        </div>
      </form>
    `;
  }

  private renderVet(): TemplateResult {
    return html`
      <form @submit=${this.giveDate} novalidate>
        <h3>${say('A clear date that your vet gave')}</h3>
        <div class="row">
          <label class="field">
            ${say('For')}
            <select name="produce">
              <option value="meat">${say('meat')}</option>
              <option value="milk">${say('milk')}</option>
            </select>
          </label>
          <label class="field">${say('Clear from')} <input name="clear" type="date" /></label>
          <label class="field"
            >${say('Name of the vet')} <input name="vet" autocomplete="off"
          /></label>
        </div>
        ${this.vetFault ? html`<p class="fault" role="alert">${this.vetFault}</p>` : nothing}
        <div class="actions"><button>${say('Write the clear date')}</button></div>
      </form>
    `;
  }

  protected override render(): TemplateResult | typeof nothing {
    if (!this.line.value) return nothing;
    return html`${this.renderLine()} ${this.renderVet()}`;
  }
}

customElements.define('sd-treatment-line', SdTreatmentLine);

declare global {
  interface HTMLElementTagNameMap {
    'sd-treatment-line': SdTreatmentLine;
  }
}
