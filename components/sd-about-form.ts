import { LitElement, html, nothing, type TemplateResult } from 'lit';
import type { AboutFacts } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { aboutOf } from '../src/notebook/read.ts';
import { setsOf } from '../src/notebook/record-sets.ts';
import { parseNumber, writeNumber } from '../src/text/decimal-text.ts';
import { animalWord, herdWords } from './animal-words.ts';
import { Select } from './selector-controller.ts';
import { sayOfSettings } from './settings-said.ts';
import { formStyles } from './form-styles.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/** The notebook's name and place, its words and units. Switching a unit changes no weight typed. */
export class SdAboutForm extends LitElement {
  static override properties = { fault: { state: true } };

  static override styles = [...theme, formStyles];

  declare private fault: string;
  private readonly about = new Select(this, (session) => aboutOf(session.notebook));

  constructor() {
    super();
    this.fault = '';
  }

  private field(name: string): string {
    return this.renderRoot.querySelector<HTMLInputElement>(`[name="${name}"]`)?.value.trim() ?? '';
  }

  private async onSubmit(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const { session, value: about } = this.about;
    if (!session) return;
    const title = this.field('title');
    const keep = parseNumber(this.field('keep'), about?.decimalMark ?? '.');
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
    const facts: Partial<AboutFacts> = {
      title,
      place: this.field('place'),
      herdWord: this.field('herdWord'),
      weightUnit: this.field('weightUnit') as AboutFacts['weightUnit'],
      decimalMark: this.field('decimalMark') as AboutFacts['decimalMark'],
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
              html`<option value=${value} .selected=${value === chosen}>${words}</option>`,
          )}
        </select>
        ${hint ? html`<span class="hint">${hint}</span>` : nothing}
      </label>
    `;
  }

  protected override render(): TemplateResult {
    const about = this.about.value ?? {};
    const mark = about.decimalMark ?? '.';
    const keep = writeNumber(Math.round((about.keepUntreated ?? 0.1) * 1000) / 10, mark);
    return html`
      <form @submit=${this.onSubmit} novalidate>
        <div class="row">
          <label class="field">
            ${say('Name')} <input name="title" autocomplete="off" .value=${about.title ?? ''} />
          </label>
          <label class="field">
            ${say('Place')} <input name="place" autocomplete="off" .value=${about.place ?? ''} />
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
            <input name="keep" inputmode="decimal" autocomplete="off" .value=${keep} />
          </label>
        </div>
        <label class="field">
          ${say('When to sample next, in your own words')}
          <input name="nextSample" autocomplete="off" .value=${about.nextSample ?? ''} />
        </label>
        ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
        <div class="actions"><button class="main">${say('Keep these')}</button></div>
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
