import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { GridModel } from './grid-model.ts';
import { noFilter, plainSort, type GridRow } from './grid-rows.ts';
import { shownSentence } from './grid-sentences.ts';
import './sd-show-rows.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/**
 * Finding animals above the counts, with the way to what is shown and in which order.
 * Fires `sd-found` (detail: row) for an animal found, `sd-back` when the search is left, `sd-say`
 * for a sentence to announce, `sd-choosing` (detail: isOpen) when what is shown and in which order is
 * chosen or no longer, and `sd-column-dialog` to see all columns.
 */
export class SdGridTools extends LitElement {
  static override properties = {
    model: { attribute: false },
    revision: { type: Number },
    isOpen: { state: true },
  };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
        flex: none;
        padding-bottom: 8px;
      }

      .line {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 8px;
      }

      .find {
        flex: 0 1 12em;
        min-width: 120px;
        padding-left: 12px;
      }

      .narrow {
        display: none;
      }

      @media (max-width: 35em) {
        .narrow {
          display: inline;
        }

        .wide {
          display: none;
        }

        .line {
          gap: 6px;
        }

        .find {
          flex: 1 1 100px;
          min-width: 90px;
        }

        .spread {
          display: none;
        }
      }

      .spread {
        flex: 1;
      }

      .none {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 8px 12px;
        margin: 8px 0 0;
      }

      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  declare model: GridModel | undefined;
  /** Counts up whenever the model's rows or views have changed. */
  declare revision: number;
  declare private isOpen: boolean;
  private lastFound = -1;

  constructor() {
    super();
    this.revision = 0;
    this.isOpen = false;
  }

  /** Puts the focus into the search. */
  find(): void {
    this.renderRoot.querySelector<HTMLInputElement>('.find')?.select();
    this.renderRoot.querySelector<HTMLInputElement>('.find')?.focus();
  }

  private fire(name: string, detail: object = {}): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  private onFindKey(event: KeyboardEvent): void {
    const input = event.target as HTMLInputElement;
    if (event.key === 'Enter') {
      event.preventDefault();
      this.toNext(input.value, event.shiftKey ? -1 : 1);
    } else if (event.key === 'Escape') {
      event.preventDefault();
      input.value = '';
      this.fire('sd-back');
    } else if (event.key === 'ArrowDown') {
      event.preventDefault();
      this.fire('sd-back');
    }
  }

  private onFindInput(event: Event): void {
    this.lastFound = -1;
    this.toNext((event.target as HTMLInputElement).value, 1);
  }

  private toNext(typed: string, by: 1 | -1): void {
    const rows = this.model?.sheet.rows ?? [];
    const wanted = typed.trim().toLowerCase();
    if (wanted === '') return;
    const matches = rows.flatMap((row, at) => (isMatch(row, wanted) ? [at] : []));
    const next =
      by === 1
        ? (matches.find((at) => at > this.lastFound) ?? matches[0])
        : (matches.findLast((at) => at < this.lastFound) ?? matches.at(-1));
    const row = next === undefined ? undefined : rows[next];
    if (next === undefined || !row) {
      this.fire('sd-say', {
        sentence: say('No animal shown has "{text}" in tag or name.', { text: typed.trim() }),
      });
      return;
    }
    this.lastFound = next;
    this.fire('sd-found', { row: row.id });
    const animal = row.name === '' ? row.tag : `${row.tag} ${row.name}`;
    const sentence =
      matches.length === 1
        ? `${animal}.`
        : say('{animal}, {at} of {n}.', {
            animal,
            at: matches.indexOf(next) + 1,
            n: matches.length,
          });
    this.fire('sd-say', { sentence });
  }

  private onViews(): void {
    this.isOpen = !this.isOpen;
    this.fire('sd-choosing', { isOpen: this.isOpen });
  }

  private sortAgain(): void {
    this.model?.sortAgain();
    this.sayShown();
  }

  private showAll(): void {
    this.model?.sortBy(plainSort);
    this.model?.filterBy(noFilter);
    this.renderRoot.querySelector('sd-show-rows')?.forgetTyped();
    this.sayShown();
  }

  /** Says how many are shown; the button pressed goes, and the one before it has the focus. */
  private sayShown(): void {
    this.renderRoot.querySelector<HTMLElement>('.views')?.focus();
    this.fire('sd-say', { sentence: shownSentence(this.model?.sheet.rows.length ?? 0) });
  }

  protected override render(): TemplateResult | typeof nothing {
    const { model } = this;
    if (!model) return nothing;
    const isChanged = model.isFiltered || model.isSorted;
    return html`<div class="line">
        <input
          class="find"
          type="search"
          aria-label=${say('Find an animal by tag or name')}
          placeholder=${say('Find tag or name')}
          autocomplete="off"
          @keydown=${this.onFindKey}
          @input=${this.onFindInput}
        />
        <button
          class="views"
          aria-expanded=${this.isOpen ? 'true' : 'false'}
          @click=${this.onViews}
        >
          <span class="wide">${say('Show and sort')}</span
          ><span class="narrow">${say('Show')}</span
          >${model.isFiltered ? ` · ${say('{n} shown', { n: model.sheet.rows.length })}` : ''}
        </button>
        ${
          model.isOrderKept && isChanged
            ? html`<button
                class="quiet"
                title=${say('Rows stay where they are while you type.')}
                @click=${this.sortAgain}
              >
                ${model.isSorted ? say('Sort again') : say('Filter again')}
              </button>`
            : nothing
        }
        ${
          isChanged
            ? html`<button class="quiet" @click=${this.showAll}>
                ${say('Show all in order')}
              </button>`
            : nothing
        }
        <span class="spread"></span>
        <button class="quiet" @click=${() => this.fire('sd-column-dialog', { column: null })}>
          ${say('Columns')}
        </button>
      </div>
      ${
        this.isOpen
          ? html`<sd-show-rows .model=${model} .revision=${this.revision}></sd-show-rows>`
          : nothing
      }
      ${
        model.isFiltered && model.sheet.rows.length === 0
          ? html`<p class="none">
              ${say('No animal passes all that is asked for here.')}
              <button @click=${this.showAll}>${say('Show all in order')}</button>
            </p>`
          : nothing
      }`;
  }
}

function isMatch(row: GridRow, wanted: string): boolean {
  return row.tag.toLowerCase().includes(wanted) || row.name.toLowerCase().includes(wanted);
}

customElements.define('sd-grid-tools', SdGridTools);

declare global {
  interface HTMLElementTagNameMap {
    'sd-grid-tools': SdGridTools;
  }
}
