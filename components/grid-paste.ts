import { html, nothing, type ReactiveControllerHost, type TemplateResult } from 'lit';
import type { CellEditor } from './cell-editor.ts';
import { blockText, isTooLarge, pasteOf, pasteSentence, tooLargeSentence } from './grid-clip.ts';
import type { PasteEdit } from './grid-edits.ts';
import type { GridHand } from './grid-hand.ts';
import type { GridModel } from './grid-model.ts';
import { say } from '../src/text/say.ts';

export interface PasteHost extends ReactiveControllerHost {
  readonly model: GridModel;
  readonly hand: GridHand;
  readonly editor: CellEditor;
  readonly renderRoot: HTMLElement | DocumentFragment;
  focus(): void;
  say(sentence: string): void;
}

/** Copy, cut and paste of blocks; a paste that reaches over the edge asks before anything is done. */
export class GridPaste {
  private asking: PasteEdit | null = null;

  constructor(private readonly host: PasteHost) {}

  readonly copy = (event: ClipboardEvent): void => {
    this.take(event);
  };

  readonly cut = (event: ClipboardEvent): void => {
    if (this.take(event)) this.host.hand.run({ do: 'clear' });
  };

  private take(event: ClipboardEvent): boolean {
    const { block } = this.host.hand;
    if (this.host.editor.editing !== 'no' || !block || !event.clipboardData) return false;
    event.preventDefault();
    event.clipboardData.setData('text/plain', blockText(this.host.model, block));
    const cells = (block.rows[1] - block.rows[0] + 1) * (block.columns[1] - block.columns[0] + 1);
    if (event.type === 'copy')
      this.host.say(say('Copied {n, plural, one {# cell} other {# cells}}.', { n: cells }));
    return true;
  }

  readonly paste = (event: ClipboardEvent): void => {
    const { hand, editor, model } = this.host;
    const { block } = hand;
    if (editor.editing !== 'no' || !block) return;
    event.preventDefault();
    const text = event.clipboardData?.getData('text/plain') ?? '';
    if (text === '') {
      this.host.say(say('There is no text to paste.'));
      return;
    }
    const paste = pasteOf(model, block, text);
    if (isTooLarge(paste)) this.ask(paste);
    else this.put(paste);
  };

  private put(paste: PasteEdit): void {
    const { hand } = this.host;
    if (!paste.edit) {
      if (!hand.mayType()) return;
      this.host.say(say('There was nothing in it to put here.'));
      return;
    }
    hand.selectBlock(paste.block);
    hand.dispatch(paste.edit, pasteSentence(paste));
  }

  private ask(paste: PasteEdit): void {
    this.asking = paste;
    this.host.requestUpdate();
    void this.host.updateComplete.then(() => {
      this.host.renderRoot.querySelector<HTMLDialogElement>('.too-large')?.showModal();
    });
  }

  private readonly closed = (event: Event): void => {
    const paste = this.asking;
    const isWanted = (event.currentTarget as HTMLDialogElement).returnValue === 'fits';
    this.asking = null;
    this.host.requestUpdate();
    this.host.focus();
    if (paste && isWanted) this.put(paste);
    else this.host.say(say('Nothing was pasted.'));
  };

  template(): TemplateResult | typeof nothing {
    const paste = this.asking;
    if (!paste) return nothing;
    const rows = paste.block.rows[1] - paste.block.rows[0] + 1;
    const columns = paste.block.columns[1] - paste.block.columns[0] + 1;
    return html`<dialog class="too-large" aria-labelledby="too-large" @close=${this.closed}>
      <h2 id="too-large">${say('That is more than fits here')}</h2>
      <p>${tooLargeSentence(paste)}</p>
      <form method="dialog" class="actions">
        <button value="">${say('Put in nothing')}</button>
        <button class="main" value="fits">
          ${say('Put in {rows} × {columns} that fit', { rows, columns })}
        </button>
      </form>
    </dialog>`;
  }
}
