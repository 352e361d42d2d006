import { LitElement, html, nothing, type TemplateResult } from 'lit';
import type { AboutFacts } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { aboutOf } from '../src/notebook/read.ts';
import { setsOf } from '../src/notebook/record-sets.ts';
import { parseNumber, writeNumber, type DecimalMark } from '../src/text/decimal-text.ts';
import { animalWord, herdWords } from './animal-words.ts';
import { notKept } from './not-kept.ts';
import { Select } from './selector-controller.ts';
import { sayOfSettings } from './settings-said.ts';
import { formStyles } from './form-styles.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/** The decimal mark that is chosen in the form; the point unless it says otherwise. */
function chosenMark(chosen: string | undefined): DecimalMark {
  return chosen === ',' ? ',' : '.';
}

/** The notebook's name and place, its words and units. Switching a unit changes no weight typed. */
export class SdAboutForm extends LitElement {
  static override properties = { fault: { state: true }, drafts: { state: true } };

  static override styles = [...theme, formStyles];

  declare private fault: string;
  /** What was typed or chosen and not yet kept, by field. */
  declare private drafts: Readonly<Record<string, string>>;
  private readonly about = new Select(this, (session) => aboutOf(session.notebook));

  constructor() {
    super();
    this.fault = '';
    this.drafts = {};
  }

  private onInput(event: Event): void {
    const { name, value } = event.target as HTMLInputElement | HTMLSelectElement;
    this.drafts = { ...this.drafts, [name]: value };
    this.fault = '';
  }

  private field(name: string): string {
    return this.renderRoot.querySelector<HTMLInputElement>(`[name="${name}"]`)?.value.trim() ?? '';
  }

  private async onSubmit(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const { session } = this.about;
    if (!session?.mayWrite()) return;
    const title = this.field('title');
    const keep = parseNumber(this.field('keep'), chosenMark(this.field('decimalMark')));
    if (title === '') {
      this.fault = say('A notebook needs a name, to be found again in the list.');
      return;
    }
    if (isFault(keep) || keep < 0 || keep > 100) {
      this.fault = isFault(keep)
        ? keep.sentence
        : say('The share left untreated is from 0 to 100 %.');
      return;
    }
    this.fault = '';
    this.drafts = {};
    const facts: Partial<AboutFacts> = {
      title,
      place: this.field('place'),
      herdWord: this.field('herdWord'),
      weightUnit: this.field('weightUnit') as AboutFacts['weightUnit'],
      decimalMark: chosenMark(this.field('decimalMark')),
      keepUntreated: keep / 100,
      nextSample: this.field('nextSample'),
    };
    const sets = setsOf('about', 'notebook', facts);
    await session.dispatch({ label: say('the settings of the notebook'), source: 'typed', sets });
    sayOfSettings(this, say('Kept.'));
  }

  private renderChoice(
    label: string,
    name: string,
    options: readonly (readonly [value: string, words: string])[],
    chosen: string | undefined,
    hint = '',
  ): TemplateResult {
    return html`
      <label class="field">
        ${label}
        <select name=${name}>
          ${options.map(
            ([value, words]) =>
              html`<option value=${value} .selected=${value === (this.drafts[name] ?? chosen)}>
                ${words}
              </option>`,
          )}
        </select>
        ${hint ? html`<span class="hint">${hint}</span>` : nothing}
      </label>
    `;
  }

  protected override render(): TemplateResult {
    const about = this.about.value ?? {};
    // As chosen in the form, kept or not: the share is written by it, and read by it.
    const mark = chosenMark(this.drafts['decimalMark'] ?? about.decimalMark);
    // Twelve digits: 0.1255 is 12.55 %, and not the 12.549999999999999 of binary fractions.
    const percent = Number(((about.keepUntreated ?? 0.1) * 100).toPrecision(12));
    const text = (name: string, known = ''): string => this.drafts[name] ?? known;
    return html`
      <form @submit=${this.onSubmit} @input=${this.onInput} novalidate>
        <div class="row">
          <label class="field">
            ${say('Name')}
            <input name="title" autocomplete="off" .value=${text('title', about.title)} />
          </label>
          <label class="field">
            ${say('Place')}
            <input name="place" autocomplete="off" .value=${text('place', about.place)} />
          </label>
        </div>
        <div class="row">
          ${this.renderChoice(
            say('Together they are a'),
            'herdWord',
            herdWords.map((word) => [word, animalWord(word)] as const),
            about.herdWord,
          )}
          ${this.renderChoice(
            say('Weights in'),
            'weightUnit',
            [
              ['kg', say('kilograms')],
              ['lb', say('pounds')],
            ],
            about.weightUnit,
            say('Weights already typed stay as they are.'),
          )}
          ${this.renderChoice(
            say('Decimal mark'),
            'decimalMark',
            [
              ['.', say('point: 41.5')],
              [',', say('comma: 41,5')],
            ],
            mark,
          )}
          <label class="field">
            ${say('Leave untreated at least, %')}
            <input
              name="keep"
              inputmode="decimal"
              autocomplete="off"
              .value=${text('keep', writeNumber(percent, mark))}
            />
          </label>
        </div>
        <label class="field">
          ${say('When to sample next, in your own words')}
          <input
            name="nextSample"
            autocomplete="off"
            .value=${text('nextSample', about.nextSample)}
          />
        </label>
        ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
        <div class="actions">
          ${notKept(Object.keys(this.drafts).length > 0, () => {
            this.drafts = {};
            this.fault = '';
          })}
          <button class="main">${say('Keep these')}</button>
        </div>
      </form>
    `;
  }
}

customElements.define('sd-about-form', SdAboutForm);

declare global {
  interface HTMLElementTagNameMap {
    'sd-about-form': SdAboutForm;
  }
}
