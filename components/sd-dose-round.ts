import { ContextConsumer } from '@lit/context';
import { LitElement, html, nothing, type TemplateResult } from 'lit';
import type { Notebook } from '../shared/notebook.ts';
import { isFault, type Fault } from '../shared/value.ts';
import { aboutOf, markOf } from '../src/notebook/read.ts';
import { parseNumber, writeNumber } from '../src/text/decimal-text.ts';
import { treatmentsOfAnimal } from '../src/treating/after-treatment.ts';
import { lightestSentence } from '../src/treating/band-dose.ts';
import { CLEAR_DATE_CAUTIONS, DOSE_CAUTIONS } from '../src/treating/cautions.ts';
import {
  doseRound,
  roundTreated,
  type DoseRound,
  type RoundDose,
} from '../src/treating/dose-round.ts';
import { productName, productOf, productsInUse } from '../src/treating/product.ts';
import { logTreatments } from '../src/treating/treatment-log.ts';
import { emptyRound, roundFields, type RoundForm } from './dose-round-fields.ts';
import { doseRoundStyles } from './dose-round-styles.ts';
import { figureText } from './figure-text.ts';
import { pageOf, tell } from './page-message.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';
import { weightWords } from './treatment-row.ts';
import { askForWholeDate } from './whole-date.ts';
import { dateWords } from '../src/text/date-words.ts';
import { say, sayParts } from '../src/text/say.ts';

/**
 * Doses for the animals handed in, once a product is chosen: mL by each one's own weight, reasons where there is no
 * number, questions, what to have ready; and writing all of it to the log as one step. Fires `round-written` with its `warnings`.
 */
export class SdDoseRound extends LitElement {
  static override properties = {
    animals: { attribute: false },
    day: { type: String },
    form: { state: true },
    typed: { state: true },
    isAnswered: { state: true },
    fault: { state: true },
    said: { state: true },
  };

  static override styles = [...theme, doseRoundStyles];

  declare animals: readonly string[];
  /** The sampling day that the animals were chosen on; those treated since are left out. Empty: no such day. */
  declare day: string;
  declare private form: RoundForm;
  /** What was typed in place of a dose, by animal. */
  declare private typed: ReadonlyMap<string, string>;
  declare private isAnswered: boolean;
  declare private fault: string;
  declare private said: readonly string[];
  private readonly products = new Select(this, (session) => productsInUse(session.notebook));
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.animals = [];
    this.day = '';
    this.form = emptyRound;
    this.typed = new Map();
    this.isAnswered = false;
    this.fault = '';
    this.said = [];
    new Select(this, (session) => session.notebook.treatments);
  }

  private change(facts: Partial<RoundForm>): void {
    this.form = { ...this.form, ...facts };
    this.fault = '';
    this.isAnswered = false;
  }

  private get today(): string {
    return this.services.value?.today() ?? '';
  }

  private get date(): string {
    return this.form.date === '' ? this.today : this.form.date;
  }

  private mark(notebook: Notebook): '.' | ',' {
    return markOf(notebook);
  }

  /** Those not yet in the log since the day they were chosen on. */
  private waiting(notebook: Notebook): readonly string[] {
    const since = this.day.slice(0, 10);
    if (since === '') return this.animals;
    return this.animals.filter(
      (id) => !treatmentsOfAnimal(notebook, id).some(({ date }) => (date ?? '') >= since),
    );
  }

  private round(notebook: Notebook, animals: readonly string[]): DoseRound | Fault {
    const { product, route, source, byHeaviest } = this.form;
    const margin = parseNumber(this.form.margin, this.mark(notebook));
    const typed = new Map(
      [...this.typed].map(([id, text]) => {
        const ml = parseNumber(text, this.mark(notebook));
        return [id, isFault(ml) ? null : ml] as const;
      }),
    );
    return doseRound(notebook, {
      product,
      animals,
      byHeaviest,
      date: this.date,
      margin: isFault(margin) ? NaN : margin / 100,
      typed,
      ...(route === '' ? {} : { route }),
      ...(source === '' ? {} : { source }),
    });
  }

  private typedFault(id: string, notebook: Notebook): string {
    const text = this.typed.get(id);
    if (text === undefined || text.trim() === '') return '';
    const ml = parseNumber(text, this.mark(notebook));
    if (isFault(ml)) return ml.sentence;
    return ml > 0 ? '' : say('A dose is more than 0 mL; leave it empty if none is known.');
  }

  private async write(round: DoseRound): Promise<void> {
    const { session } = this.products;
    const newId = this.services.value?.newId;
    if (!session?.mayWrite() || !newId) return;
    const { notebook } = session;
    this.fault = askForWholeDate(this.renderRoot);
    if (this.fault !== '') return;
    const wrong = round.doses.map(({ animal }) => ({
      tag: animal.tag,
      fault: this.typedFault(animal.id, notebook),
    }));
    const first = wrong.find(({ fault }) => fault !== '');
    if (first) {
      this.fault = `${first.tag}: ${first.fault}`;
      return;
    }
    if (round.questions.length > 0 && !this.isAnswered) {
      this.fault = say('Look at the questions above first, then tick that you did.');
      return;
    }
    const { product, time, by, route, byHeaviest } = this.form;
    const sources = new Set(round.doses.map(({ answer }) => answer.source));
    const source = this.form.source || (sources.size === 1 && sources.has('vet') ? 'vet' : 'label');
    const asked = { product, date: this.date, time, by, byHeaviest, source, route } as const;
    const done = logTreatments(
      notebook,
      asked,
      roundTreated(round),
      newId,
      this.today || undefined,
    );
    if (isFault(done)) {
      this.fault = done.sentence;
      return;
    }
    const count = round.doses.length;
    const words = say(
      '{n, plural, one {# animal} other {# animals}} written to the log, {product}, {date}.',
      {
        n: count,
        product: productName(notebook, product),
        date: dateWords(this.date),
      },
    );
    this.typed = new Map();
    this.isAnswered = false;
    this.fault = '';
    this.said = done.warnings;
    const page = pageOf(this);
    await session.dispatch(done.edit);
    tell(page, words, 'with undo');
    this.dispatchEvent(new CustomEvent('round-written', { detail: { warnings: done.warnings } }));
  }

  private renderDose(dose: RoundDose, round: DoseRound, notebook: Notebook): TemplateResult {
    const { animal, weight, answer, ml } = dose;
    const mark = this.mark(notebook);
    const typed = this.typed.get(animal.id);
    const fault = this.typedFault(animal.id, notebook);
    const ofAll = stopsOfAll(round);
    const stops = round.band ? [] : answer.stops.filter((stop) => !ofAll.includes(stop));
    return html`
      <li>
        <div class="line">
          <b>${animal.tag}</b>
          <span class="soft">
            ${weightWords(weight?.kg ?? null, aboutOf(notebook))}${weight && weight.date !== this.day.slice(0, 10) ? `, ${dateWords(weight.date, 'short')}` : ''}
          </span>
          <label>
            <span class="visually-hidden">${say('mL for {tag}', { tag: animal.tag })}</span>
            <input
              inputmode="decimal"
              autocomplete="off"
              aria-invalid=${fault === '' ? 'false' : 'true'}
              .value=${typed ?? (ml === null ? '' : writeNumber(ml, mark))}
              @change=${(event: Event) => this.typeDose(animal.id, (event.target as HTMLInputElement).value)}
            />
            mL
          </label>
        </div>
        ${fault === '' ? nothing : html`<p class="also stop">${fault}</p>`}
        ${stops.map((stop) => html`<p class="also stop">${stop}</p>`)}
        ${round.band || answer.sum === '' ? nothing : html`<p class="also">${answer.sum}</p>`}
        ${
          typed !== undefined && fault === ''
            ? html`<p class="also">${say('Typed by you: it is written down as given.')}</p>`
            : nothing
        }
        ${answer.lifted.map((stop) => html`<p class="also">${say("The vet's dose lifts: {stop}", { stop })}</p>`)}
      </li>
    `;
  }

  private typeDose(id: string, text: string): void {
    const typed = new Map(this.typed);
    typed.set(id, text);
    this.typed = typed;
    this.fault = '';
  }

  private renderBand({ band }: DoseRound, mark: '.' | ','): TemplateResult | typeof nothing {
    if (!band) return nothing;
    const { heaviest, lightest, ml } = band;
    return html`
      ${band.stops.map((stop) => html`<p class="small fault">${stop}</p>`)}
      ${
        ml === null || !heaviest
          ? nothing
          : html`<p class="small">
              ${say('For all: {sum}, by the heaviest, {tag}. {lightest}', { sum: band.sum, tag: heaviest.tag, lightest: lightest ? lightestSentence(lightest, ml, mark) : '' })}
            </p>`
      }
    `;
  }

  private renderTotal({ total }: DoseRound, notebook: Notebook): TemplateResult {
    if (isFault(total)) return html`<p class="small soft">${total.sentence}</p>`;
    const mark = this.mark(notebook);
    const ml = (value: number): string => figureText(value, undefined, mark);
    const left = total.of - total.dosed;
    const filling = {
      ready: html`<b>${ml(total.withMarginMl)} mL</b>`,
      ml: ml(total.ml),
      dosed: total.dosed,
      all: total.of,
      margin: this.form.margin,
    };
    return html`<p class="total">
      ${
        left > 0
          ? sayParts(
              'Have ready: {ready} ({ml} mL for {dosed} of {all}, and {margin} % more); {left}.',
              { ...filling, left: html`<b>${say('{n} without a dose', { n: left })}</b>` },
            )
          : sayParts(
              'Have ready: {ready} ({ml} mL for {dosed} of {all}, and {margin} % more).',
              filling,
            )
      }
    </p>`;
  }

  private renderRound(round: DoseRound, notebook: Notebook): TemplateResult {
    const { questions, doses } = round;
    const { product, route } = this.form;
    const asLabel = route || productOf(notebook, product)?.route;
    return html`
      <p class="paper">
        ${[productName(notebook, product), asLabel, dateWords(this.date)].filter(Boolean).join(', ')}
      </p>
      ${this.renderBand(round, this.mark(notebook))}
      ${stopsOfAll(round).map((stop) => html`<p class="small fault">${stop}</p>`)}
      <ul class="doses" aria-label=${say('Doses')}>
        ${doses.map((dose) => this.renderDose(dose, round, notebook))}
      </ul>
      ${this.renderTotal(round, notebook)}
      ${
        questions.length > 0
          ? html`<div class="asks">
              <b>${say('To make sure of first')}</b>
              <ul>
                ${questions.map((question) => html`<li>${question}</li>`)}
              </ul>
              <label class="tick">
                <input
                  type="checkbox"
                  .checked=${this.isAnswered}
                  @change=${(event: Event) => {
                    this.isAnswered = (event.target as HTMLInputElement).checked;
                    this.fault = '';
                  }}
                />
                ${say('I have looked at {n, plural, =1 {it} other {all #}}', { n: questions.length })}
              </label>
            </div>`
          : nothing
      }
      ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
      <div class="actions">
        <button class="main" @click=${() => this.write(round)}>
          ${say('Write {n, plural, one {# treatment} other {# treatments}} to the log', { n: doses.length })}
        </button>
      </div>
      <div class="cautions">
        ${[...DOSE_CAUTIONS, ...CLEAR_DATE_CAUTIONS].map((words) => html`<p>${words}</p>`)}
      </div>
    `;
  }

  private renderSaid(): TemplateResult | typeof nothing {
    if (this.said.length === 0) return nothing;
    return html`<div class="said" role="status">
      <b>${say('Written down, and to be looked at:')}</b>
      ${this.said.map((words) => html`<p>${words}</p>`)}
    </div>`;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { session } = this.products;
    if (!session) return nothing;
    const { notebook } = session;
    const waiting = this.waiting(notebook);
    const logged = this.animals.length - waiting.length;
    const head =
      this.animals.length === 0
        ? say('Tick the animals you decide to treat; their doses and the log follow here.')
        : logged > 0
          ? say('{n} ticked and not yet in the log, {logged} already in it.', {
              n: waiting.length,
              logged,
            })
          : say('{n} ticked and not yet in the log.', { n: waiting.length });
    if (waiting.length === 0)
      return html`<h3 tabindex="-1">${say('Doses')}</h3>
        <p class="small soft">${head}</p>
        ${this.renderSaid()}`;
    const hasProduct = (this.products.value ?? []).length > 0;
    const round = this.form.product === '' ? null : this.round(notebook, waiting);
    return html`
      <h3 tabindex="-1">${say('Doses')}</h3>
      <p class="small soft">${head}</p>
      ${
        hasProduct
          ? roundFields(this.form, this.date, notebook, (facts) => this.change(facts))
          : html`<p class="small">
              ${say('No product yet. Type one from its label in the block "Products", then choose it here.')}
            </p>`
      }
      ${
        round === null
          ? nothing
          : isFault(round)
            ? html`<p class="fault" role="alert">${round.sentence}</p>`
            : this.renderRound(round, notebook)
      }
      ${this.renderSaid()}
    `;
  }
}

/** Why there is no dose for anyone, said once and not beside each animal. */
function stopsOfAll({ doses, band }: DoseRound): readonly string[] {
  const [first, ...others] = doses;
  if (band || !first) return [];
  return first.answer.stops.filter((stop) =>
    others.every(({ answer }) => answer.stops.includes(stop)),
  );
}

customElements.define('sd-dose-round', SdDoseRound);

declare global {
  interface HTMLElementTagNameMap {
    'sd-dose-round': SdDoseRound;
  }
}
