import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { FigureFacts } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { toShown, toStored } from '../src/engine/stored-formula.ts';
import { addFigure, changeFigure } from '../src/notebook/edit-records.ts';
import { keyFromLabel } from '../src/notebook/key-name.ts';
import { figuresOf } from '../src/notebook/read.ts';
import { servicesContext } from './services.ts';
import { formStyles } from './form-styles.ts';
import { LeftOver } from './left-over.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-formula-field.ts';
import type { FormulaChange } from './sd-formula-field.ts';
import './sd-sheet.ts';
import type { SdSheet } from './sd-sheet.ts';
import { say } from '../src/text/say.ts';

interface Draft {
  readonly label: string;
  readonly key: string;
  readonly formula: string;
  readonly unit: string;
  readonly decimals: string;
  readonly shownAs: FigureFacts['shownAs'];
}

const blank: Draft = {
  label: '',
  key: '',
  formula: '',
  unit: '',
  decimals: '0',
  shownAs: 'number',
};

/**
 * Adds or changes a figure: its formula in current names, checked as it is typed, with what it gives
 * on the open day. Refused input stays where it is, with the reason beside it.
 */
export class SdFigureDialog extends LitElement {
  static override properties = {
    figureId: { state: true },
    draft: { state: true },
    fault: { state: true },
  };

  static override styles = [
    ...theme,
    formStyles,
    css`
      .fault,
      .hint {
        margin: 0;
      }
    `,
  ];

  declare private figureId: string | null;
  declare private draft: Draft;
  declare private fault: string;
  private readonly leftOver = new LeftOver<Draft>();
  private readonly session = new Select(this, (session) => session);
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.figureId = null;
    this.draft = blank;
    this.fault = '';
  }

  private get sheet(): SdSheet | null {
    return this.renderRoot.querySelector('sd-sheet');
  }

  /** Opens for one figure, or for a new one (null); what was typed and not kept is still there. */
  async open(id: string | null): Promise<void> {
    // What was typed last is drawn first: a field shows another value only where its own has changed.
    await this.updateComplete;
    this.begin(id);
    await this.updateComplete;
    await this.sheet?.open();
  }

  private begin(id: string | null): void {
    const session = this.session.value;
    if (!session) return;
    const figure = figuresOf(session.notebook).find((one) => one.id === id);
    const kept: Draft = figure
      ? {
          label: figure.label ?? '',
          key: figure.key,
          formula: toShown(session.notebook, figure.formula),
          unit: figure.unit ?? '',
          decimals: String(figure.decimals ?? 2),
          shownAs: figure.shownAs ?? 'number',
        }
      : blank;
    this.figureId = figure?.id ?? null;
    this.draft = this.leftOver.open(figure?.id ?? 'new', kept);
    this.fault = '';
  }

  private type(typed: Partial<Draft>): void {
    this.draft = this.leftOver.hold({ ...this.draft, ...typed });
    this.fault = '';
  }

  private async startAfresh(): Promise<void> {
    this.leftOver.drop();
    this.begin(this.figureId);
    await this.updateComplete;
    this.renderRoot.querySelector('input')?.focus();
  }

  private onInput(event: Event): void {
    const input = event.target as HTMLInputElement;
    this.type({ [input.name]: input.value });
  }

  private get facts(): Omit<FigureFacts, 'key' | 'order' | 'removed'> | string {
    const { draft } = this;
    const session = this.session.value;
    const label = draft.label.trim();
    if (!session) return say('No notebook is open.');
    if (label === '') return say('Give the figure a name.');
    if (draft.formula.trim() === '') return say('Type a formula, like HERDMEAN(herd.epg).');
    const wrong = session.engine.check(draft.formula.trim(), 'figure', draft.key || undefined);
    if (wrong) return wrong.sentence;
    const decimals = draft.decimals.trim();
    if (!/^[0-9]$/.test(decimals)) return say('Decimals are a whole number from 0 to 9.');
    return {
      label,
      formula: toStored(session.notebook, draft.formula.trim()),
      unit: draft.unit.trim(),
      decimals: Number(decimals),
      shownAs: draft.shownAs,
    };
  }

  private async onSubmit(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const session = this.session.value;
    const newId = this.services.value?.newId();
    const { facts, figureId } = this;
    if (!session || newId === undefined) return;
    if (typeof facts === 'string') {
      this.fault = facts;
      return;
    }
    const { notebook } = session;
    const typedKey = this.draft.key.trim();
    const key = typedKey === '' ? keyFromLabel(notebook, facts.label) : typedKey;
    const edit =
      figureId === null
        ? addFigure(notebook, newId, { ...facts, key })
        : changeFigure(notebook, figureId, { ...facts, key });
    this.fault = isFault(edit) ? edit.sentence : '';
    if (isFault(edit) || !session.mayWrite()) return;
    this.leftOver.drop();
    this.sheet?.close();
    await session.dispatch(edit);
  }

  protected override render(): TemplateResult {
    const { draft } = this;
    return html`
      <sd-sheet heading=${this.figureId === null ? say('Add a figure') : say('Change the figure')}>
        <form @submit=${this.onSubmit} @input=${this.onInput} novalidate>
          ${this.leftOver.line(() => void this.startAfresh())}
          <label class="field">
            ${say('Name')}
            <input name="label" autocomplete="off" data-first .value=${draft.label} />
          </label>
          <sd-formula-field
            label=${say('Formula')}
            place="figure"
            .value=${draft.formula}
            .ownKey=${draft.key || undefined}
            @sd-formula-change=${(event: CustomEvent<FormulaChange>) =>
              this.type({ formula: event.detail.value })}
          ></sd-formula-field>
          ${
            draft.formula.trim() === ''
              ? html`<p class="hint">
                  ${say('Names of columns, limits and figures stand in formulas; herd.epg is the list of all animals.')}
                </p>`
              : nothing
          }
          <div class="row">
            <label class="field">
              ${say('Shown as')}
              <select name="shownAs" .value=${draft.shownAs}>
                ${[
                  { value: 'number', words: say('a number') },
                  { value: 'percent', words: say('a share in %') },
                  { value: 'animals', words: say('a share, as animals') },
                ].map(
                  ({ value, words }) =>
                    html`<option value=${value} .selected=${value === draft.shownAs}>
                      ${words}
                    </option>`,
                )}
              </select>
            </label>
            <label class="field">
              ${say('Unit')} <input name="unit" autocomplete="off" .value=${draft.unit} />
            </label>
            <label class="field">
              ${say('Decimals')}
              <input
                name="decimals"
                inputmode="numeric"
                autocomplete="off"
                .value=${draft.decimals}
              />
            </label>
            <label class="field">
              ${say('Name in formulas')}
              <input
                name="key"
                autocomplete="off"
                autocapitalize="off"
                spellcheck="false"
                placeholder=${say('from the name')}
                .value=${draft.key}
              />
            </label>
          </div>
          ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
          <div class="actions">
            <button class="main">
              ${this.figureId === null ? say('Add the figure') : say('Keep the change')}
            </button>
          </div>
        </form>
      </sd-sheet>
    `;
  }
}

customElements.define('sd-figure-dialog', SdFigureDialog);

declare global {
  interface HTMLElementTagNameMap {
    'sd-figure-dialog': SdFigureDialog;
  }
}
