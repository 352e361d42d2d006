import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { keyed } from 'lit/directives/keyed.js';
import type { Product } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { markOf, productsOf } from '../src/notebook/read.ts';
import { DOSE_CAUTIONS } from '../src/treating/cautions.ts';
import { productGaps } from '../src/treating/product-check.ts';
import { productName, removeProduct, retireProduct } from '../src/treating/product.ts';
import { pageOf, tell } from './page-message.ts';
import { doseLine, withdrawalWords } from './product-draft.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-product-form.ts';
import type { SdProductForm } from './sd-product-form.ts';
import { writeNumber } from '../src/text/decimal-text.ts';
import { dateWords } from '../src/text/date-words.ts';
import { say, spokenLanguage } from '../src/text/say.ts';

/** The form stands below the product of this id, below the list for a new one (empty), or nowhere (null). */
type Editing = string | null;

/** The products of a notebook, each as its label says: what was typed, and what of the label is still missing. */
export class SdProducts extends LitElement {
  static override properties = {
    blockId: { type: String },
    editing: { state: true },
    fault: { state: true },
  };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
      }

      ul {
        margin: 0 0 10px;
        padding: 0;
        list-style: none;
      }

      li.product {
        padding: 8px 0;
        border-top: 1px solid var(--line);
        break-inside: avoid;
      }

      .head {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 8px;
        align-items: center;
      }

      .head b {
        flex: 1 1 10em;
        min-width: 0;
        overflow-wrap: anywhere;
      }

      .head button {
        padding-inline: 10px;
        font-size: var(--size-small);
      }

      p {
        margin: 2px 0;
      }

      .gaps {
        margin: 4px 0 0;
        padding-left: 1.1em;
        font-size: var(--size-small);
        list-style: disc;
      }

      sd-product-form {
        margin: 8px 0;
      }

      .cautions {
        margin-top: 10px;
        color: var(--soft);
        font-size: var(--size-tiny);
      }

      @media print {
        button,
        sd-product-form {
          display: none;
        }
      }
    `,
  ];

  declare blockId: string;
  declare private editing: Editing;
  /** Why a product could not be taken off the list, and which. */
  declare private fault: { readonly id: string; readonly sentence: string } | null;
  private readonly products = new Select(this, (session) => productsOf(session.notebook));
  private readonly mark = new Select(this, (session) => markOf(session.notebook));

  constructor() {
    super();
    this.blockId = '';
    this.editing = null;
    this.fault = null;
  }

  private async edit(editing: Editing): Promise<void> {
    this.editing = editing;
    this.fault = null;
    if (editing === null) return;
    await this.updateComplete;
    const form = this.renderRoot.querySelector<SdProductForm>('sd-product-form');
    await form?.updateComplete;
    form?.renderRoot.querySelector<HTMLElement>('input')?.focus();
  }

  private async done(): Promise<void> {
    const { editing } = this;
    this.editing = null;
    await this.updateComplete;
    const opener = editing === '' ? '.add' : `[data-change="${CSS.escape(editing ?? '')}"]`;
    this.renderRoot.querySelector<HTMLElement>(opener)?.focus();
  }

  private async takeOff({ id, name }: Product): Promise<void> {
    const { session } = this.products;
    if (!session?.mayWrite()) return;
    const edit = removeProduct(session.notebook, id);
    if (isFault(edit)) {
      this.fault = { id, sentence: edit.sentence };
      return;
    }
    this.fault = null;
    const page = pageOf(this);
    await session.dispatch(edit);
    tell(page, say('{name} is off the list.', { name: name ?? say('The product') }), 'with undo');
  }

  private async retire({ id }: Product, isRetired: boolean): Promise<void> {
    const { session } = this.products;
    const edit = session && retireProduct(session.notebook, id, isRetired);
    if (!edit || isFault(edit)) return;
    this.fault = null;
    await session.dispatch(edit);
  }

  private renderFacts(product: Product): TemplateResult {
    const mark = this.mark.value ?? '.';
    const species = (product.species ?? []).map((one) =>
      one === 'goat' ? say('goats') : say('sheep'),
    );
    const facts = [
      doseLine(product, mark),
      new Intl.ListFormat(spokenLanguage()).format(species),
      product.route,
      product.activeGroup,
      product.batch && say('batch {batch}', { batch: product.batch }),
      product.expires && say('expires {date}', { date: dateWords(product.expires) }),
    ];
    const waits = [
      say('Meat: {meat}', { meat: withdrawalWords(product.meat) }),
      say('milk: {milk}', { milk: withdrawalWords(product.milk) }),
      ...(product.afterDays === undefined
        ? []
        : [
            say('counts marked after treatment for {n, plural, one {# day} other {# days}}', {
              n: product.afterDays,
            }),
          ]),
    ];
    const { vetName = '', vetMl, vetPerKg } = product;
    const vet =
      vetName === '' || vetMl === undefined
        ? ''
        : vetSentence({
            name: vetName,
            ml: writeNumber(vetMl, mark),
            kg: vetPerKg === undefined ? null : writeNumber(vetPerKg, mark),
            meat: withdrawalWords(product.vetMeat),
            milk: withdrawalWords(product.vetMilk),
          });
    return html`
      <p class="small">${facts.filter(Boolean).join(' · ')}</p>
      <p class="small soft">${waits.join(' · ')}</p>
      ${vet === '' ? nothing : html`<p class="small">${vet}</p>`}
    `;
  }

  private renderProduct(product: Product, name: string): TemplateResult {
    const { id } = product;
    const isRetired = product.retired === true;
    const gaps = isRetired ? [] : productGaps(product, this.mark.value);
    return html`
      <li class="product">
        <div class="head">
          <b>${name}</b>
          ${isRetired ? html`<span class="chip open">${say('no longer in use')}</span>` : nothing}
          <button
            data-change=${id}
            aria-expanded=${this.editing === id ? 'true' : 'false'}
            aria-label=${say('Change {name}', { name })}
            @click=${() => this.edit(this.editing === id ? null : id)}
          >
            ${say('Change')}
          </button>
          <button
            aria-label=${isRetired ? say('Use again: {name}', { name }) : say('No longer in use: {name}', { name })}
            @click=${() => this.retire(product, !isRetired)}
          >
            ${isRetired ? say('Use again') : say('No longer in use')}
          </button>
          <button
            aria-label=${say('Remove {name}', { name })}
            @click=${() => this.takeOff(product)}
          >
            ${say('Remove')}
          </button>
        </div>
        ${
          this.fault?.id === id
            ? html`<p class="fault" role="alert">${this.fault.sentence}</p>`
            : nothing
        }
        ${this.renderFacts(product)}
        ${
          gaps.length > 0
            ? html`<ul class="gaps" aria-label=${say('Still missing of {name}', { name })}>
                ${gaps.map(({ sentence }) => html`<li>${sentence}</li>`)}
              </ul>`
            : nothing
        }
        ${this.editing === id ? this.renderForm(id) : nothing}
      </li>
    `;
  }

  private renderForm(id: string): TemplateResult {
    return html`${keyed(
      id,
      html`<sd-product-form .productId=${id} @product-done=${this.done}></sd-product-form>`,
    )}`;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { session, value: products = [] } = this.products;
    if (!session) return nothing;
    return html`
      ${
        products.length === 0
          ? html`<p class="soft">
              ${say('No product yet. Type one from its label; this program knows no products and no doses.')}
            </p>`
          : html`<ul>
              ${products.map((one) => this.renderProduct(one, productName(session.notebook, one.id)))}
            </ul>`
      }
      ${
        this.editing === ''
          ? this.renderForm('')
          : html`<button class="add" @click=${() => this.edit('')}>
              ${say('Type a product')}
            </button>`
      }
      <div class="cautions">${DOSE_CAUTIONS.map((words) => html`<p>${words}</p>`)}</div>
    `;
  }
}

function vetSentence(
  set: Readonly<Record<'name' | 'ml' | 'meat' | 'milk', string>> & { readonly kg: string | null },
): string {
  return set.kg === null
    ? say('{name} set {ml} mL for each animal; meat {meat}, milk {milk}.', set)
    : say('{name} set {ml} mL per {kg} kg; meat {meat}, milk {milk}.', set);
}

customElements.define('sd-products', SdProducts);

declare global {
  interface HTMLElementTagNameMap {
    'sd-products': SdProducts;
  }
}
