import { LitElement, css, html, type TemplateResult } from 'lit';
import { BeforePrint } from './before-print.ts';
import { say } from '../src/text/say.ts';
import { theme } from './theme.ts';

/** Tags written out at first; the rest are counted. */
const few = 30;

/**
 * Tags in one line, none broken at its hyphen: the first of them, and how many more there are. A press shows
 * all as one piece of text that scrolls, so that ten thousand animals cost one element and not ten thousand.
 * Paper has all.
 */
export class SdTagLine extends LitElement {
  static override properties = { tags: { attribute: false }, isWhole: { state: true } };

  static override styles = [
    ...theme,
    css`
      .name {
        white-space: nowrap;
      }

      .all {
        max-height: 40vh;
        overflow: auto;
        overflow-wrap: anywhere;
      }

      button {
        min-height: 36px;
        padding: 2px 7px;
        color: var(--accent);
        font-size: inherit;
      }

      @media (pointer: coarse) {
        button {
          min-height: 44px;
        }
      }

      @media print {
        .all {
          max-height: none;
          overflow: visible;
        }

        button {
          display: none;
        }
      }
    `,
  ];

  declare tags: readonly string[];
  declare private isWhole: boolean;

  constructor() {
    super();
    this.tags = [];
    this.isWhole = false;
    new BeforePrint(this, () => {
      this.isWhole = true;
      this.performUpdate();
    });
  }

  private renderTags(): TemplateResult {
    const { tags } = this;
    if (this.isWhole && tags.length > few)
      return html`<div
        class="all"
        role="group"
        tabindex="0"
        aria-label=${say('All {n, number} tags', { n: tags.length })}
      >
        ${tags.join(', ')}
      </div>`;
    return html`${tags
      .slice(0, few)
      .map((tag, at) => html`${at > 0 ? ', ' : ''}<span class="name">${tag}</span>`)}`;
  }

  protected override render(): TemplateResult {
    const more = this.tags.length - few;
    if (more <= 0) return this.renderTags();
    return html`${this.renderTags()}
      <button
        class="quiet"
        aria-expanded=${this.isWhole ? 'true' : 'false'}
        @click=${() => {
          this.isWhole = !this.isWhole;
        }}
      >
        ${
          this.isWhole
            ? say('Show only the first {n}', { n: few })
            : say('and {n, number} more', { n: more })
        }
      </button>`;
  }
}

customElements.define('sd-tag-line', SdTagLine);

declare global {
  interface HTMLElementTagNameMap {
    'sd-tag-line': SdTagLine;
  }
}
