import { LitElement, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { isFault, type Fault } from '../shared/value.ts';
import { toStored } from '../src/engine/stored-formula.ts';
import { changeColumn } from '../src/notebook/edit-records.ts';
import { columnOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { askOrigin } from './ask-origin.ts';
import { formulaLeftOver } from './formula-left-over.ts';
import { formulaBarStyles } from './formula-bar-styles.ts';
import { barWords, type BarWords } from './formula-bar-words.ts';
import type { Place } from './grid-place.ts';
import type { LeftOver } from './left-over.ts';
import { laneSelect } from './lane-select.ts';
import { naming } from './naming.ts';
import { settled } from './next-frame.ts';
import { tell } from './page-message.ts';
import type { FormulaChange, SdFormulaField } from './sd-formula-field.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-formula-field.ts';
import './sd-sureness.ts';
import { say, sayParts, spokenLocale } from '../src/text/say.ts';

/**
 * The line above the counts: whose cell has the focus, what was typed and when, or where the figure
 * comes from. The formula of a column is changed here, once for all animals; while it is, a click on
 * a cell, the name of a column or a figure puts its name in. What was typed and not kept is there again
 * when the formula of the same column is opened next.
 *
 *     <sd-formula-bar .cell=${cell} @sd-done=${() => grid.focus()}></sd-formula-bar>
 */
export class SdFormulaBar extends LitElement {
  static override properties = {
    cell: { attribute: false },
    draft: { state: true },
    fault: { state: true },
  };

  static override styles = [...theme, formulaBarStyles];

  /** The cell that has the focus; null while none has. */
  declare cell: Place | null;
  declare private draft: string | null;
  declare private fault: Fault | null;
  /** The formula that stands, while it is being changed. */
  private kept = '';
  private notices = 0;
  private readonly heard = new Select(this, () => (this.notices += 1));
  private readonly insert = (name: string): void => this.field?.insertName(name);

  constructor() {
    super();
    this.cell = null;
    this.draft = null;
    this.fault = null;
  }

  private get field(): SdFormulaField | null {
    return this.renderRoot.querySelector('sd-formula-field');
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.close();
  }

  /** One typed count comes to several notices; they are drawn together. */
  protected override async scheduleUpdate(): Promise<void> {
    if (this.hasUpdated) await settled(this.heard.session);
    await super.scheduleUpdate();
  }

  protected override async getUpdateComplete(): Promise<boolean> {
    const isDone = await super.getUpdateComplete();
    await this.renderRoot.querySelector('sd-sureness')?.updateComplete;
    return isDone;
  }

  protected override willUpdate(changed: PropertyValues<{ cell: Place | null }>): void {
    const former = changed.get('cell');
    const isOther = changed.has('cell') && former?.column !== this.cell?.column;
    if (isOther && this.draft !== null) this.close();
  }

  private get leftOver(): LeftOver<string> | undefined {
    const { session } = this.heard;
    return session ? formulaLeftOver(session.notebook.id) : undefined;
  }

  private begin(formula: string): void {
    const { cell } = this;
    if (!cell) return;
    this.draft = this.leftOver?.open(cell.column, formula) ?? formula;
    this.kept = formula;
    this.fault = null;
    naming.begin(this.insert);
    void this.updateComplete.then(() => this.toEnd());
  }

  private startAfresh(): void {
    this.leftOver?.drop();
    this.begin(this.kept);
  }

  /** The cursor behind the formula, so that typing goes on from it and replaces nothing. */
  private async toEnd(): Promise<void> {
    const { field } = this;
    await field?.updateComplete;
    field?.focus();
    const input = field?.renderRoot.querySelector('input');
    input?.setSelectionRange(input.value.length, input.value.length);
  }

  private close(): void {
    this.draft = null;
    this.fault = null;
    naming.end(this.insert);
  }

  private cancel(): void {
    this.leftOver?.drop();
    this.close();
    this.done();
  }

  private done(): void {
    this.dispatchEvent(new CustomEvent('sd-done', { bubbles: true, composed: true }));
  }

  private async keep(): Promise<void> {
    const { session } = this.heard;
    const { draft, cell } = this;
    const column = session && cell && columnOf(session.notebook, cell.column);
    if (!session || !column || draft === null) return;
    const shown = draft.trim().replace(/^=\s*/, '');
    const wrong =
      shown === ''
        ? { fault: 'empty', sentence: say('Write a formula, or take it back with Escape.') }
        : session.engine.check(shown, 'column', column.key);
    if (wrong) {
      // The line itself says what is wrong in it, and where.
      if (this.field?.fault) this.field.showOutcome();
      else this.fault = wrong;
      return;
    }
    const edit = changeColumn(session.notebook, column.id, {
      formula: toStored(session.notebook, shown),
    });
    if (isFault(edit)) {
      this.fault = edit;
      return;
    }
    if (!session.mayWrite()) return;
    const kept = session.dispatch({
      ...edit,
      label: say('the formula of {column}', { column: column.label ?? column.key }),
    });
    this.leftOver?.drop();
    this.close();
    // Before the figures are worked out anew: the next key is the grid's already.
    this.done();
    await kept;
    const words = say('The formula of {column} is kept.', { column: column.label ?? column.key });
    tell(this, words, 'with undo');
  }

  private onKeydown(event: KeyboardEvent): void {
    // Enter on a button means what the button says.
    const isOnButton = event.composedPath()[0] instanceof HTMLButtonElement;
    if (event.defaultPrevented || (isOnButton && event.key === 'Enter')) return;
    if (event.key === 'Enter') void this.keep();
    else if (event.key === 'Escape') this.cancel();
    else return;
    event.preventDefault();
  }

  private onChange(event: CustomEvent<FormulaChange>): void {
    const { value } = event.detail;
    this.draft = value;
    this.fault = null;
    if (value === this.kept) this.leftOver?.drop();
    else this.leftOver?.hold(value);
  }

  protected override render(): TemplateResult | typeof nothing {
    const { session } = this.heard;
    const words = session && this.cell ? barWords(session, this.cell, momentText) : null;
    if (!session || !this.cell || !words)
      return html`<div class="line">
        <span class="where"
          >${say('Choose a cell to see what it holds and where it comes from.')}</span
        >
      </div>`;
    if (this.draft !== null) return this.editTemplate(words, this.cell);
    return html`<div class="line">
        <span class="where"><b>${words.tag}</b> · ${words.at}</span>
        <span class="what">${this.whatTemplate(words)}</span>
        <span
          class=${words.fault === null ? 'why' : 'why fault'}
          title=${words.fault ?? words.why.join(' · ')}
        >
          ${words.fault === null ? words.why.map((part) => html`<span>${part}</span>`) : words.fault}
        </span>
      </div>
      ${this.sureTemplate(session, this.cell)}`;
  }

  /** How sure the row's count is, and the way to where the figure comes from; always of one height. */
  private sureTemplate(session: Session, { day, row, column }: Place): TemplateResult {
    const isOpen = day === session.openDay;
    const kind = columnOf(session.notebook, column)?.kind;
    const isWorkedOut = kind === 'formula' || kind === 'outcome';
    return html`<div class="sure">
      ${isOpen ? html`<sd-sureness compact .row=${row}></sd-sureness>` : html`<span></span>`}
      ${
        isOpen && isWorkedOut
          ? html`<button
              class="quiet from"
              @click=${() => askOrigin(this, { kind: 'cell', row, column })}
            >
              ${say('Where it comes from')}
            </button>`
          : isOpen
            ? laneSelect(session, { day, row, column }, () => this.done())
            : nothing
      }
    </div>`;
  }

  private whatTemplate({ formula, typed }: BarWords): TemplateResult | typeof nothing {
    if (formula === null) return typed === null ? nothing : html`${typed}`;
    const button = html`<button
      class="quiet formula"
      title=${say('Change this formula for all animals')}
      @click=${() => this.begin(formula)}
    >
      = ${formula}
    </button>`;
    if (typed === null) return button;
    const own = html`<b>${typed}</b>`;
    return html`${sayParts('{typed} typed here, in place of {formula}', { typed: own, formula: button })}`;
  }

  private editTemplate(words: BarWords, cell: Place): TemplateResult {
    const session = this.heard.session;
    const column = session && columnOf(session.notebook, cell.column);
    const name = column?.label ?? column?.key ?? '';
    // What the formula's own keys do not use (Enter, Escape) comes up to this element.
    return html`<div class="edit" @keydown=${this.onKeydown}>
      ${this.leftOver?.line(() => this.startAfresh()) ?? nothing}
      <sd-formula-field
        label=${say('{name}, for every animal =', { name })}
        place="column"
        own-key=${column?.key ?? nothing}
        .row=${cell.row}
        .value=${this.draft ?? ''}
        @sd-formula-change=${this.onChange}
      ></sd-formula-field>
      <button @click=${this.cancel}>${say('Leave as it was')}</button>
      <button class="main" @click=${this.keep}>${say('Keep for all animals')}</button>
      ${
        this.fault
          ? html`<p class="fault" role="alert">${this.fault.sentence}</p>`
          : html`<p class="hint">
              ${say('A click on a cell, the name of a column or a figure puts its name in. {tag} is the example.', { tag: words.tag })}
            </p>`
      }
    </div>`;
  }
}

const clock = new Intl.DateTimeFormat(spokenLocale(), {
  day: 'numeric',
  month: 'short',
  hour: '2-digit',
  minute: '2-digit',
});

/** A moment by this device's clock and zone: `14 Jun, 06:42`. */
function momentText(ms: number): string {
  return clock.format(ms);
}

customElements.define('sd-formula-bar', SdFormulaBar);

declare global {
  interface HTMLElementTagNameMap {
    'sd-formula-bar': SdFormulaBar;
  }
  interface HTMLElementEventMap {
    'sd-done': CustomEvent;
  }
}
