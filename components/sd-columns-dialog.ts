import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { Column } from '../shared/notebook.ts';
import type { Edit } from '../shared/edit.ts';
import { isFault, type Fault } from '../shared/value.ts';
import {
  addColumn,
  changeColumn,
  removeColumn,
  reorderColumn,
} from '../src/notebook/edit-records.ts';
import { keyFromLabel } from '../src/notebook/key-name.ts';
import { columnOf, columnsOf } from '../src/notebook/read.ts';
import { columnFields } from './column-fields.ts';
import {
  allKindWords,
  blankColumn,
  draftOf,
  emptiedIn,
  factsOf,
  type ColumnDraft,
} from './column-draft.ts';
import { LeftOver } from './left-over.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';
import './sd-sheet.ts';
import type { SdSheet } from './sd-sheet.ts';
import { say } from '../src/text/say.ts';

/**
 * All columns in their order: which show, which come first, and the facts of each one. Every change
 * is an edit at once and can be undone; a new column or a changed one is kept by its own button.
 */
export class SdColumnsDialog extends LitElement {
  static override properties = {
    columnId: { state: true },
    draft: { state: true },
    fault: { state: true },
  };

  static override styles = [
    ...theme,
    css`
      ol {
        display: grid;
        margin: 0 0 12px;
        padding: 0;
        list-style: none;
      }

      li {
        display: grid;
        grid-template-columns: minmax(0, 1fr) auto auto auto;
        align-items: center;
        gap: 4px;
        border-bottom: 1px solid var(--line);
      }

      li label {
        display: flex;
        align-items: center;
        min-height: 44px;
        min-width: 0;
      }

      li input {
        flex: none;
      }

      /* What kind it is stands below a name where there is no room beside it. */
      li .named {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        gap: 0 8px;
        min-width: 0;
      }

      li .soft {
        font-size: var(--size-tiny);
      }

      form {
        display: grid;
        gap: 14px;
      }

      .row {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(9em, 1fr));
        gap: 12px;
      }

      .actions {
        margin-top: 4px;
      }

      .away {
        margin-right: auto;
      }
    `,
  ];

  /** Null: the list. `new`: a column to add. */
  declare private columnId: string | null;
  declare private draft: ColumnDraft;
  declare private fault: string;
  private readonly leftOver = new LeftOver<ColumnDraft>();
  private readonly columns = new Select(this, (session) => session.notebook.columns);
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.columnId = null;
    this.draft = blankColumn;
    this.fault = '';
  }

  /** What to show when opened: a column by its id, `new` for one to add, null for the list. */
  show(column: string | null): void {
    const session = this.columns.session;
    const known = session && column !== null && columnOf(session.notebook, column);
    this.columnId = column;
    this.fault = '';
    if (session && known) this.draft = this.leftOver.open(column, draftOf(session.notebook, known));
    else if (column === 'new') this.draft = this.leftOver.open('new', blankColumn);
  }

  private type(typed: Partial<ColumnDraft>): void {
    this.draft = this.leftOver.hold({ ...this.draft, ...typed });
    this.fault = '';
  }

  private async startAfresh(): Promise<void> {
    this.leftOver.drop();
    await this.go(this.columnId);
  }

  /** Goes from the list to a column or back, and takes the focus along: what had it is gone with the other page. */
  private async go(column: string | null): Promise<void> {
    const former = this.columnId;
    this.show(column);
    await this.updateComplete;
    const opener = `[data-change="${CSS.escape(former ?? '')}"]`;
    const root = this.renderRoot;
    const target =
      column === null
        ? (root.querySelector<HTMLElement>(opener) ?? root.querySelector<HTMLElement>('.add'))
        : root.querySelector<HTMLElement>('form input');
    target?.focus();
  }

  async open(): Promise<void> {
    await this.updateComplete;
    await this.renderRoot.querySelector<SdSheet>('sd-sheet')?.open();
  }

  private async dispatch(edit: Edit | Fault): Promise<boolean> {
    const { session } = this.columns;
    this.fault = isFault(edit) ? edit.sentence : '';
    // Drawn anew, so that a tick that was refused stands as it was.
    this.requestUpdate();
    if (isFault(edit) || !session?.mayWrite()) return false;
    await session.dispatch(edit);
    return true;
  }

  private hide(column: Column, isShown: boolean): void {
    const { session } = this.columns;
    if (session)
      void this.dispatch(changeColumn(session.notebook, column.id, { hidden: !isShown }));
  }

  private move(column: Column, by: -1 | 1): void {
    const { session } = this.columns;
    if (!session) return;
    const list = columnsOf(session.notebook);
    const at = list.findIndex(({ id }) => id === column.id);
    const before = by === -1 ? list[at - 1] : list[at + 2];
    if (by === -1 && !before) return;
    void this.dispatch(reorderColumn(session.notebook, column.id, before?.id ?? null));
  }

  private onInput(event: Event): void {
    const input = event.target;
    if (!(
      input instanceof HTMLInputElement ||
      input instanceof HTMLTextAreaElement ||
      input instanceof HTMLSelectElement
    ))
      return;
    const isBox = input instanceof HTMLInputElement && input.type === 'checkbox';
    this.type({ [input.name]: isBox ? input.checked : input.value });
  }

  private async onSubmit(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const { session } = this.columns;
    const { draft, columnId } = this;
    if (!session || columnId === null) return;
    const { notebook } = session;
    const facts = factsOf(notebook, draft);
    if (isFault(facts)) {
      this.fault = facts.sentence;
      return;
    }
    const column = columnOf(notebook, columnId);
    const key = draft.key.trim() || (column?.key ?? keyFromLabel(notebook, draft.label));
    if (draft.kind === 'formula') {
      const wrong = session.engine.check(draft.formula.trim().replace(/^=\s*/, ''), 'column', key);
      if (wrong) {
        this.fault = wrong.sentence;
        return;
      }
    }
    const label = draft.label.trim();
    const edit =
      columnId === 'new'
        ? addColumn(notebook, this.newId(), { ...facts, key, label, kind: draft.kind })
        : changeColumn(notebook, columnId, { ...facts, key });
    const emptied = column ? emptiedIn(column, draft) : [];
    const isDone = await this.dispatch(
      isFault(edit) ? edit : { ...edit, sets: [...edit.sets, ...emptied] },
    );
    if (!isDone) return;
    this.leftOver.drop();
    await this.go(null);
  }

  private newId(): string {
    return this.services.value?.newId() ?? crypto.randomUUID();
  }

  private async takeAway(): Promise<void> {
    const { columnId } = this;
    const { session } = this.columns;
    if (!session || columnId === null) return;
    const isDone = await this.dispatch(removeColumn(session.notebook, columnId));
    if (!isDone) return;
    this.leftOver.drop();
    await this.go(null);
  }

  protected override render(): TemplateResult {
    const heading =
      this.columnId === null
        ? say('Columns')
        : this.columnId === 'new'
          ? say('Add a column')
          : say('Column: {name}', { name: this.draft.label });
    return html`<sd-sheet heading=${heading}>
      ${this.columnId === null ? this.listTemplate() : this.formTemplate()}
    </sd-sheet>`;
  }

  private listTemplate(): TemplateResult {
    const { session } = this.columns;
    const list = session ? columnsOf(session.notebook) : [];
    return html`<p class="soft">
        ${say('Ticked columns show. What is hidden still counts in formulas.')}
      </p>
      <ol>
        ${list.map((column, i) => {
          const name = column.label ?? column.key;
          return html`<li>
            <label
              ><input
                type="checkbox"
                .checked=${live(column.hidden !== true)}
                @change=${(event: Event) =>
                  this.hide(column, (event.target as HTMLInputElement).checked)}
              /><span class="named"
                ><span>${name}</span> <span class="soft">${allKindWords[column.kind]}</span></span
              ></label
            >
            <button
              class="quiet icon"
              aria-label=${say('Move {name} to the left', { name })}
              ?disabled=${i === 0}
              @click=${() => this.move(column, -1)}
            >
              <span aria-hidden="true">↑</span>
            </button>
            <button
              class="quiet icon"
              aria-label=${say('Move {name} to the right', { name })}
              ?disabled=${i === list.length - 1}
              @click=${() => this.move(column, 1)}
            >
              <span aria-hidden="true">↓</span>
            </button>
            <button
              class="quiet"
              data-change=${column.id}
              aria-label=${say('Change {name}', { name })}
              @click=${() => this.go(column.id)}
            >
              ${say('Change')}
            </button>
          </li>`;
        })}
      </ol>
      ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
      <div class="actions">
        <button class="main add" @click=${() => this.go('new')}>${say('Add a column')}</button>
      </div>`;
  }

  private formTemplate(): TemplateResult {
    const { draft } = this;
    const isNew = this.columnId === 'new';
    return html`<form @submit=${this.onSubmit} @input=${this.onInput} novalidate>
      ${this.leftOver.line(() => void this.startAfresh())}
      ${columnFields(draft, isNew, (formula) => this.type({ formula }))}
      ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
      <div class="actions">
        ${
          isNew
            ? nothing
            : html`<button type="button" class="quiet away" @click=${this.takeAway}>
                ${say('Take the column away')}
              </button>`
        }
        <button type="button" @click=${() => this.go(null)}>${say('All columns')}</button>
        <button class="main">${isNew ? say('Add the column') : say('Keep the change')}</button>
      </div>
    </form>`;
  }
}

customElements.define('sd-columns-dialog', SdColumnsDialog);

declare global {
  interface HTMLElementTagNameMap {
    'sd-columns-dialog': SdColumnsDialog;
  }
}
