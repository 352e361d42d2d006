import type { Column } from '../shared/notebook.ts';
import type { Editing } from './grid-keys.ts';
import { inLines, inOneLine } from './one-line.ts';

/** What the editor tells the grid. */
export interface EditorHeard {
  /** Text came from a keyboard while nothing was being edited: may it begin? */
  readonly mayBegin: () => boolean;
  readonly began: () => void;
  /** A soft keyboard's own Enter, which comes as input and not as a key. */
  readonly enter: () => void;
  readonly changed: () => void;
}

/**
 * The one text input of the grid. It stands inside the cell that has the focus, at all times: empty
 * and unseen until something is typed, so that keyboards without usable keys (a phone's) begin an
 * edit by input alone, and so that screen readers find the focus within that cell.
 */
export class CellEditor {
  readonly input: HTMLInputElement;
  /** How the edit under way was begun. */
  editing: Editing = 'no';
  /** What stood in its line when it began: given back unchanged, it is no edit. */
  private initial = '';
  private at: HTMLElement | null = null;
  /** Focus is ours, and is given back after the input was moved. */
  hasFocus = false;

  constructor(private readonly heard: EditorHeard) {
    const input = document.createElement('input');
    input.type = 'text';
    input.className = 'editor';
    input.autocomplete = 'off';
    input.spellcheck = false;
    input.setAttribute('autocapitalize', 'off');
    input.setAttribute('autocorrect', 'off');
    input.setAttribute('enterkeyhint', 'next');
    input.addEventListener('beforeinput', (event) => this.onBeforeInput(event));
    input.addEventListener('input', () => this.onInput());
    this.input = input;
  }

  get cell(): HTMLElement | null {
    return this.at;
  }

  get text(): string {
    return inLines(this.input.value);
  }

  get isChanged(): boolean {
    return this.input.value !== this.initial;
  }

  /** Puts the input into a cell; gives it the focus back where it had it, or where `focus` asks. */
  place(cell: HTMLElement | null, focus = false): void {
    const isMoved = cell !== this.at || this.input.parentNode !== cell;
    if (isMoved) {
      this.at?.removeAttribute('data-at');
      this.at?.removeAttribute('data-editing');
      this.at = cell;
      const hadFocus = this.hasFocus;
      cell?.prepend(this.input);
      this.hasFocus = hadFocus;
      cell?.setAttribute('data-at', '');
      this.show();
    }
    // A row that is moved in the page, scrolled out of sight, takes the focus off what stands in it.
    if (!cell || this.isFocused) return;
    // Rows may have been gone for a while: what took the focus meanwhile keeps it.
    this.hasFocus = focus || (this.hasFocus && this.isFocusFree);
    if (this.hasFocus) this.input.focus({ preventScroll: true });
  }

  get isFocused(): boolean {
    const root = this.input.getRootNode();
    return root instanceof ShadowRoot && root.activeElement === this.input;
  }

  /** Nothing on the page has the focus, as when what had it was taken off the page. */
  get isFocusFree(): boolean {
    return document.activeElement === null || document.activeElement === document.body;
  }

  /** Begins an edit: with nothing but what is typed, or with the text that stands there. */
  begin(editing: 'typed' | 'opened', text: string): void {
    this.editing = editing;
    this.initial = inOneLine(text);
    if (editing === 'opened') this.input.value = this.initial;
    this.show();
    if (editing === 'opened') this.input.select();
  }

  end(): void {
    this.editing = 'no';
    this.input.value = '';
    this.show();
  }

  /** What keyboard to bring up, and whether it may type. */
  prepare(column: Column, isTypable: boolean): void {
    this.input.inputMode = inputModeOf(column);
    this.input.readOnly = !isTypable;
  }

  /** How the cell is called aloud. */
  name(name: string): void {
    this.input.setAttribute('aria-label', name);
  }

  private show(): void {
    this.at?.toggleAttribute('data-editing', this.editing !== 'no');
  }

  private onBeforeInput(event: InputEvent): void {
    if (event.inputType === 'insertLineBreak') {
      event.preventDefault();
      this.heard.enter();
      return;
    }
    if (this.editing === 'no' && !this.heard.mayBegin()) event.preventDefault();
  }

  private onInput(): void {
    if (this.editing === 'no') {
      if (this.input.value === '') return;
      this.initial = '';
      this.editing = 'typed';
      this.show();
      this.heard.began();
    }
    this.heard.changed();
  }
}

/** Digits for counts and whole scores, digits with a decimal mark for measures, letters else. */
function inputModeOf(column: Column): 'numeric' | 'decimal' | 'text' {
  if (column.kind === 'count') return 'numeric';
  if (column.kind === 'score') return Number.isInteger(column.step ?? 1) ? 'numeric' : 'decimal';
  if (column.kind === 'number' || column.kind === 'weight' || column.kind === 'formula')
    return 'decimal';
  return 'text';
}
