import { LitElement, html, nothing, type TemplateResult } from 'lit';
import type { Edit, SetTo } from '../shared/edit.ts';
import type { Notebook } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { changeLimit, type Reach } from '../src/notebook/edit-days.ts';
import { changeBlock } from '../src/notebook/edit-records.ts';
import { limitWordOn } from '../src/notebook/limit-words.ts';
import { blocksOf, dayOf, limitsOf, markOf } from '../src/notebook/read.ts';
import { orderAtEnd, setsOf } from '../src/notebook/record-sets.ts';
import { parseNumber, writeNumber } from '../src/text/decimal-text.ts';
import { limitByKey } from '../src/treating/limit-by-key.ts';
import { changeProduct, productName, productOf } from '../src/treating/product.ts';
import { EXPECTED_PERCENT, THRESHOLD_PERCENT } from '../src/treating/reduction-check.ts';
import { sampleWindow } from '../src/treating/sample-window.ts';
import { checkStyles } from './check-styles.ts';
import { dayWords } from '../src/text/day-words.ts';
import { formText } from './form-text.ts';
import { reaches } from './reach-field.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import { ruleOf } from './verdict-rule.ts';
import { say } from '../src/text/say.ts';

const KEYS = ['expected_efficacy', 'efficacy_threshold'] as const;
type LimitKey = (typeof KEYS)[number];

const FACTS: Readonly<Record<LimitKey, { readonly label: string; readonly start: number }>> = {
  expected_efficacy: { label: say('Expected reduction'), start: EXPECTED_PERCENT },
  efficacy_threshold: { label: say('Lower threshold'), start: THRESHOLD_PERCENT },
};

/**
 * What a dewormer check is held against, each for the person to set: expected reduction and threshold of the second
 * day (with their reach), the days to the second sample of each product, and when a verdict may stand at all.
 */
export class SdCheckLimits extends LitElement {
  static override properties = {
    blockId: { type: String },
    day: { type: String },
    products: { attribute: false },
    fault: { state: true },
    said: { state: true },
  };

  static override styles = [...theme, checkStyles];

  declare blockId: string;
  /** The second sampling day. */
  declare day: string;
  declare products: readonly string[];
  declare private fault: string;
  declare private said: string;
  private readonly block = new Select(this, (session) =>
    blocksOf(session.notebook).find(({ id }) => id === this.blockId),
  );

  constructor() {
    super();
    this.blockId = '';
    this.day = '';
    this.products = [];
    this.fault = '';
    this.said = '';
    new Select(this, (session) => session.notebook.settings);
    new Select(this, (session) => session.notebook.limits);
    new Select(this, (session) => session.notebook.products);
  }

  private mark(notebook: Notebook): '.' | ',' {
    return markOf(notebook);
  }

  private async keepLimits(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const { session } = this.block;
    const form = event.target as HTMLFormElement;
    if (!session?.mayWrite()) return;
    const { notebook } = session;
    const [expected, threshold] = KEYS.map((key) =>
      parseNumber(formText(form, key), this.mark(notebook)),
    );
    this.said = '';
    if (isFault(expected) || expected === undefined || expected <= 0 || expected > 100)
      this.fault = say('The expected reduction is a number up to 100 %.');
    else if (isFault(threshold) || threshold === undefined || threshold <= 0)
      this.fault = say('The lower threshold is a number above 0 %.');
    else if (threshold >= expected)
      this.fault = say('The lower threshold must be below the expected reduction.');
    else {
      const reach = formText(form, 'reach') as Reach;
      const saidBy = formText(form, 'saidBy');
      this.fault = '';
      await session.dispatch(
        limitsEdit(notebook, this.day, { expected, threshold, saidBy }, reach),
      );
      this.said = say('Kept, and yours.');
    }
  }

  private async keepWindow(event: SubmitEvent, product: string): Promise<void> {
    event.preventDefault();
    const { session } = this.block;
    const form = event.target as HTMLFormElement;
    if (!session?.mayWrite()) return;
    const texts = [formText(form, 'from'), formText(form, 'to')];
    const days = texts.map((text) =>
      text === '' ? null : parseNumber(text, this.mark(session.notebook)),
    );
    const wrong = days.find(isFault);
    const [sampleFromDays = null, sampleToDays = null] = days.map((day) =>
      isFault(day) ? null : day,
    );
    const edit =
      wrong ?? changeProduct(session.notebook, product, { sampleFromDays, sampleToDays });
    this.said = '';
    this.fault = isFault(edit) ? edit.sentence : '';
    if (isFault(edit)) return;
    await session.dispatch(edit);
    this.said = say('Kept.');
  }

  private async keepRule(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const { session, value: block } = this.block;
    const form = event.target as HTMLFormElement;
    if (!session?.mayWrite() || !block) return;
    const [fewest, share] = [formText(form, 'fewest'), formText(form, 'share')];
    this.said = '';
    if (!/^\d{1,3}$/.test(fewest) || Number(fewest) < 2)
      this.fault = say('The fewest animals with eggs is a whole number from 2.');
    else if (!/^\d{1,3}$/.test(share) || Number(share) < 1 || Number(share) > 100)
      this.fault = say('The largest share of one animal is from 1 to 100 %.');
    else {
      this.fault = '';
      const choices = { ...block.choices, fewest, share };
      await session.dispatch(
        changeBlock(block.id, { choices }, say('the conditions of a verdict')),
      );
      this.said = say('Kept.');
    }
  }

  private renderLimits(notebook: Notebook): TemplateResult {
    const mark = this.mark(notebook);
    const limits = limitsOf(notebook).filter(({ key }) => KEYS.includes(key as LimitKey));
    const [word, other] = limits.map((limit) => limitWordOn(notebook, this.day, limit));
    const isOwn = word?.confirmed === true && other?.confirmed === true;
    const day = dayOf(notebook, this.day);
    const words = day ? dayWords(day) : this.day;
    const reachWords: Readonly<Record<Reach, string>> = {
      'from this day on': say('from {day} on', { day: words }),
      'only this day': say('only {day}', { day: words }),
      'every day': say('every day, past ones too'),
    };
    return html`
      <form @submit=${this.keepLimits} novalidate>
        <h4>${say('What it is held against')}</h4>
        <p class="small soft">
          ${
            isOwn
              ? (word?.saidBy ?? '')
              : say(
                  '99 % and 90 % are from memory of the 2023 guideline: check with your vet. 95 % is another threshold in use.',
                )
          }
        </p>
        <div class="limits">
          ${KEYS.map(
            (key) =>
              html`<label class="field">
                ${FACTS[key].label}, %
                <input
                  name=${key}
                  inputmode="decimal"
                  autocomplete="off"
                  .value=${writeNumber(limitByKey(notebook, this.day, key) ?? FACTS[key].start, mark)}
                />
              </label>`,
          )}
          <label class="field">
            ${say('Who said so')}
            <input name="saidBy" autocomplete="off" .value=${isOwn ? (word?.saidBy ?? '') : ''} />
          </label>
          <label class="field">
            ${say('Holds')}
            <select name="reach">
              ${reaches.map((reach) => html`<option value=${reach}>${reachWords[reach]}</option>`)}
            </select>
          </label>
        </div>
        <button>${say('Keep these as mine')}</button>
      </form>
    `;
  }

  private renderWindow(notebook: Notebook, id: string): TemplateResult {
    const product = productOf(notebook, id);
    const name = productName(notebook, id);
    const window = sampleWindow(product);
    const text = (days: number | undefined): string => (days === undefined ? '' : String(days));
    return html`
      <form @submit=${(event: SubmitEvent) => this.keepWindow(event, id)} novalidate>
        <h4>${say('Days to the second sample: {name}', { name })}</h4>
        <div class="limits">
          <label class="field">
            ${say('From day')}
            <input
              name="from"
              inputmode="numeric"
              autocomplete="off"
              placeholder=${String(window.fromDays)}
              .value=${text(product?.sampleFromDays)}
            />
          </label>
          <label class="field">
            ${say('To day')}
            <input
              name="to"
              inputmode="numeric"
              autocomplete="off"
              placeholder=${String(window.toDays)}
              .value=${text(product?.sampleToDays)}
            />
            <span class="hint"
              >${say('empty: {fromDays} to {toDays}, {why}', { fromDays: window.fromDays, toDays: window.toDays, why: window.why })}</span
            >
          </label>
        </div>
        <button aria-label=${say('Keep the days of {name}', { name })}>
          ${say('Keep the days')}
        </button>
      </form>
    `;
  }

  private renderRule(): TemplateResult {
    const rule = ruleOf(this.block.value?.choices);
    return html`
      <form @submit=${this.keepRule} novalidate>
        <h4>${say('When a verdict may stand')}</h4>
        <div class="limits">
          <label class="field">
            ${say('Animals with eggs before, at least')}
            <input
              name="fewest"
              inputmode="numeric"
              autocomplete="off"
              .value=${String(rule.fewestShedding)}
            />
          </label>
          <label class="field">
            ${say('Share of the eggs that one animal may carry, %')}
            <input
              name="share"
              inputmode="numeric"
              autocomplete="off"
              .value=${String(Math.round(100 * rule.largestShare))}
            />
          </label>
        </div>
        <button>${say('Keep the conditions')}</button>
      </form>
    `;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { session } = this.block;
    if (!session) return nothing;
    const { notebook } = session;
    return html`
      ${this.renderLimits(notebook)} ${this.products.map((id) => this.renderWindow(notebook, id))}
      ${this.renderRule()}
      ${this.fault ? html`<p class="fault small" role="alert">${this.fault}</p>` : nothing}
      <p class="small" role="status">${this.said}</p>
    `;
  }
}

/** The name of that edit, with the days it reaches. */
const reachLabels: Readonly<Record<Reach, string>> = {
  'from this day on': say('expected reduction and threshold, from this day on'),
  'only this day': say('expected reduction and threshold, only this day'),
  'every day': say('expected reduction and threshold, every day'),
};

/** Both limits as one edit; one that the notebook lacks is made. */
function limitsEdit(
  notebook: Notebook,
  day: string,
  typed: { readonly expected: number; readonly threshold: number; readonly saidBy: string },
  reach: Reach,
): Edit {
  const values: Readonly<Record<LimitKey, number>> = {
    expected_efficacy: typed.expected,
    efficacy_threshold: typed.threshold,
  };
  const sets: SetTo[] = KEYS.flatMap((key) => {
    const there = limitsOf(notebook).find((limit) => limit.key === key);
    const id = there?.id ?? `l-${key}`;
    const { label } = FACTS[key];
    const made = there ? {} : { key, label, unit: '%', order: orderAtEnd(limitsOf(notebook)) };
    return [
      ...setsOf('limits', id, made),
      ...changeLimit(notebook, day, id, values[key], reach, typed.saidBy).sets,
    ];
  });
  return {
    label: reachLabels[reach],
    source: 'typed',
    sets,
  };
}

customElements.define('sd-check-limits', SdCheckLimits);

declare global {
  interface HTMLElementTagNameMap {
    'sd-check-limits': SdCheckLimits;
  }
}
