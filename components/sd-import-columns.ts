import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Column } from '../shared/notebook.ts';
import type { PlannedColumn } from '../src/csv/import-plan.ts';
import type { Role } from '../src/csv/role.ts';
import type { Table } from '../src/csv/table.ts';
import { roleName, rolesToChoose, roleValue } from './import-words.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/** Rows of the list that are shown of each column. */
const shown = 3;

/**
 * The columns of a list, with their first values and what each is taken for, which can be changed. Fires
 * `role-chosen` `{column, role}`.
 */
export class SdImportColumns extends LitElement {
  static override properties = {
    table: { attribute: false },
    columns: { attribute: false },
    known: { attribute: false },
  };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
      }

      ul {
        display: grid;
        gap: 6px;
        margin: 0;
        padding: 0;
        list-style: none;
      }

      li {
        display: grid;
        grid-template-columns: minmax(0, 9em) minmax(0, 1fr) minmax(0, 15em);
        align-items: center;
        gap: 4px 12px;
        padding-bottom: 6px;
        border-bottom: 1px solid var(--line);
      }

      b {
        overflow-wrap: anywhere;
      }

      .values {
        overflow: hidden;
        font-family: var(--font-code);
        font-size: var(--size-small);
        color: var(--soft);
        text-overflow: ellipsis;
        white-space: nowrap;
      }

      select {
        width: 100%;
      }

      .why {
        grid-column: 1 / -1;
        margin: 0;
      }

      li.out b,
      li.out .values {
        color: var(--soft);
        text-decoration: line-through;
      }

      @media (max-width: 37.5em) {
        li {
          grid-template-columns: minmax(0, 1fr) minmax(0, 1.2fr);
        }

        .values {
          grid-row: 2;
          grid-column: 1 / -1;
        }
      }
    `,
  ];

  declare table: Table | null;
  declare columns: readonly PlannedColumn[];
  declare known: readonly Column[];

  constructor() {
    super();
    this.table = null;
    this.columns = [];
    this.known = [];
  }

  private onChange(column: PlannedColumn, roles: readonly Role[], event: Event): void {
    const { value } = event.target as HTMLSelectElement;
    const role = roles.find((one) => roleValue(one) === value);
    if (!role) return;
    const detail = { column: column.column, role };
    this.dispatchEvent(new CustomEvent('role-chosen', { detail, bubbles: true, composed: true }));
  }

  private renderColumn(column: PlannedColumn): TemplateResult {
    const header = column.header.trim();
    const name =
      header === '' ? say('column {number}, no heading', { number: column.column + 1 }) : header;
    const values = (this.table?.rows ?? [])
      .slice(0, shown)
      .map(({ cells }) => cells[column.column]?.trim() || '–')
      .join(' · ');
    const roles = rolesToChoose(column.role, this.known);
    const current = roleValue(column.role);
    return html`
      <li class=${column.leftOut === null ? nothing : 'out'}>
        <b>${name}</b>
        <span class="values" title=${values}>${values}</span>
        <select
          aria-label=${say('What {name} is', { name })}
          @change=${(event: Event) => this.onChange(column, roles, event)}
        >
          ${roles.map(
            (role) =>
              html`<option value=${roleValue(role)} .selected=${roleValue(role) === current}>
                ${roleName(role, this.known)}
              </option>`,
          )}
        </select>
        ${
          column.leftOut === null
            ? column.sure
              ? nothing
              : html`<p class="why hint">${say('Guessed from its values: have a look.')}</p>`
            : html`<p class="why hint">${say('Left out: {why}.', { why: column.leftOut })}</p>`
        }
      </li>
    `;
  }

  protected override render(): TemplateResult {
    return html`<ul>
      ${this.columns.map((column) => this.renderColumn(column))}
    </ul>`;
  }
}

customElements.define('sd-import-columns', SdImportColumns);

declare global {
  interface HTMLElementTagNameMap {
    'sd-import-columns': SdImportColumns;
  }
}
