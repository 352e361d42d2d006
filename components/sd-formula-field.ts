import { LitElement, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { isFault, type Fault, type Value } from '../shared/value.ts';
import {
  completionsAt,
  type Completion,
  type Completions,
  type FormulaPlace,
} from '../src/engine/formula-completion.ts';
import { groupsOn } from '../src/notebook/present.ts';
import { aboutOf } from '../src/notebook/read.ts';
import { afterPress } from './after-press.ts';
import { figureText } from './figure-text.ts';
import { formulaFieldStyles } from './formula-field-styles.ts';
import { argumentHint, markedFormula } from './formula-marks.ts';
import { FormulaPanels } from './formula-panels.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/** What was typed, in current names, and what keeps it from standing; null when nothing does. */
export interface FormulaChange {
  readonly value: string;
  readonly fault: Fault | null;
}

/** A pause this long shows what is wrong, ms; before, every half-typed formula would be scolded. */
const SETTLE_MS = 700;
const MOST_SHOWN = 60;

/**
 * One line for a formula in current names: names and functions to choose from while typing, a hint of the
 * arguments, and what is wrong and where once the person pauses or leaves. It needs a session above it.
 *
 *     <sd-formula-field label="Formula" place="figure" .value=${shown}
 *       @sd-formula-change=${(e: CustomEvent<FormulaChange>) => …}></sd-formula-field>
 *
 * `place`: `column`, `figure` or `criterion`. `ownKey`: the name the formula will bear, so that a loop is found.
 * `row`: the animal for which "gives …" is shown. Enter and Escape reach the element around it, unless
 * the list of names was open and took them. Fires `sd-formula-change` at every keystroke.
 */
export class SdFormulaField extends LitElement {
  static override properties = {
    value: { type: String },
    place: { type: String },
    label: { type: String },
    isLabelHidden: { type: Boolean, attribute: 'label-hidden' },
    ownKey: { type: String, attribute: 'own-key' },
    row: { type: String },
    completions: { state: true },
    active: { state: true },
    isSettled: { state: true },
    caret: { state: true },
    hasFocus: { state: true },
  };

  static override styles = [...theme, formulaFieldStyles];

  declare value: string;
  declare place: FormulaPlace;
  declare label: string;
  declare isLabelHidden: boolean;
  declare ownKey: string | undefined;
  declare row: string | undefined;
  declare private completions: Completions | null;
  declare private active: number;
  declare private isSettled: boolean;
  declare private caret: number;
  declare private hasFocus: boolean;
  private settling: ReturnType<typeof setTimeout> | undefined;
  private readonly names = new Select(this, ({ notebook }) => notebook, {
    same: (a, b) => a.columns === b.columns && a.limits === b.limits && a.figures === b.figures,
  });
  private readonly panels = new FormulaPanels(this);

  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };

  constructor() {
    super();
    this.value = '';
    this.place = 'column';
    this.label = say('Formula');
    this.isLabelHidden = false;
    this.completions = null;
    this.active = -1;
    this.isSettled = true;
    this.caret = 0;
    this.hasFocus = false;
  }

  /** What keeps the formula from standing; null when nothing does or no notebook is open. */
  get fault(): Fault | null {
    return this.names.session?.engine.check(this.value, this.place, this.ownKey) ?? null;
  }

  /** Puts a name (or `EPG(`) in at the caret, in place of what is selected, and goes on from there. */
  insertName(name: string): void {
    const from = this.input?.selectionStart ?? this.value.length;
    const to = this.input?.selectionEnd ?? from;
    this.replace(from, to, name);
    this.input?.focus();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    clearTimeout(this.settling);
    this.panels.follow(false);
  }

  private get input(): HTMLInputElement | null {
    return this.renderRoot?.querySelector('input') ?? null;
  }

  private get items(): readonly Completion[] {
    return this.completions?.items.slice(0, MOST_SHOWN) ?? [];
  }

  private onInput(event: Event): void {
    const input = event.target as HTMLInputElement;
    this.change(input.value, input.selectionStart ?? input.value.length);
  }

  private change(value: string, caret: number): void {
    this.value = value;
    this.caret = caret;
    this.isSettled = false;
    clearTimeout(this.settling);
    this.settling = setTimeout(() => this.settle(), SETTLE_MS);
    this.offer(false);
    const detail: FormulaChange = { value, fault: this.fault };
    this.dispatchEvent(
      new CustomEvent('sd-formula-change', { detail, bubbles: true, composed: true }),
    );
  }

  /** Works out what could stand at the caret; with an empty word only when asked for. */
  private offer(isAsked: boolean): void {
    const { session } = this.names;
    this.active = -1;
    if (!session) return;
    const { notebook, openDay } = session;
    const groups = openDay === null ? [] : groupsOn(notebook, openDay);
    const found = completionsAt(notebook, this.value, this.caret, this.place, groups);
    const isAfterPoint = /[.["“]$/.test(this.value.slice(0, found.from));
    const only = found.items.length === 1 && found.items[0]?.insert === found.word;
    const isWanted = isAsked || found.word !== '' || isAfterPoint;
    this.completions = isWanted && !only && found.items.length > 0 ? found : null;
  }

  private onKeydown(event: KeyboardEvent): void {
    const { items } = this;
    const isOpen = items.length > 0;
    const isAsk = event.key === ' ' && event.ctrlKey;
    if (isAsk || (event.key === 'ArrowDown' && !isOpen)) this.offer(true);
    else if (event.key === 'ArrowDown') this.active = (this.active + 1) % items.length;
    else if (event.key === 'ArrowUp' && isOpen)
      this.active = this.active <= 0 ? items.length - 1 : this.active - 1;
    else if (event.key === 'Escape' && isOpen) this.completions = null;
    else if ((event.key === 'Enter' || event.key === 'Tab') && items[this.active])
      this.accept(items[this.active]);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  private accept(item: Completion | undefined): void {
    const { completions } = this;
    if (!item || !completions) return;
    const isOpened = item.insert.endsWith('(') && this.value[completions.to] === '(';
    this.replace(completions.from, completions.to + (isOpened ? 1 : 0), item.insert);
    this.input?.focus();
  }

  private replace(from: number, to: number, text: string): void {
    const caret = from + text.length;
    this.change(this.value.slice(0, from) + text + this.value.slice(to), caret);
    if (!text.endsWith('.')) this.completions = null;
    void this.updateComplete.then(() => this.input?.setSelectionRange(caret, caret));
  }

  private onCaret(): void {
    const caret = this.input?.selectionStart ?? 0;
    if (caret !== this.caret) this.completions = null;
    this.caret = caret;
  }

  private onFocus(): void {
    this.hasFocus = true;
    this.onCaret();
  }

  private onBlur(): void {
    this.hasFocus = false;
    this.showOutcome();
  }

  /**
   * Shows what is wrong, or what the formula gives, without waiting for a pause; the names to choose from
   * would lie over it.
   */
  showOutcome(): void {
    this.completions = null;
    this.settle();
  }

  /** What stands below may move by what is shown, so a press that has begun there ends first. */
  private settle(): void {
    clearTimeout(this.settling);
    afterPress(() => (this.isSettled = true));
  }

  private get isAnswered(): boolean {
    return this.place === 'figure' || this.row !== undefined;
  }

  protected override updated(_changed: PropertyValues): void {
    this.panels.renew();
    this.renderRoot.querySelector('[aria-selected="true"]')?.scrollIntoView({ block: 'nearest' });
  }

  private renderOption(item: Completion, index: number): TemplateResult {
    const isActive = index === this.active;
    return html`<div
      role="option"
      id=${`option-${index}`}
      aria-selected=${isActive ? 'true' : 'false'}
      @pointerdown=${(event: Event) => event.preventDefault()}
      @click=${() => this.accept(item)}
      @keydown=${this.onKeydown}
    >
      <code>${item.name}</code>
      <span class="help">${item.help}</span>
    </div>`;
  }

  private renderOutcome(fault: Fault | null): TemplateResult | typeof nothing {
    if (!this.isSettled || this.value.trim() === '') return nothing;
    if (fault)
      return html`${markedFormula(this.value, fault)} <span class="fault">${fault.sentence}</span>`;
    const { session } = this.names;
    if (!session || !this.isAnswered || session.openDay === null) return nothing;
    return html`<span class="soft"
      >${say('gives {answer}', { answer: this.words(session.engine.evaluate(this.value, this.row)) })}</span
    >`;
  }

  private words(value: Value): string {
    if (value === null) return say('no answer');
    if (isFault(value)) return say('no figure: {sentence}', { sentence: value.sentence });
    if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
    const { session } = this.names;
    const mark = (session && aboutOf(session.notebook).decimalMark) ?? '.';
    return typeof value === 'number' ? figureText(value, undefined, mark) : value;
  }

  protected override render(): TemplateResult {
    const { items } = this;
    const fault = this.value.trim() === '' ? null : this.fault;
    const isWrong = this.isSettled && fault !== null;
    const hint = this.hasFocus ? argumentHint(this.value, this.caret) : null;
    const isChoosing = this.hasFocus && items.length > 0;
    return html`
      <label id="label" for="formula" class=${this.isLabelHidden ? 'visually-hidden' : 'label'}>
        ${this.label}
      </label>
      <input
        id="formula"
        role="combobox"
        aria-labelledby="label"
        aria-autocomplete="list"
        aria-controls="names"
        aria-expanded=${items.length > 0 ? 'true' : 'false'}
        aria-activedescendant=${this.active >= 0 ? `option-${this.active}` : nothing}
        aria-invalid=${isWrong ? 'true' : nothing}
        aria-describedby="outcome hint"
        autocomplete="off"
        autocapitalize="off"
        autocorrect="off"
        spellcheck="false"
        enterkeyhint="done"
        .value=${this.value}
        @input=${this.onInput}
        @keydown=${this.onKeydown}
        @keyup=${this.onCaret}
        @click=${this.onCaret}
        @focus=${this.onFocus}
        @blur=${this.onBlur}
      />
      <div id="outcome" class=${this.isAnswered ? 'outcome answered' : 'outcome'} role="status">
        ${this.renderOutcome(fault)}
      </div>
      <div class="panel hint-panel" popover="manual" data-wanted=${hint ? 'yes' : 'no'}>
        <div id="hint" class="hint-line">${hint ?? nothing}</div>
      </div>
      <div class="panel names-panel" popover="manual" data-wanted=${isChoosing ? 'yes' : 'no'}>
        <div id="names" class="names menu" role="listbox" aria-label=${say('Names and functions')}>
          ${items.map((item, index) => this.renderOption(item, index))}
        </div>
      </div>
    `;
  }
}

customElements.define('sd-formula-field', SdFormulaField);

declare global {
  interface HTMLElementTagNameMap {
    'sd-formula-field': SdFormulaField;
  }
}
