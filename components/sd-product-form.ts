import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { ProductFacts, Species } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { aboutOf } from '../src/notebook/read.ts';
import type { DecimalMark } from '../src/text/decimal-text.ts';
import { addProduct, changeProduct, productOf } from '../src/treating/product.ts';
import { SUGGESTED_AFTER_DAYS } from '../src/treating/product-check.ts';
import {
  draftFacts,
  productDraft,
  type DraftFaults,
  type NumberField,
  type ProductDraft,
  type TextField,
  type WithdrawalField,
  withdrawalKind,
} from './product-draft.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { formStyles } from './form-styles.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/**
 * One product, typed from its label. Nothing is filled in and nothing suggested. With `productId` empty it makes a
 * new one. Fires `product-done` when kept or left.
 */
export class SdProductForm extends LitElement {
  static override properties = {
    productId: { type: String },
    draft: { state: true },
    faults: { state: true },
    fault: { state: true },
  };

  static override styles = [
    ...theme,
    formStyles,
    css`
      form {
        padding: 12px 14px 14px;
        border: 1px solid var(--line);
        border-radius: var(--radius);
        background: var(--paper);
      }

      fieldset {
        display: grid;
        gap: 10px;
        min-width: 0;
        margin: 0;
        padding: 10px 0 0;
        border: 0;
        border-top: 1px solid var(--line);
      }

      fieldset:first-of-type {
        padding-top: 0;
        border-top: 0;
      }

      legend {
        float: left;
        width: 100%;
        padding: 0;
        font-weight: 650;
      }

      .sentence {
        display: flex;
        flex-wrap: wrap;
        gap: 6px;
        align-items: center;
      }

      .sentence input {
        width: 5.4em;
      }

      .row input,
      .row select {
        width: 100%;
        min-width: 0;
      }

      .pair {
        display: grid;
        grid-template-columns: minmax(0, 1.6fr) minmax(0, 1fr);
        gap: 6px;
      }

      .ticks {
        display: flex;
        gap: 16px;
      }
    `,
  ];

  declare productId: string;
  declare private draft: ProductDraft | undefined;
  declare private faults: DraftFaults;
  declare private fault: string;
  private readonly about = new Select(this, (session) => aboutOf(session.notebook));
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.productId = '';
    this.faults = {};
    this.fault = '';
  }

  private get mark(): DecimalMark {
    return this.about.value?.decimalMark ?? '.';
  }

  private get current(): ProductDraft {
    const notebook = this.about.session?.notebook;
    const product =
      notebook && this.productId !== '' ? productOf(notebook, this.productId) : undefined;
    return this.draft ?? productDraft(product, this.mark);
  }

  private change(facts: Partial<ProductDraft>): void {
    this.draft = { ...this.current, ...facts };
    this.fault = '';
    if (Object.keys(this.faults).length > 0) this.faults = draftFacts(this.draft, this.mark).faults;
  }

  private type(field: TextField | NumberField, event: Event): void {
    const text = (event.target as HTMLInputElement).value;
    this.change({ texts: { ...this.current.texts, [field]: text } });
  }

  private async keep(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const { session } = this.about;
    if (!session?.mayWrite()) return;
    const { facts, faults } = draftFacts(this.current, this.mark);
    this.faults = faults;
    const count = Object.keys(faults).length;
    if (count > 0) {
      this.fault = say(
        '{count, plural, =1 {Mend what is marked first.} other {Mend the # marked first.}}',
        { count },
      );
      await this.updateComplete;
      this.renderRoot.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
      return;
    }
    const { notebook } = session;
    const id = this.productId || this.services.value?.newId();
    if (id === undefined) return;
    const edit = this.productId
      ? changeProduct(notebook, id, facts)
      : addProduct(notebook, id, facts);
    if (isFault(edit)) {
      this.fault = edit.sentence;
      return;
    }
    await session.dispatch(edit);
    this.leave();
  }

  private leave(): void {
    this.draft = undefined;
    this.faults = {};
    this.fault = '';
    this.dispatchEvent(new CustomEvent('product-done', { bubbles: true, composed: true }));
  }

  private faultOf(field: keyof ProductFacts): TemplateResult | typeof nothing {
    const sentence = this.faults[field];
    if (sentence === undefined) return nothing;
    return html`<span class="fault small" id=${`${field}-fault`} role="alert">${sentence}</span>`;
  }

  private input(
    field: TextField | NumberField,
    label: string | typeof nothing = nothing,
    isNumber = false,
  ): TemplateResult {
    const isWrong = this.faults[field] !== undefined;
    return html`<input
      name=${field}
      autocomplete="off"
      inputmode=${isNumber ? 'decimal' : 'text'}
      aria-label=${label}
      aria-invalid=${isWrong ? 'true' : 'false'}
      aria-describedby=${isWrong ? `${field}-fault` : nothing}
      .value=${this.current.texts[field]}
      @input=${(event: Event) => this.type(field, event)}
    />`;
  }

  private field(
    field: TextField | NumberField,
    label: string,
    hint = '',
    isNumber = false,
  ): TemplateResult {
    return html`<label class="field">
      ${label} ${this.input(field, nothing, isNumber)}
      ${hint === '' ? nothing : html`<span class="hint">${hint}</span>`} ${this.faultOf(field)}
    </label>`;
  }

  private withdrawal(field: WithdrawalField, label: string): TemplateResult {
    const { withdrawals } = this.current;
    const { kind, text } = withdrawals[field];
    const set = (facts: Partial<typeof withdrawals.meat>): void =>
      this.change({
        withdrawals: { ...withdrawals, [field]: { ...withdrawals[field], ...facts } },
      });
    const hasNumber = kind === 'days' || kind === 'hours';
    return html`<div class="field">
      <span>${label}</span>
      <div class="pair">
        <select
          aria-label=${say('{label}, as the label says', { label })}
          @change=${(event: Event) =>
            set({ kind: (event.target as HTMLSelectElement).value as typeof kind })}
        >
          ${(['not stated', 'days', 'hours', 'not permitted'] as const).map(
            (one) =>
              html`<option value=${one} .selected=${one === kind}>${withdrawalKind(one)}</option>`,
          )}
        </select>
        <input
          name=${field}
          inputmode="numeric"
          autocomplete="off"
          aria-label=${say('{label}, number', { label })}
          aria-invalid=${this.faults[field] === undefined ? 'false' : 'true'}
          ?disabled=${!hasNumber}
          .value=${hasNumber ? text : ''}
          @input=${(event: Event) => set({ text: (event.target as HTMLInputElement).value })}
        />
      </div>
      ${this.faultOf(field)}
    </div>`;
  }

  private speciesTick(species: Species, words: string): TemplateResult {
    const { species: ticked } = this.current;
    return html`<label class="tick">
      <input
        type="checkbox"
        .checked=${ticked.includes(species)}
        @change=${(event: Event) => {
          const others = ticked.filter((one) => one !== species);
          const isTicked = (event.target as HTMLInputElement).checked;
          this.change({ species: isTicked ? [...others, species] : others });
        }}
      />
      ${words}
    </label>`;
  }

  private renderLabel(): TemplateResult {
    const { labelUnit } = this.current;
    return html`<fieldset>
      <legend>${say('From the label')}</legend>
      ${this.field('name', say('Name'))}
      <div class="field">
        <span>${say('Its dose line')}</span>
        <div class="sentence">
          ${this.input('labelMl', say('mL of the dose line'), true)} ${say('mL per')}
          ${this.input('labelPer', say('weight of the dose line'), true)}
          <select
            aria-label=${say('Unit of the dose line')}
            @change=${(event: Event) =>
              this.change({
                labelUnit: (event.target as HTMLSelectElement).value as 'kg' | 'lb',
              })}
          >
            <option value="kg" .selected=${labelUnit === 'kg'}>kg</option>
            <option value="lb" .selected=${labelUnit === 'lb'}>lb</option>
          </select>
        </div>
        ${this.faultOf('labelMl')} ${this.faultOf('labelPer')}
      </div>
      <div class="row">
        ${this.field('mgPerMl', say('Strength, mg per mL'), say('if the label has no line'), true)}
        ${this.field('mgPerKg', say('Dose, mg per kg'), '', true)}
        ${this.field('stepMl', say('Step of the syringe, mL'), say('doses are rounded up to it'), true)}
      </div>
      <div class="field">
        <span>${say('Species the label names')}</span>
        <div class="ticks">
          ${this.speciesTick('sheep', say('sheep'))} ${this.speciesTick('goat', say('goats'))}
        </div>
      </div>
      <div class="row">
        ${this.field('route', say('Route'), say('by mouth, under the skin, …'))}
        ${this.field('activeGroup', say('Active group'), say('as the label says'))}
        ${this.field('batch', say('Batch'))}
        ${this.field('expires', say('Expiry'), say('2027-03 or 2027-03-31'))}
      </div>
      <div class="row">
        ${this.withdrawal('meat', say('Meat withdrawal'))}
        ${this.withdrawal('milk', say('Milk withdrawal'))}
      </div>
    </fieldset>`;
  }

  private renderDays(): TemplateResult {
    return html`<fieldset>
      <legend>${say('Days that follow')}</legend>
      <div class="row">
        ${this.field(
          'afterDays',
          say('Counts marked "after treatment", days'),
          say('{days} to start with: counts stay low for about three weeks', {
            days: SUGGESTED_AFTER_DAYS,
          }),
          true,
        )}
        ${this.field('sampleFromDays', say('Second sample from day'), say('empty: usual for the group'), true)}
        ${this.field('sampleToDays', say('to day'), '', true)}
      </div>
    </fieldset>`;
  }

  private renderVet(): TemplateResult {
    return html`<fieldset>
      <legend>${say('Where a vet set another dose')}</legend>
      <p class="small soft">
        ${say("It lifts the label's stops for species, route and dose, and the label's withdrawal then does not hold: the vet's does.")}
      </p>
      ${this.field('vetName', say('Name of the vet'))}
      <div class="field">
        <span>${say("The vet's dose")}</span>
        <div class="sentence">
          ${this.input('vetMl', say("mL of the vet's dose"), true)} ${say('mL per')}
          ${this.input('vetPerKg', say("kg of the vet's dose"), true)}
          ${say('kg; no kg: for each animal')}
        </div>
        ${this.faultOf('vetMl')} ${this.faultOf('vetPerKg')}
      </div>
      <div class="row">
        ${this.withdrawal('vetMeat', say("The vet's meat withdrawal"))}
        ${this.withdrawal('vetMilk', say("The vet's milk withdrawal"))}
      </div>
      ${this.field('vetDose', say("The vet's own words"))}
    </fieldset>`;
  }

  protected override render(): TemplateResult | typeof nothing {
    if (!this.about.session) return nothing;
    return html`
      <form @submit=${this.keep} novalidate>
        ${this.renderLabel()} ${this.renderDays()} ${this.renderVet()}
        ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
        <div class="actions">
          <button type="button" @click=${this.leave}>${say('Leave it')}</button>
          <button class="main">${say('Keep the product')}</button>
        </div>
      </form>
    `;
  }
}

customElements.define('sd-product-form', SdProductForm);

declare global {
  interface HTMLElementTagNameMap {
    'sd-product-form': SdProductForm;
  }
}
