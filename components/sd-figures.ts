import { LitElement, html, nothing, type TemplateResult } from 'lit';
import type { Figure } from '../shared/notebook.ts';
import { removeRecord, reorderFigure } from '../src/notebook/edit-records.ts';
import { dayOf, figuresOf, markOf } from '../src/notebook/read.ts';
import { askOrigin } from './ask-origin.ts';
import { AfterPaint } from './after-paint.ts';
import { countedWords } from './counted-words.ts';
import { dayWords } from '../src/text/day-words.ts';
import { figureTable, type FigureLine, type FigureTable } from './figure-table.ts';
import { figureWords } from './figure-words.ts';
import { figuresStyles } from './figures-styles.ts';
import { tell } from './page-message.ts';
import { naming } from './naming.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-figure-dialog.ts';
import './sd-mean-limits.ts';
import './sd-menu.ts';
import './sd-shedder-note.ts';
import type { SdFigureDialog } from './sd-figure-dialog.ts';
import { say } from '../src/text/say.ts';

/** From this width of the block on, groups are lines; below it figures are, and groups stand across. */
const wideFrom = 640;

/**
 * Named formula lines about the herd on the open day, for each group and for all animals. They are
 * worked out after the page has painted what was typed, and given up when something newer is typed.
 */
export class SdFigures extends LitElement {
  static override properties = {
    blockId: { type: String },
    isWide: { state: true },
    isChanging: { state: true },
  };

  static override styles = [...theme, figuresStyles];

  declare blockId: string;
  declare private isWide: boolean;
  declare private isChanging: boolean;
  private readonly table = new AfterPaint<FigureTable | null>(this, figureTable);
  private readonly mark = new Select(this, (session) => markOf(session.notebook));
  private readonly figures = new Select(this, (session) => figuresOf(session.notebook));
  private readonly size = new ResizeObserver(([entry]) => {
    const isWide = (entry?.contentRect.width ?? 0) >= wideFrom;
    // In the next frame: drawing within the observer's turn would resize what it observes.
    requestAnimationFrame(() => {
      this.isWide = isWide;
    });
  });

  constructor() {
    super();
    this.blockId = '';
    this.isWide = false;
    this.isChanging = false;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.size.observe(this);
  }

  override disconnectedCallback(): void {
    this.size.disconnect();
    super.disconnectedCallback();
  }

  private get dialog(): SdFigureDialog | null {
    return this.renderRoot.querySelector('sd-figure-dialog');
  }

  private async move(figure: Figure, by: -1 | 1): Promise<void> {
    const { session, value: figures = [] } = this.figures;
    if (!session) return;
    const at = figures.findIndex(({ id }) => id === figure.id);
    const before = figures[by < 0 ? at - 1 : at + 2];
    if (by < 0 && !before) return;
    await session.dispatch(reorderFigure(session.notebook, figure.id, before?.id ?? null));
  }

  private async takeOff(figure: Figure): Promise<void> {
    const name = figure.label ?? figure.key;
    const { session } = this.figures;
    if (!session?.mayWrite()) return;
    await session.dispatch(
      removeRecord('figures', figure.id, say('removing the figure {name}', { name })),
    );
    tell(this, say('"{name}" is off the figures.', { name }), 'with undo');
  }

  private renderName(figure: Figure): TemplateResult {
    const name = figure.label ?? figure.key;
    return html`
      <span class="name">
        <span
          @mousedown=${(event: Event) => {
            // A formula being written keeps the focus and takes the figure's name.
            if (naming.offer(figure.key)) event.preventDefault();
          }}
          >${name} ${figure.unit ? html`<span class="unit">${figure.unit}</span>` : nothing}</span
        >
        ${this.isChanging ? this.renderMenu(figure, name) : nothing}
      </span>
    `;
  }

  private renderMenu(figure: Figure, name: string): TemplateResult {
    const figures = this.figures.value ?? [];
    const at = figures.findIndex(({ id }) => id === figure.id);
    return html`<sd-menu
      label=${say('More about {name}', { name })}
      .choices=${[
        { label: say('Formula and name'), run: () => this.dialog?.open(figure.id) },
        { label: say('Move up'), run: () => this.move(figure, -1), isDisabled: at <= 0 },
        {
          label: say('Move down'),
          run: () => this.move(figure, 1),
          isDisabled: at === figures.length - 1,
        },
        { label: say('Remove'), run: () => this.takeOff(figure) },
      ]}
    ></sd-menu>`;
  }

  private renderAnswer(table: FigureTable, line: FigureLine, at: number): TemplateResult {
    const figure = table.figures[at];
    const answer = line.answers[at];
    const all = line.group === null ? 'all' : '';
    if (!figure || !answer) return html`<td class=${all}>–</td>`;
    const words = figureWords(figure, answer, line.whose[at] ?? [], this.mark.value ?? '.');
    const isOther = answer.counted !== null && answer.counted !== line.counted;
    const of =
      isOther && answer.counted !== 0
        ? say('from {counted} of {present}', { counted: answer.counted, present: answer.present })
        : '';
    return html`
      <td class=${all}>
        <button
          class="quiet figure"
          title=${say('Where this number comes from')}
          aria-label=${`${figure.label ?? figure.key}, ${line.group ?? say('all')}: ${words.text}`}
          @mousedown=${(event: Event) => {
            // A formula being written keeps the focus and takes the figure's name.
            if (naming.isOn) event.preventDefault();
          }}
          @click=${() => {
            if (line.group !== null && naming.isOn) {
              tell(
                this,
                say(
                  'Of one group alone a figure has no name in formulas. Write it out, with herd["{group}"], or click the figure of all.',
                  { group: line.group },
                ),
              );
              return;
            }
            if (naming.offer(figure.key)) return;
            void askOrigin(this, { kind: 'figure', figure: figure.id, group: line.group });
          }}
        >
          ${words.text}
        </button>
        ${words.under ? html`<small>${words.under}</small>` : nothing}
        ${of ? html`<small>${of}</small>` : nothing}
      </td>
    `;
  }

  private renderCounted(line: FigureLine): TemplateResult {
    return html`
      <td class=${line.group === null ? 'all' : ''}>
        ${line.counted}<small>${say('of {present}', { present: line.present })}</small>
      </td>
    `;
  }

  /** Figures down, groups across: fits beside the counts and on a phone. */
  private renderNarrow(table: FigureTable): TemplateResult {
    const isOne = table.lines.length === 1;
    return html`
      <table>
        <thead ?hidden=${isOne}>
          <tr>
            <th scope="col"><span class="visually-hidden">${say('figure')}</span></th>
            ${table.lines.map((line) => html`<th scope="col">${line.group ?? say('all')}</th>`)}
          </tr>
        </thead>
        <tbody>
          <tr>
            <th scope="row">${say('counted')} <small>${say('of those present')}</small></th>
            ${table.lines.map((line) => this.renderCounted(line))}
          </tr>
          ${table.figures.map(
            (figure, at) => html`
              <tr>
                <th scope="row">${this.renderName(figure)}</th>
                ${table.lines.map((line) => this.renderAnswer(table, line, at))}
              </tr>
            `,
          )}
        </tbody>
      </table>
    `;
  }

  private renderWide(table: FigureTable): TemplateResult {
    return html`
      <table>
        <thead>
          <tr>
            <th scope="col">${say('group')}</th>
            <th scope="col">${say('counted')} <small>${say('of those present')}</small></th>
            ${table.figures.map((figure) => html`<th scope="col">${this.renderName(figure)}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${table.lines.map(
            (line) => html`
              <tr>
                <th scope="row" class=${line.group === null ? 'all' : ''}>
                  ${line.group ?? say('all animals')}
                </th>
                ${this.renderCounted(line)}
                ${table.figures.map((_figure, at) => this.renderAnswer(table, line, at))}
              </tr>
            `,
          )}
        </tbody>
      </table>
    `;
  }

  private renderFaults(table: FigureTable): TemplateResult | typeof nothing {
    const all = table.lines.at(-1);
    const faults = table.figures.flatMap((figure, at) => {
      const answer = all?.answers[at];
      const sentence = answer && figureWords(figure, answer, [], '.').fault;
      return sentence ? [{ name: figure.label ?? figure.key, sentence }] : [];
    });
    if (faults.length === 0) return nothing;
    return html`<ul class="faults">
      ${faults.map(({ name, sentence }) => html`<li><b>${name}</b>: ${sentence}</li>`)}
    </ul>`;
  }

  /** Beside a mean its limits, beside a shedder share what luck alone would show. */
  private renderSureness(table: FigureTable): TemplateResult {
    const names = (name: string): boolean =>
      table.figures.some(({ formula }) => formula.toUpperCase().includes(`${name}(`));
    return html`${names('HERDMEAN') ? html`<sd-mean-limits .group=${null}></sd-mean-limits>` : nothing}
    ${
      names('SHEDDERSHARE')
        ? html`<sd-shedder-note .group=${null} .isBrief=${true}></sd-shedder-note>`
        : nothing
    }`;
  }

  private renderTable(table: FigureTable): TemplateResult {
    const all = table.lines.at(-1);
    const notebook = this.figures.session?.notebook;
    const day = notebook && dayOf(notebook, table.day);
    const words = all ? countedWords({ counted: all.counted, present: all.present }) : '';
    return html`
      <p class="small soft empty">${day ? `${dayWords(day)} · ` : ''}${words}</p>
      <div class="scroll" tabindex="-1">
        ${this.isWide ? this.renderWide(table) : this.renderNarrow(table)}
      </div>
      ${this.renderFaults(table)} ${all && all.counted > 0 ? this.renderSureness(table) : nothing}
    `;
  }

  protected override render(): TemplateResult {
    const table = this.table.value;
    const { error } = this.table;
    return html`
      ${
        error !== undefined
          ? html`<p class="fault" role="alert">
              ${say('The figures could not be worked out. The counts are safe; change any cell to try again.')}
            </p>`
          : nothing
      }
      ${
        table
          ? this.renderTable(table)
          : html`<p class="soft">
              ${table === null ? say('No sampling day is open.') : say('Working…')}
            </p>`
      }
      <div class="foot">
        <button class="quiet add" @click=${() => this.dialog?.open(null)}>
          ${say('Add a figure')}
        </button>
        <button
          class="quiet add"
          aria-pressed=${this.isChanging ? 'true' : 'false'}
          @click=${() => {
            this.isChanging = !this.isChanging;
          }}
        >
          ${say('Change figures')}
        </button>
      </div>
      <sd-figure-dialog></sd-figure-dialog>
    `;
  }
}

customElements.define('sd-figures', SdFigures);

declare global {
  interface HTMLElementTagNameMap {
    'sd-figures': SdFigures;
  }
}
