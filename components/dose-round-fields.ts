import { html, nothing, type TemplateResult } from 'lit';
import type { Notebook } from '../shared/notebook.ts';
import { vetsDose, type DoseSource } from '../src/treating/dose.ts';
import { productName, productOf, productsInUse } from '../src/treating/product.ts';
import { say } from '../src/text/say.ts';

/** What a person types for a whole round of doses. */
export interface RoundForm {
  readonly product: string;
  /** Empty: today. */
  readonly date: string;
  readonly time: string;
  readonly by: string;
  /** Empty: the label's. */
  readonly route: string;
  /** Empty: the label's where it covers the animal, else the vet's. */
  readonly source: DoseSource | '';
  readonly byHeaviest: boolean;
  /** In %, as typed. */
  readonly margin: string;
}

export const emptyRound: RoundForm = {
  product: '',
  date: '',
  time: '',
  by: '',
  route: '',
  source: '',
  byHeaviest: false,
  margin: '10',
};

/** The fields of a round; those of the giving only once a product is chosen. */
export function roundFields(
  form: RoundForm,
  date: string,
  notebook: Notebook,
  change: (facts: Partial<RoundForm>) => void,
): TemplateResult {
  const product = form.product === '' ? undefined : productOf(notebook, form.product);
  const text = (event: Event): string => (event.target as HTMLInputElement).value;
  // One that lacks a part is still being typed: what was typed before it holds until then.
  const isWhole = (event: Event): boolean => !(event.target as HTMLInputElement).validity.badInput;
  const hasVet = product !== undefined && vetsDose(product) !== null;
  return html`
    <div class="fields">
      <label class="field wide">
        ${say('Dose all ticked with')}
        <select @change=${(event: Event) => change({ product: text(event) })}>
          <option value="" .selected=${form.product === ''}>${say('choose a product')}</option>
          ${productsInUse(notebook).map(
            ({ id }) =>
              html`<option value=${id} .selected=${id === form.product}>
                ${productName(notebook, id)}
              </option>`,
          )}
        </select>
      </label>
      ${
        product
          ? html`
              <label class="field">
                ${say('Given on')}
                <input
                  type="date"
                  .value=${date}
                  @change=${(event: Event) => isWhole(event) && change({ date: text(event) })}
                />
              </label>
              <label class="field">
                ${say('At (may stay empty)')}
                <input
                  type="time"
                  .value=${form.time}
                  @change=${(event: Event) => isWhole(event) && change({ time: text(event) })}
                />
              </label>
              <label class="field">
                ${say('By whom')}
                <input
                  autocomplete="off"
                  .value=${form.by}
                  @change=${(event: Event) => change({ by: text(event).trim() })}
                />
              </label>
              <label class="field">
                ${say('Route')}
                <input
                  autocomplete="off"
                  placeholder=${product.route ?? ''}
                  .value=${form.route}
                  @change=${(event: Event) => change({ route: text(event).trim() })}
                />
              </label>
              ${
                hasVet
                  ? html`<label class="field">
                      ${say('Whose dose')}
                      <select
                        @change=${(event: Event) =>
                          change({ source: text(event) as RoundForm['source'] })}
                      >
                        <option value="" .selected=${form.source === ''}>
                          ${say("the label's, else the vet's")}
                        </option>
                        <option value="label" .selected=${form.source === 'label'}>
                          ${say("the label's")}
                        </option>
                        <option value="vet" .selected=${form.source === 'vet'}>
                          ${say("{vet}'s", { vet: product.vetName })}
                        </option>
                      </select>
                    </label>`
                  : nothing
              }
              <label class="field">
                ${say('Margin, %')}
                <input
                  inputmode="decimal"
                  autocomplete="off"
                  .value=${form.margin}
                  @change=${(event: Event) => change({ margin: text(event) })}
                />
              </label>
              <label class="tick wide">
                <input
                  type="checkbox"
                  .checked=${form.byHeaviest}
                  @change=${(event: Event) =>
                    change({ byHeaviest: (event.target as HTMLInputElement).checked })}
                />
                <span>${say('One dose for all, by the heaviest (where the label says so)')}</span>
              </label>
            `
          : nothing
      }
    </div>
  `;
}
