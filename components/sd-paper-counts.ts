import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Column } from '../shared/notebook.ts';
import type { Session } from '../src/session/session.ts';
import { dayOf } from '../src/notebook/read.ts';
import { dayWords } from '../src/text/day-words.ts';
import type { GridColumn } from './grid-layout.ts';
import { GridModel } from './grid-model.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/** Room for columns beside the animal on a sheet of paper, and how much of its width each needs there. */
const paperWidth = 600;
const shrunk = 0.62;

/**
 * The open day's counts on paper: every animal, no window, no controls. Too many columns for one sheet
 * stand in blocks below each other, each with the animals again and its heading on every page. Drawn
 * only once the page is about to be printed.
 */
export class SdPaperCounts extends LitElement {
  static override properties = { model: { state: true } };

  static override styles = [
    ...theme,
    css`
      :host {
        display: none;
      }

      table {
        width: 100%;
        margin-bottom: 16px;
        border-collapse: collapse;
        font-size: 0.875rem;
      }

      thead {
        display: table-header-group;
      }

      caption {
        padding-bottom: 4px;
        font-weight: 650;
        text-align: left;
      }

      tr {
        break-inside: avoid;
      }

      th,
      td {
        padding: 3px 6px;
        border-bottom: 1px solid var(--line);
        font-weight: 400;
        text-align: right;
        vertical-align: baseline;
      }

      thead th {
        border-bottom: 1px solid var(--line-strong);
        color: var(--soft);
      }

      th:first-child,
      .start {
        text-align: left;
      }

      tbody th {
        font-weight: 600;
        white-space: nowrap;
      }

      tbody th span {
        font-weight: 400;
      }

      small {
        display: block;
      }

      .struck {
        text-decoration: line-through;
      }

      @media print {
        :host {
          display: block;
        }
      }
    `,
  ];

  declare private model: GridModel | undefined;
  private readonly session = new Select<Session>(this, (session) => session, {
    when: () => false,
  });
  private readonly paper = window.matchMedia('print');

  override connectedCallback(): void {
    super.connectedCallback();
    this.paper.addEventListener('change', this.onPaper);
    window.addEventListener('beforeprint', this.onPaper);
    window.addEventListener('afterprint', this.onPaper);
  }

  override disconnectedCallback(): void {
    this.paper.removeEventListener('change', this.onPaper);
    window.removeEventListener('beforeprint', this.onPaper);
    window.removeEventListener('afterprint', this.onPaper);
    super.disconnectedCallback();
  }

  /** Printing waits for nothing, so the table is drawn at once. */
  private readonly onPaper = (event: Event): void => {
    const isPrinting = event.type === 'beforeprint' || this.paper.matches;
    const session = this.session.value;
    this.model = isPrinting && session ? new GridModel(session, () => undefined) : undefined;
    if (this.isUpdatePending) this.performUpdate();
  };

  private renderBlock(model: GridModel, columns: readonly GridColumn[]): TemplateResult {
    return html`
      <table>
        <thead>
          <tr>
            <th scope="col">${say('animal')}</th>
            ${columns.map(
              ({ column }) =>
                html`<th scope="col" class=${isWords(column) ? 'start' : ''}>
                  ${column.label ?? column.key}${column.unit ? html`<small>${column.unit}</small>` : nothing}
                </th>`,
            )}
          </tr>
        </thead>
        <tbody>
          ${model.sheet.rows.map((row) => {
            const source = model.source(row.id);
            return html`<tr>
              <th scope="row">${row.tag} <span class="soft">${row.group}</span></th>
              ${columns.map((column) => {
                const cell = model.cell(source, column);
                const looks = [cell.look === 'struck' ? 'struck' : '', cell.align];
                return html`<td class=${looks.join(' ')}>
                  ${cell.text}${cell.note ? html`<small>${cell.note}</small>` : nothing}
                </td>`;
              })}
            </tr>`;
          })}
        </tbody>
      </table>
    `;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { model } = this;
    if (!model || model.openDay === null) return nothing;
    const day = dayOf(model.session.notebook, model.openDay);
    const { counted, present } = model.counted;
    const columns = model.sheet.layout.columns.filter(
      (column) => column.isOpen && isUsed(model, column),
    );
    return html`
      <p>
        <b>${say('Counts, {day}', { day: day ? dayWords(day) : '' })}</b>
        ${say('· {counted} counted of {present} present', { counted, present })}
      </p>
      ${inBlocks(columns).map((block) => this.renderBlock(model, block))}
    `;
  }
}

/** A column in which nothing stands is left out. */
function isUsed(model: GridModel, column: GridColumn): boolean {
  return model.sheet.rows.some(({ id }) => model.cell(model.source(id), column).text !== '');
}

function isWords({ kind }: Column): boolean {
  return kind === 'text' || kind === 'choice' || kind === 'outcome';
}

/** Columns in blocks that each fit a sheet. */
function inBlocks(columns: readonly GridColumn[]): readonly (readonly GridColumn[])[] {
  const blocks: GridColumn[][] = [];
  let room = 0;
  for (const column of columns) {
    const width = column.width * shrunk;
    if (width > room || blocks.length === 0) {
      blocks.push([]);
      room = paperWidth;
    }
    blocks.at(-1)?.push(column);
    room -= width;
  }
  return blocks;
}

customElements.define('sd-paper-counts', SdPaperCounts);

declare global {
  interface HTMLElementTagNameMap {
    'sd-paper-counts': SdPaperCounts;
  }
}
