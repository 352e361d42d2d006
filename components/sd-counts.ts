import { LitElement, css, html, type TemplateResult } from 'lit';
import type { Place } from './grid-place.ts';
import { openDialog } from './open-dialog.ts';
import type { SdColumnsDialog } from './sd-columns-dialog.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-formula-bar.ts';
import './sd-grid.ts';

/** The block of counts: the line that says what is under the cursor, and the grid below it. */
export class SdCounts extends LitElement {
  static override properties = { blockId: { type: String }, cell: { state: true } };

  static override styles = [
    ...theme,
    css`
      :host {
        display: flex;
        flex-direction: column;
        gap: 8px;
        min-width: 0;
        max-height: calc(100dvh - 24px);
      }

      sd-formula-bar {
        flex: none;
      }

      sd-grid {
        flex: 0 1 auto;
        min-height: 260px;
      }

      @media print {
        :host {
          max-height: none;
        }
      }
    `,
  ];

  declare blockId: string;
  declare private cell: Place | null;
  private readonly session = new Select(this, (session) => session, { when: () => false });

  constructor() {
    super();
    this.blockId = '';
    this.cell = null;
  }

  /** Puts the focus into the counts. */
  override focus(): void {
    this.renderRoot.querySelector('sd-grid')?.focus();
  }

  /** Goes to an animal's row, asked for elsewhere on the page. */
  showAnimal(row: string): void {
    this.renderRoot.querySelector('sd-grid')?.showAnimal(row);
  }

  private onFocusCell(event: CustomEvent<Place>): void {
    this.cell = event.detail;
  }

  private onOpenDay(event: CustomEvent<{ day: string }>): void {
    void this.session.value?.open(event.detail.day);
  }

  private onColumnDialog(event: CustomEvent<{ column: string | null }>): void {
    event.stopPropagation();
    void openDialog<SdColumnsDialog>(
      this,
      'sd-columns-dialog',
      () => import('./sd-columns-dialog.ts'),
      (dialog) => dialog.show(event.detail.column),
    );
  }

  protected override render(): TemplateResult {
    return html`
      <sd-formula-bar .cell=${this.cell} @sd-done=${this.focus}></sd-formula-bar>
      <sd-grid
        @sd-focus-cell=${this.onFocusCell}
        @sd-open-day=${this.onOpenDay}
        @sd-column-dialog=${this.onColumnDialog}
      ></sd-grid>
    `;
  }
}

customElements.define('sd-counts', SdCounts);

declare global {
  interface HTMLElementTagNameMap {
    'sd-counts': SdCounts;
  }
  interface HTMLElementEventMap {
    'sd-column-dialog': CustomEvent<{ column: string | null }>;
  }
}
