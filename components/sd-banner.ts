import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { servicesContext, type Notice } from './services.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/**
 * Says what a person has to know about where their typing is kept: no store, a store that failed, a
 * second tab, an address at which other notebooks are not visible. Says nothing while all is well.
 * Fires `sd-focus-gone` when the button that had the focus goes with its notice.
 */
export class SdBanner extends LitElement {
  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
      }

      .notice {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 8px 16px;
        padding: 8px 20px;
        border-bottom: 1px solid var(--warm);
        background: var(--warm-soft);
        color: var(--warm);
      }

      p {
        flex: 1 1 20em;
        margin: 0;
      }

      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  private readonly saved = new Select(this, (session) => session.saved, { saved: true });
  private stop: (() => void) | undefined;
  private hadFocus = false;
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
    callback: (services) => {
      this.stop?.();
      this.stop = services?.subscribeNotices(() => this.requestUpdate());
      this.requestUpdate();
    },
  });

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.stop?.();
  }

  private get notices(): readonly Notice[] {
    const all = this.services.value?.notices() ?? [];
    const told = all.filter(({ kind }, at) => all.findIndex((one) => one.kind === kind) === at);
    const saved = this.saved.value;
    if (saved?.state !== 'memory' || told.some(({ kind }) => kind === 'memory only')) return told;
    const sentence = say('Not saved. {sentence}', { sentence: saved.sentence });
    return [{ kind: 'not kept', sentence }, ...told];
  }

  private get hasFocus(): boolean {
    return this.shadowRoot?.activeElement != null;
  }

  protected override willUpdate(): void {
    this.hadFocus = this.hasFocus;
  }

  protected override updated(): void {
    if (!this.hadFocus || this.hasFocus) return;
    this.dispatchEvent(new CustomEvent('sd-focus-gone', { bubbles: true, composed: true }));
  }

  protected override render(): TemplateResult {
    return html`
      <div role="status">
        ${repeat(
          this.notices,
          ({ kind }) => kind,
          ({ sentence, action }) => html`
            <div class="notice">
              <p>${sentence}</p>
              ${
                action
                  ? html`<button @click=${() => action.run()}>${action.label}</button>`
                  : nothing
              }
            </div>
          `,
        )}
      </div>
    `;
  }
}

customElements.define('sd-banner', SdBanner);

declare global {
  interface HTMLElementTagNameMap {
    'sd-banner': SdBanner;
  }
  interface HTMLElementEventMap {
    'sd-focus-gone': CustomEvent;
  }
}
