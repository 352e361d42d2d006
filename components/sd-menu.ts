import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { theme } from './theme.ts';

/** One thing a menu offers. A disabled one stays readable. */
export interface MenuChoice {
  readonly label: string;
  readonly run: () => void | Promise<void>;
  readonly isDisabled?: boolean;
}

/**
 * A button that opens a short list of things to do, after the WAI-ARIA menu button pattern: arrows
 * move, Home and End go to the ends, Escape closes and gives the focus back.
 *
 *     <sd-menu label="More about 3 May" .choices=${[{ label: 'Remove', run }]}></sd-menu>
 */
export class SdMenu extends LitElement {
  static override properties = {
    label: { type: String },
    text: { type: String },
    choices: { attribute: false },
    isOpen: { state: true },
  };

  static override styles = [
    ...theme,
    css`
      :host {
        display: inline-flex;
      }

      .menu {
        position: fixed;
        inset: auto;
        margin: 0;
        max-width: calc(100vw - 16px);
      }

      .menu:not(:popover-open) {
        display: none;
      }

      [aria-disabled='true'] {
        color: var(--soft);
        cursor: default;
      }

      [role='menuitem'] {
        color: inherit;
        font-size: 0.9375rem;
      }

      .opener {
        min-width: 44px;
        min-height: 44px;
      }

      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  /** The accessible name of the button, and its words unless `text` gives others. */
  declare label: string;
  declare text: string | undefined;
  declare choices: readonly MenuChoice[];
  declare private isOpen: boolean;

  constructor() {
    super();
    this.label = '';
    this.choices = [];
    this.isOpen = false;
  }

  /** To the button that opens the menu. */
  override focus(): void {
    this.opener?.focus();
  }

  private get menu(): HTMLElement | null {
    return this.renderRoot.querySelector<HTMLElement>('.menu');
  }

  private get opener(): HTMLButtonElement | null {
    return this.renderRoot.querySelector<HTMLButtonElement>('.opener');
  }

  private get items(): readonly HTMLElement[] {
    return [...this.renderRoot.querySelectorAll<HTMLElement>('[role="menuitem"]')];
  }

  private toggle(): void {
    const { menu, opener } = this;
    if (!menu || !opener) return;
    if (this.isOpen) {
      menu.hidePopover();
      return;
    }
    menu.showPopover();
    const at = opener.getBoundingClientRect();
    const size = menu.getBoundingClientRect();
    const left = Math.max(8, Math.min(at.left, innerWidth - size.width - 8));
    const isRoomBelow = at.bottom + 4 + size.height < innerHeight;
    const top = isRoomBelow ? at.bottom + 4 : Math.max(8, at.top - 4 - size.height);
    menu.style.setProperty('left', `${left}px`);
    menu.style.setProperty('top', `${top}px`);
    this.items[0]?.focus();
  }

  private onToggle(event: ToggleEvent): void {
    this.isOpen = event.newState === 'open';
  }

  private onKeydown(event: KeyboardEvent): void {
    const { items } = this;
    const at = items.indexOf(this.shadowRoot?.activeElement as HTMLElement);
    const next: Readonly<Record<string, number>> = {
      ArrowDown: (at + 1) % items.length,
      ArrowUp: (at - 1 + items.length) % items.length,
      Home: 0,
      End: items.length - 1,
    };
    const to = next[event.key];
    if (to !== undefined) {
      event.preventDefault();
      items[to]?.focus();
    } else if (event.key === 'Escape' || event.key === 'Tab') {
      if (event.key === 'Escape') event.preventDefault();
      event.stopPropagation();
      this.opener?.focus();
      this.menu?.hidePopover();
    }
  }

  private async choose(choice: MenuChoice): Promise<void> {
    if (choice.isDisabled) return;
    this.opener?.focus();
    this.menu?.hidePopover();
    await choice.run();
  }

  protected override render(): TemplateResult {
    return html`
      <button
        class=${this.text === undefined ? 'opener quiet' : 'opener'}
        aria-label=${this.label}
        aria-haspopup="menu"
        aria-expanded=${this.isOpen ? 'true' : 'false'}
        @click=${this.toggle}
      >
        <span aria-hidden="true">${this.text ?? '⋯'}</span>
      </button>
      <div
        class="menu"
        role="menu"
        tabindex="-1"
        aria-label=${this.label}
        popover="auto"
        @toggle=${this.onToggle}
        @keydown=${this.onKeydown}
      >
        ${this.choices.map(
          (choice) => html`
            <button
              role="menuitem"
              tabindex="-1"
              aria-disabled=${choice.isDisabled ? 'true' : nothing}
              @click=${() => this.choose(choice)}
            >
              ${choice.label}
            </button>
          `,
        )}
      </div>
    `;
  }
}

customElements.define('sd-menu', SdMenu);

declare global {
  interface HTMLElementTagNameMap {
    'sd-menu': SdMenu;
  }
}
