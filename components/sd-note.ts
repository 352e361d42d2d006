import { LitElement, css, html, type PropertyValues, type TemplateResult } from 'lit';
import { changeBlock } from '../src/notebook/edit-records.ts';
import { blocksOf } from '../src/notebook/read.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/** How long a pause in typing is before the words so far are kept. */
const pauseMs = 1000;

/** A note: a person's own words, kept as typed (`=big worms?` is no formula here). */
export class SdNote extends LitElement {
  static override properties = { blockId: { type: String } };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
      }

      textarea {
        min-height: 7em;
        background: var(--sheet);
        line-height: 1.5;
        field-sizing: content;
      }

      .paper {
        display: none;
        white-space: pre-wrap;
        overflow-wrap: anywhere;
      }

      @media print {
        textarea {
          display: none;
        }

        .paper {
          display: block;
        }
      }
    `,
  ];

  declare blockId: string;
  private readonly block = new Select(this, (session) =>
    blocksOf(session.notebook).find(({ id }) => id === this.blockId),
  );
  private pause: ReturnType<typeof setTimeout> | undefined;

  constructor() {
    super();
    this.blockId = '';
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    void this.keep();
  }

  private get area(): HTMLTextAreaElement | null {
    return this.renderRoot?.querySelector('textarea') ?? null;
  }

  private onInput(): void {
    clearTimeout(this.pause);
    this.pause = setTimeout(() => void this.keep(), pauseMs);
  }

  private async keep(): Promise<void> {
    clearTimeout(this.pause);
    const { session, value: block } = this.block;
    const text = this.area?.value;
    if (!session || !block || text === undefined || text === (block.text ?? '')) return;
    await session.dispatch(changeBlock(this.blockId, { text }, say('the note')));
  }

  /** What stands in the notebook is shown, but never over words still being typed. */
  protected override updated(_changed: PropertyValues): void {
    const { area } = this;
    if (!area) return;
    const isTyping = this.shadowRoot?.activeElement === area && this.pause !== undefined;
    if (!isTyping) area.value = this.block.value?.text ?? '';
  }

  protected override render(): TemplateResult {
    const { value: block } = this.block;
    return html`
      <textarea
        aria-label=${block?.title ?? say('Note')}
        @input=${this.onInput}
        @change=${this.keep}
      ></textarea>
      <div class="paper">${block?.text ?? ''}</div>
    `;
  }
}

customElements.define('sd-note', SdNote);

declare global {
  interface HTMLElementTagNameMap {
    'sd-note': SdNote;
  }
}
