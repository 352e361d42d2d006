import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { servicesContext, type Notice } from './services.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/**
 * A dialog with a heading and a way out, on the browser's own `<dialog>`: focus goes in on opening,
 * stays in, and returns to where it was. What stands in the slot stays there when the sheet is closed,
 * so nothing typed in it is lost.
 *
 *     <sd-sheet heading="Animals"> … </sd-sheet>
 *
 * The first element marked `data-first` takes the focus; else the heading does. What is refused while it is
 * open, because another tab writes, it says itself: the page behind it cannot be heard. Fires `sheet-closed`.
 */
export class SdSheet extends LitElement {
  static override properties = {
    heading: { type: String },
    isWide: { type: Boolean },
    refusal: { state: true },
  };

  static override styles = [
    ...theme,
    css`
      dialog {
        width: min(560px, calc(100vw - 24px));
        padding: 0;
      }

      dialog.wide {
        width: min(860px, calc(100vw - 24px));
        max-width: calc(100vw - 24px);
      }

      .head {
        position: sticky;
        top: 0;
        z-index: 1;
        display: flex;
        align-items: center;
        justify-content: space-between;
        gap: 12px;
        padding: 10px 12px 10px 20px;
        border-bottom: 1px solid var(--line);
        background: var(--sheet);
      }

      h2 {
        font-size: var(--size-large);
      }

      h2:focus {
        outline: none;
      }

      .body {
        padding: 16px 20px 20px;
      }

      .refusal {
        position: sticky;
        bottom: 0;
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 8px 16px;
        padding: 8px 20px;
        border-top: 1px solid var(--warm);
        background: var(--warm-soft);
        color: var(--warm);
      }

      .refusal p {
        flex: 1 1 16em;
        margin: 0;
      }

      .close {
        min-width: 44px;
        min-height: 44px;
      }

      @media (max-width: 37.5em) {
        dialog,
        dialog.wide {
          width: 100vw;
          max-width: 100vw;
          max-height: 100dvh;
          margin: auto 0 0;
          border-radius: 10px 10px 0 0;
        }

        .body {
          padding: 14px 14px calc(20px + env(safe-area-inset-bottom));
        }

        .refusal {
          padding: 8px 14px calc(8px + env(safe-area-inset-bottom));
        }
      }

      @media print {
        dialog {
          display: none;
        }
      }
    `,
  ];

  declare heading: string;
  declare isWide: boolean;
  declare private refusal: Notice | undefined;
  private opener: Element | null = null;
  private stop: (() => void) | undefined;
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
    callback: (services) => {
      this.stop?.();
      this.stop = services?.subscribeNotices(() => this.hear());
    },
  });

  constructor() {
    super();
    this.heading = '';
    this.isWide = false;
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.stop?.();
  }

  private hear(): void {
    const refusal = this.services.value?.notices().find((notice) => notice.isRefusal);
    const hadFocus = this.shadowRoot?.activeElement?.matches('.refusal button') === true;
    this.refusal = this.isOpen ? refusal : undefined;
    // The button that had the focus goes with what it was for.
    if (hadFocus && !this.refusal) this.renderRoot.querySelector('h2')?.focus();
  }

  get isOpen(): boolean {
    return this.dialog?.open === true;
  }

  /** Opens the sheet over the page. */
  async open(): Promise<void> {
    await this.updateComplete;
    if (this.dialog?.open) return;
    this.opener = deepActive();
    this.refusal = undefined;
    this.dialog?.showModal();
    const first = this.querySelector<HTMLElement>('[data-first]');
    (first ?? this.renderRoot.querySelector('h2'))?.focus();
  }

  close(): void {
    this.dialog?.close();
  }

  private get dialog(): HTMLDialogElement | null {
    return this.renderRoot?.querySelector('dialog') ?? null;
  }

  private onClose(): void {
    // The browser gives the focus back by itself; where it could not, the opener takes it. By the time
    // this is heard the person may have gone on, and must not be pulled back.
    const isLost = deepActive() === document.body || deepActive() === null;
    if (isLost && this.opener instanceof HTMLElement && this.opener.isConnected)
      this.opener.focus();
    this.opener = null;
    this.dispatchEvent(new CustomEvent('sheet-closed', { bubbles: true, composed: true }));
  }

  /** A press beside the sheet closes it, unless it began inside (a selection drawn outwards). */
  private onPointerDown(event: PointerEvent): void {
    if (event.target !== this.dialog || !this.dialog) return;
    const box = this.dialog.getBoundingClientRect();
    const isInside =
      event.clientX >= box.left &&
      event.clientX <= box.right &&
      event.clientY >= box.top &&
      event.clientY <= box.bottom;
    if (!isInside) this.close();
  }

  protected override firstUpdated(_changed: PropertyValues): void {
    this.dialog?.addEventListener('pointerdown', (event) => this.onPointerDown(event));
  }

  private refusalTemplate(): TemplateResult | typeof nothing {
    const { refusal } = this;
    if (!refusal) return nothing;
    return html`<div class="refusal" role="alert">
      <p>${refusal.sentence}</p>
      ${refusal.action ? html`<button @click=${refusal.action.run}>${refusal.action.label}</button>` : nothing}
    </div>`;
  }

  protected override render(): TemplateResult {
    return html`
      <dialog
        class=${this.isWide ? 'wide' : nothing}
        aria-labelledby="heading"
        @close=${this.onClose}
      >
        <div class="head">
          <h2 id="heading" tabindex="-1">${this.heading}</h2>
          <button class="quiet close" @click=${this.close}>${say('Close')}</button>
        </div>
        <div class="body"><slot></slot></div>
        ${this.refusalTemplate()}
      </dialog>
    `;
  }
}

customElements.define('sd-sheet', SdSheet);

/** The element that has the focus, looked for inside shadow roots too. */
export function deepActive(): Element | null {
  let active = document.activeElement;
  while (active?.shadowRoot?.activeElement) active = active.shadowRoot.activeElement;
  return active;
}

declare global {
  interface HTMLElementTagNameMap {
    'sd-sheet': SdSheet;
  }
}
