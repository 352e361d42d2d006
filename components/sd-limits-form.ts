import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Limit } from '../shared/notebook.ts';
import { fault, isFault, type Fault } from '../shared/value.ts';
import { changeLimit, type Reach } from '../src/notebook/edit-days.ts';
import { keyFromLabel } from '../src/notebook/key-name.ts';
import { limitWordOn, type Word } from '../src/notebook/limit-words.ts';
import { aboutOf, limitsOf, limitValue } from '../src/notebook/read.ts';
import { orderAtEnd, setsOf } from '../src/notebook/record-sets.ts';
import { parseNumber, writeNumber, type DecimalMark } from '../src/text/decimal-text.ts';
import { formText } from './form-text.ts';
import { notKept } from './not-kept.ts';
import { reachField } from './reach-field.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { sayOfSettings } from './settings-said.ts';
import { formStyles } from './form-styles.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

interface Draft {
  readonly value?: string;
  readonly saidBy?: string;
}

/** The value of a limit as it was typed, or why it cannot be one. */
function parseLimit(text: string, mark: DecimalMark): number | Fault {
  const value = parseNumber(text, mark);
  return isFault(value) || value >= 0
    ? value
    : fault('below-zero', say('Type a number of 0 or more.'));
}

/**
 * The limits that criteria and figures use: each with who said so. One that came with the template is
 * an example until the person makes it theirs by keeping it.
 */
export class SdLimitsForm extends LitElement {
  static override properties = {
    drafts: { state: true },
    reach: { state: true },
    faults: { state: true },
    newFault: { state: true },
  };

  static override styles = [
    ...theme,
    formStyles,
    css`
      @media (min-width: 37.5625em) {
        .said {
          grid-template-columns: 9em 1fr;
        }
      }
    `,
  ];

  declare private drafts: Readonly<Record<string, Draft>>;
  declare private reach: Reach;
  declare private faults: Readonly<Record<string, string>>;
  declare private newFault: string;
  private readonly limits = new Select(this, (session) => limitsOf(session.notebook));
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.drafts = {};
    this.reach = 'from this day on';
    this.faults = {};
    this.newFault = '';
    new Select(this, (session) => session.notebook.settings);
    new Select(this, (session) => session.openDay);
  }

  /** The next change reaches from its day on again, whatever was chosen for the one before. */
  forgetReach(): void {
    this.reach = 'from this day on';
  }

  private get mark(): DecimalMark {
    const { session } = this.limits;
    return (session && aboutOf(session.notebook).decimalMark) ?? '.';
  }

  private valueText(limit: Limit): string {
    const { session } = this.limits;
    const typed = this.draftOf(limit.id)?.value;
    if (typed !== undefined) return typed;
    const value = session && limitValue(session.notebook, session.openDay ?? 'default', limit.id);
    return value === undefined ? '' : writeNumber(value, this.mark);
  }

  /** Who said so of a limit as it holds on the open day. */
  private wordOf(limit: Limit): Word {
    const { session } = this.limits;
    return session ? limitWordOn(session.notebook, session.openDay ?? '', limit) : limit;
  }

  private draftOf(id: string): Draft | undefined {
    return this.drafts[this.place(id)];
  }

  /** Where a draft and its fault are held: what is typed for one day is not shown for another. */
  private place(id: string): string {
    return `${this.limits.session?.openDay ?? ''} ${id}`;
  }

  private type(id: string, draft: Draft | undefined): void {
    const { [this.place(id)]: former, ...others } = this.drafts;
    this.drafts = draft ? { ...others, [this.place(id)]: { ...former, ...draft } } : others;
    this.faults = { ...this.faults, [this.place(id)]: '' };
  }

  private async keep(limit: Limit): Promise<void> {
    const { session } = this.limits;
    if (!session?.mayWrite()) return;
    const value = parseLimit(this.valueText(limit), this.mark);
    if (isFault(value)) {
      this.faults = { ...this.faults, [this.place(limit.id)]: value.sentence };
      return;
    }
    const day = session.openDay ?? '';
    const typed = this.draftOf(limit.id)?.saidBy ?? this.wordOf(limit).saidBy ?? '';
    const edit = changeLimit(session.notebook, day, limit.id, value, this.reach, typed.trim());
    this.type(limit.id, undefined);
    await session.dispatch(edit);
    sayOfSettings(this, say('{limit} is kept, and yours.', { limit: limit.label ?? limit.key }));
  }

  private async add(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const { session } = this.limits;
    const form = event.target as HTMLFormElement;
    const label = formText(form, 'label');
    const value = parseLimit(formText(form, 'value'), this.mark);
    const id = this.services.value?.newId();
    if (!session?.mayWrite() || id === undefined) return;
    if (label === '') this.newFault = say('Give the limit a name, like "treat goats from".');
    else if (isFault(value))
      this.newFault = say('The value: {sentence}', { sentence: value.sentence });
    else {
      const { notebook } = session;
      const key = keyFromLabel(notebook, label);
      const facts = {
        key,
        label,
        unit: formText(form, 'unit'),
        confirmed: true,
        order: orderAtEnd(limitsOf(notebook)),
      };
      const days = ['default', ...Object.keys(notebook.days)];
      await session.dispatch({
        label: say('adding the limit {limit}', { limit: label }),
        source: 'typed',
        sets: [
          ...setsOf('limits', id, facts),
          ...days.map((day) => ({ path: ['settings', day, id] as const, value })),
        ],
      });
      this.newFault = '';
      form.reset();
      sayOfSettings(
        this,
        say('{limit} is added. Its name in formulas is {name}.', { limit: label, name: key }),
      );
    }
  }

  private renderLimit(limit: Limit): TemplateResult {
    const name = limit.label ?? limit.key;
    const fault = this.faults[this.place(limit.id)] ?? '';
    const word = this.wordOf(limit);
    return html`
      <div class="one">
        <div class="head">
          <h3>${name}</h3>
          <span class="small soft">${say('{name} in formulas', { name: limit.key })}</span>
          ${
            word.confirmed === true
              ? nothing
              : html`<span class="chip open">${say('example, not yet yours')}</span>`
          }
        </div>
        ${limit.help ? html`<p class="small soft">${limit.help}</p>` : nothing}
        <div class="row said">
          <label class="field">
            ${limit.unit ? say('Value, {unit}', { unit: limit.unit }) : say('Value')}
            <input
              inputmode="decimal"
              autocomplete="off"
              aria-label=${say('{limit}, value', { limit: name })}
              aria-invalid=${fault ? 'true' : 'false'}
              .value=${this.valueText(limit)}
              @input=${(event: Event) =>
                this.type(limit.id, { value: (event.target as HTMLInputElement).value })}
            />
          </label>
          <label class="field">
            ${say('Who said so')}
            <input
              autocomplete="off"
              aria-label=${say('{limit}, who said so', { limit: name })}
              .value=${this.draftOf(limit.id)?.saidBy ?? word.saidBy ?? ''}
              @input=${(event: Event) =>
                this.type(limit.id, { saidBy: (event.target as HTMLInputElement).value })}
            />
          </label>
        </div>
        ${fault ? html`<p class="fault" role="alert">${fault}</p>` : nothing}
        <div class="head">
          <button @click=${() => this.keep(limit)}>
            ${word.confirmed === true ? say('Keep the change') : say('Keep it as mine')}<span
              class="visually-hidden"
              >: ${name}</span
            >
          </button>
          ${notKept(this.draftOf(limit.id) !== undefined, () => this.type(limit.id, undefined))}
        </div>
      </div>
    `;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { session } = this.limits;
    if (!session) return nothing;
    return html`
      <div class="form">
        <p class="soft">
          ${say('A limit counts as reached at its own figure: 500 means 500 or more. Set yours with your vet.')}
        </p>
        ${reachField(session, this.reach, (reach) => {
          this.reach = reach;
        })}
        ${(this.limits.value ?? []).map((limit) => this.renderLimit(limit))}
        <form class="one" @submit=${this.add} novalidate>
          <h3>${say('Add a limit')}</h3>
          <div class="row">
            <label class="field">${say('Name')} <input name="label" autocomplete="off" /></label>
            <label class="field">
              ${say('Value')} <input name="value" inputmode="decimal" autocomplete="off" />
            </label>
            <label class="field">${say('Unit')} <input name="unit" autocomplete="off" /></label>
          </div>
          ${this.newFault ? html`<p class="fault" role="alert">${this.newFault}</p>` : nothing}
          <div><button>${say('Add the limit')}</button></div>
        </form>
      </div>
    `;
  }
}

customElements.define('sd-limits-form', SdLimitsForm);

declare global {
  interface HTMLElementTagNameMap {
    'sd-limits-form': SdLimitsForm;
  }
}
