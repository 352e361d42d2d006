import { LitElement, css, html, type TemplateResult } from 'lit';
import { theme } from './theme.ts';

export interface Tab {
  readonly id: string;
  readonly label: string;
}

/**
 * Several views of one dialog, one shown at a time, after the WAI-ARIA tabs pattern. Each view stands
 * in the slot named by its tab's id and stays alive while another is shown, so nothing typed is lost.
 * Fires `tab-chosen` `{id}`.
 */
export class SdTabs extends LitElement {
  static override properties = {
    label: { type: String },
    tabs: { attribute: false },
    chosen: { type: String },
  };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
      }

      [role='tablist'] {
        display: flex;
        gap: 2px;
        margin: -6px 0 16px;
        overflow-x: auto;
        border-bottom: 1px solid var(--line);
        scrollbar-width: none;
      }

      [role='tab'] {
        flex: none;
        min-height: 44px;
        border: 0;
        border-bottom: 3px solid transparent;
        border-radius: 0;
        background: none;
        color: var(--soft);
      }

      [role='tab'][aria-selected='true'] {
        border-bottom-color: var(--accent);
        color: var(--accent);
        font-weight: 650;
      }

      [role='tab']:focus-visible {
        outline-offset: -3px;
      }

      @media (forced-colors: active) {
        [role='tab'][aria-selected='true'] {
          border-bottom-color: Highlight;
        }
      }
    `,
  ];

  declare label: string;
  declare tabs: readonly Tab[];
  declare chosen: string;

  constructor() {
    super();
    this.label = '';
    this.tabs = [];
    this.chosen = '';
  }

  /** To the tab that is chosen. */
  override focus(): void {
    this.renderRoot.querySelector<HTMLElement>('[aria-selected="true"]')?.focus();
  }

  private choose(id: string): void {
    this.chosen = id;
    this.dispatchEvent(
      new CustomEvent('tab-chosen', { detail: { id }, bubbles: true, composed: true }),
    );
  }

  private async onKeydown(event: KeyboardEvent): Promise<void> {
    const at = this.tabs.findIndex(({ id }) => id === this.chosen);
    const all = this.tabs.length;
    const next: Readonly<Record<string, number>> = {
      ArrowRight: (at + 1) % all,
      ArrowLeft: (at - 1 + all) % all,
      Home: 0,
      End: all - 1,
    };
    const to = this.tabs[next[event.key] ?? -1];
    if (!to) return;
    event.preventDefault();
    this.choose(to.id);
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>(`#tab-${to.id}`)?.focus();
  }

  protected override render(): TemplateResult {
    return html`
      <div role="tablist" aria-label=${this.label} @keydown=${this.onKeydown}>
        ${this.tabs.map(
          ({ id, label }) => html`
            <button
              role="tab"
              id=${`tab-${id}`}
              aria-controls=${`panel-${id}`}
              aria-selected=${id === this.chosen ? 'true' : 'false'}
              tabindex=${id === this.chosen ? '0' : '-1'}
              @click=${() => this.choose(id)}
            >
              ${label}
            </button>
          `,
        )}
      </div>
      ${this.tabs.map(
        ({ id }) => html`
          <div
            role="tabpanel"
            id=${`panel-${id}`}
            aria-labelledby=${`tab-${id}`}
            ?hidden=${id !== this.chosen}
          >
            <slot name=${id}></slot>
          </div>
        `,
      )}
    `;
  }
}

customElements.define('sd-tabs', SdTabs);

declare global {
  interface HTMLElementTagNameMap {
    'sd-tabs': SdTabs;
  }
}
