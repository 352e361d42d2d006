import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Block } from '../shared/notebook.ts';
import { changeBlock } from '../src/notebook/edit-records.ts';
import { herdWordOf } from '../src/notebook/read.ts';
import { blockTitle } from './block-registry.ts';
import { formStyles } from './form-styles.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-sheet.ts';
import type { SdSheet } from './sd-sheet.ts';
import { say } from '../src/text/say.ts';

/** Renames a block of the page. */
export class SdRenameBlock extends LitElement {
  static override properties = { block: { state: true }, fault: { state: true } };

  static override styles = [
    ...theme,
    formStyles,
    css`
      .fault {
        margin: 8px 0 0;
      }
    `,
  ];

  declare private block: Block | undefined;
  declare private fault: string;
  private readonly session = new Select(this, (session) => session);

  constructor() {
    super();
    this.fault = '';
  }

  private get sheet(): SdSheet | null {
    return this.renderRoot.querySelector('sd-sheet');
  }

  private get titleNow(): string {
    const session = this.session.value;
    return this.block && session ? blockTitle(this.block, herdWordOf(session.notebook)) : '';
  }

  async open(block: Block | undefined): Promise<void> {
    this.block = block;
    this.fault = '';
    await this.updateComplete;
    const input = this.renderRoot.querySelector('input');
    if (input) input.value = this.titleNow;
    await this.sheet?.open();
    input?.select();
  }

  private async onSubmit(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const title = this.renderRoot.querySelector('input')?.value.trim() ?? '';
    if (!this.block) return;
    if (title === '') {
      this.fault = say('Type a heading, so that the block is found again.');
      return;
    }
    const session = this.session.value;
    const former = this.titleNow;
    if (title !== former && !session?.mayWrite()) return;
    this.sheet?.close();
    if (title === former) return;
    const label = say('renaming {title}', { title: former });
    await session?.dispatch(changeBlock(this.block.id, { title }, label));
  }

  protected override render(): TemplateResult {
    return html`
      <sd-sheet heading=${say('Rename the block')}>
        <form @submit=${this.onSubmit} novalidate>
          <label class="field">${say('Heading')} <input autocomplete="off" data-first /></label>
          ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
          <div class="actions"><button class="main">${say('Rename')}</button></div>
        </form>
      </sd-sheet>
    `;
  }
}

customElements.define('sd-rename-block', SdRenameBlock);

declare global {
  interface HTMLElementTagNameMap {
    'sd-rename-block': SdRenameBlock;
  }
}
