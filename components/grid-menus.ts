import { html, nothing, type ReactiveControllerHost, type TemplateResult } from 'lit';
import type { Column } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { changeColumn, reorderColumn } from '../src/notebook/edit-records.ts';
import { columnsOf, markOf } from '../src/notebook/read.ts';
import type { CellEditor } from './cell-editor.ts';
import { laneParts } from '../src/notebook/lanes.ts';
import { choiceHeld, choicesOf, type Choice } from './grid-choices.ts';
import type { GridHand } from './grid-hand.ts';
import type { GridColumn } from './grid-layout.ts';
import type { GridModel } from './grid-model.ts';
import { textToEdit, typingOf } from './grid-edits.ts';
import { sortedSentence } from './grid-sentences.ts';
import { say } from '../src/text/say.ts';

export interface MenusHost extends ReactiveControllerHost, EventTarget {
  readonly model: GridModel;
  readonly hand: GridHand;
  readonly editor: CellEditor;
  readonly renderRoot: HTMLElement | DocumentFragment;
  focus(): void;
  say(sentence: string): void;
}

/** One thing a column's menu offers. */
interface ColumnAct {
  readonly words: string;
  readonly run: () => void;
}

type Open =
  | {
      readonly kind: 'choices';
      readonly choices: readonly Choice[];
      readonly label: string;
      /** The one marked; -1 while none is. */
      readonly at: number;
    }
  | { readonly kind: 'column'; readonly acts: readonly ColumnAct[]; readonly label: string };

/** The two small menus of the grid: what may be chosen in a cell, and what to do with a column. */
export class GridMenus {
  private open: Open | null = null;
  /** What the open menu hangs on. */
  private anchor: () => HTMLElement | null | undefined = () => null;
  private popup: HTMLElement | null = null;

  constructor(private readonly host: MenusHost) {}

  get isOpen(): boolean {
    return this.open !== null;
  }

  close(): void {
    if (!this.open) return;
    this.open = null;
    this.popup = null;
    window.removeEventListener('scroll', this.follow);
    for (const name of ['role', 'aria-expanded', 'aria-controls', 'aria-activedescendant'])
      this.host.editor.input.removeAttribute(name);
    this.host.requestUpdate();
  }

  /** What can be chosen for the active cell; none where it is only typed into. */
  choices(): readonly Choice[] {
    const { hand, model } = this.host;
    const { column, active } = hand;
    if (!column?.isTypable || !active) return [];
    const { notebook } = model.session;
    return choicesOf(column.column, markOf(notebook), laneParts(notebook, active.day));
  }

  /** Opens what can be chosen for the active cell; says so where there is nothing to choose. */
  openChoices(): void {
    const { hand, model, editor } = this.host;
    const { column, active } = hand;
    if (!column || !active || !hand.mayType()) return;
    const { notebook } = model.session;
    hand.reveal();
    const choices = this.choices();
    const label = column.column.label ?? column.column.key;
    if (choices.length === 0) {
      this.host.say(say('{label} has no list to choose from. Type into it.', { label }));
      return;
    }
    const now = textToEdit(notebook, active);
    const at = choiceHeld(choices, column.column, now, typingOf(notebook));
    this.open = { kind: 'choices', choices, label, at };
    editor.input.setAttribute('role', 'combobox');
    editor.input.setAttribute('aria-expanded', 'true');
    editor.input.setAttribute('aria-controls', 'choices');
    this.point(at);
    this.show('.choices', () => editor.cell);
  }

  private point(at: number): void {
    if (this.open?.kind !== 'choices') return;
    this.open = { ...this.open, at };
    if (at >= 0) this.host.editor.input.setAttribute('aria-activedescendant', `choice-${at}`);
    this.host.requestUpdate();
  }

  /** Keys of the list while it is open; true when the key was the list's. */
  takesKey(event: KeyboardEvent): boolean {
    const { open } = this;
    if (open?.kind !== 'choices') return false;
    const last = open.choices.length - 1;
    const to: Readonly<Record<string, number>> = {
      ArrowDown: Math.min(last, open.at + 1),
      ArrowUp: open.at < 0 ? last : Math.max(0, open.at - 1),
      Home: 0,
      End: last,
    };
    const next = to[event.key];
    if (next !== undefined) this.point(next);
    else if (event.key === 'Enter' || event.key === ' ') this.choose(open.at);
    else if (event.key === 'Escape') this.close();
    else {
      this.close();
      return false;
    }
    event.preventDefault();
    event.stopPropagation();
    return true;
  }

  private choose(at: number): void {
    const choice = this.open?.kind === 'choices' ? this.open.choices[at] : undefined;
    this.close();
    if (choice) this.host.hand.type(choice.text);
    this.host.focus();
  }

  /** Opens the menu of a column; of the active one unless another is named. */
  openColumn(at?: number): void {
    const { hand, model } = this.host;
    const index = at ?? hand.spot?.column;
    const column = index === undefined ? undefined : model.sheet.layout.columns[index];
    if (index === undefined || !column) return;
    hand.commit();
    this.open = {
      kind: 'column',
      label: column.column.label ?? column.column.key,
      acts: this.columnActs(column, index),
    };
    this.show('.column-menu', () =>
      this.host.renderRoot.querySelector<HTMLElement>(`[data-head="${index}"]`),
    );
  }

  private columnActs({ column, isOpen }: GridColumn, index: number): readonly ColumnAct[] {
    const { model, hand } = this.host;
    const { session } = model;
    const { notebook } = session;
    const shown = columnsOf(notebook).filter((c) => c.hidden !== true || c.id === column.id);
    const place = shown.findIndex((c) => c.id === column.id);
    const select: ColumnAct = {
      words: say('Select the column'),
      run: () => {
        hand.go({ row: hand.spot?.row ?? 0, column: index });
        hand.select('columns');
      },
    };
    if (!isOpen) return [select];
    const label = column.label ?? column.key;
    const sort = (isDescending: boolean) => (): void => {
      model.sortBy({ by: { column: column.id }, isDescending });
      this.host.say(sortedSentence(label, isDescending));
    };
    const move = (before: string | null, sentence: string) => (): void =>
      void session
        .dispatch(reorderColumn(notebook, column.id, before))
        .then((transaction) => transaction && this.host.say(sentence));
    const before = shown[place - 1];
    const after = shown[place + 1];
    const nameOf = (other: Column): string => other.label ?? other.key;
    return [
      { words: say('Sort: highest first'), run: sort(true) },
      { words: say('Sort: lowest first'), run: sort(false) },
      ...(model.isSorted
        ? [
            {
              words: say('Back to the notebook’s order'),
              run: () => {
                model.sortBy({ by: 'order', isDescending: false });
                this.host.say(say('The rows stand in the notebook’s order.'));
              },
            },
          ]
        : []),
      select,
      {
        words: say('Hide'),
        run: () => {
          const edit = changeColumn(notebook, column.id, { hidden: true });
          if (isFault(edit) || !session.mayWrite()) return;
          void session.dispatch(edit);
          this.host.say(say('{label} is hidden. Columns brings it back.', { label }));
        },
      },
      ...(before
        ? [
            {
              words: say('Move left'),
              run: move(
                before.id,
                say('{label} stands left of {other} now.', { label, other: nameOf(before) }),
              ),
            },
          ]
        : []),
      ...(after
        ? [
            {
              words: say('Move right'),
              run: move(
                shown[place + 2]?.id ?? null,
                say('{label} stands right of {other} now.', { label, other: nameOf(after) }),
              ),
            },
          ]
        : []),
      { words: say('Change this column …'), run: () => this.askColumns(column.id) },
      { words: say('Add a column …'), run: () => this.askColumns('new') },
    ];
  }

  private askColumns(column: string): void {
    this.host.dispatchEvent(
      new CustomEvent('sd-column-dialog', { detail: { column }, bubbles: true, composed: true }),
    );
  }

  private show(selector: string, anchor: () => HTMLElement | null | undefined): void {
    this.anchor = anchor;
    this.host.requestUpdate();
    void this.host.updateComplete.then(() => {
      const popup = this.host.renderRoot.querySelector<HTMLElement>(selector);
      if (!popup || !anchor()) return;
      popup.showPopover();
      this.popup = popup;
      this.place(popup);
      window.addEventListener('scroll', this.follow, { passive: true });
      if (this.open?.kind === 'column') popup.querySelector('button')?.focus();
    });
  }

  private place(popup: HTMLElement): void {
    const under = this.anchor()?.getBoundingClientRect();
    if (!under) return;
    const size = popup.getBoundingClientRect();
    const isRoomBelow = under.bottom + 2 + size.height < innerHeight;
    const top = isRoomBelow ? under.bottom + 2 : Math.max(8, under.top - 2 - size.height);
    const left = Math.max(8, Math.min(under.left, innerWidth - size.width - 8));
    popup.style.setProperty('top', `${top}px`);
    popup.style.setProperty('left', `${left}px`);
  }

  /** After scrolling, an open menu stays at what it hangs on, and closes once that is out of sight. */
  readonly follow = (): void => {
    const { popup, host } = this;
    const at = popup && this.anchor()?.getBoundingClientRect();
    const sight = host.renderRoot.querySelector('.scroller')?.getBoundingClientRect();
    if (!popup || !sight) return;
    const middle = at && { x: at.left + at.width / 2, y: at.top + at.height / 2 };
    const isSeen =
      middle &&
      middle.x > sight.left &&
      middle.x < sight.right &&
      middle.y > sight.top &&
      middle.y < sight.bottom;
    if (isSeen) this.place(popup);
    else {
      const wasColumn = this.open?.kind === 'column';
      this.close();
      if (wasColumn) host.focus();
    }
  };

  template(): TemplateResult | typeof nothing {
    const { open } = this;
    if (!open) return nothing;
    return open.kind === 'choices' ? this.choicesTemplate(open) : this.columnTemplate(open);
  }

  private choicesTemplate(open: Extract<Open, { kind: 'choices' }>): TemplateResult {
    return html`<div
      class="menu choices"
      id="choices"
      role="listbox"
      aria-label=${open.label}
      popover="manual"
    >
      ${open.choices.map(
        (choice, i) =>
          html`<div
            role="option"
            id="choice-${i}"
            aria-selected=${i === open.at ? 'true' : 'false'}
            @mousedown=${(event: Event) => {
              event.preventDefault();
              event.stopPropagation();
            }}
            @mouseup=${(event: Event) => {
              event.stopPropagation();
              this.choose(i);
            }}
          >
            ${choice.words}
          </div>`,
      )}
    </div>`;
  }

  private columnTemplate(open: Extract<Open, { kind: 'column' }>): TemplateResult {
    const close = (): void => {
      this.close();
      this.host.focus();
    };
    return html`<div
      class="menu column-menu"
      role="menu"
      tabindex="-1"
      aria-label=${open.label}
      popover="manual"
      @keydown=${(event: KeyboardEvent) => this.onColumnKey(event, close)}
      @focusout=${(event: FocusEvent) => {
        const menu = event.currentTarget as HTMLElement;
        if (event.relatedTarget instanceof Node && menu.contains(event.relatedTarget)) return;
        if (document.hasFocus()) this.close();
      }}
    >
      ${open.acts.map(
        (act) =>
          html`<button
            role="menuitem"
            tabindex="-1"
            @click=${() => {
              close();
              act.run();
            }}
          >
            ${act.words}
          </button>`,
      )}
    </div>`;
  }

  private onColumnKey(event: KeyboardEvent, close: () => void): void {
    event.stopPropagation();
    const menu = event.currentTarget as HTMLElement;
    const items = [...menu.querySelectorAll('button')];
    const at = items.indexOf(event.composedPath()[0] as HTMLButtonElement);
    const to: Readonly<Record<string, number>> = {
      ArrowDown: (at + 1) % items.length,
      ArrowUp: (at - 1 + items.length) % items.length,
      Home: 0,
      End: items.length - 1,
    };
    const next = to[event.key];
    if (next !== undefined) {
      event.preventDefault();
      items[next]?.focus();
    } else if (event.key === 'Escape' || event.key === 'Tab') {
      event.preventDefault();
      close();
    }
  }
}
