import { LitElement, html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { say } from '../src/text/say.ts';
import { entryWords } from './entry-words.ts';
import type { ShelfEntry } from './services.ts';
import { startStyles } from './start-styles.ts';
import { theme } from './theme.ts';

/**
 * The notebooks that were deleted and can still be put back. Deleting one for good cannot be undone, so
 * it is asked about first, in the line of the notebook itself.
 *
 *     <sd-deleted-notebooks .entries=${entries} .today=${today}></sd-deleted-notebooks>
 *
 * Fires `put-back` and `purge`, each with the entry it is about.
 */
export class SdDeletedNotebooks extends LitElement {
  static override properties = {
    entries: { attribute: false },
    today: { type: String },
    demoId: { type: String },
    asked: { state: true },
  };

  static override styles = [...theme, startStyles];

  declare entries: readonly ShelfEntry[];
  declare today: string;
  declare demoId: string | undefined;
  /** The notebook whose deletion for good is asked about, by its id. */
  declare private asked: string | null;

  constructor() {
    super();
    this.entries = [];
    this.today = '';
    this.asked = null;
  }

  /** To the heading of the list, where a key pressed once more deletes nothing. */
  override focus(): void {
    this.renderRoot.querySelector('summary')?.focus();
  }

  private tell(name: 'put-back' | 'purge', detail: ShelfEntry): void {
    this.asked = null;
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  private async ask(entry: ShelfEntry): Promise<void> {
    this.asked = entry.id;
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('.keep')?.focus();
  }

  private async keep(entry: ShelfEntry): Promise<void> {
    this.asked = null;
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>(`[data-purge="${CSS.escape(entry.id)}"]`)?.focus();
  }

  private onKeydown(event: KeyboardEvent, entry: ShelfEntry): void {
    if (event.key !== 'Escape' || this.asked !== entry.id) return;
    event.preventDefault();
    void this.keep(entry);
  }

  private renderWays(entry: ShelfEntry, title: string): TemplateResult {
    const about = `about-${entry.id}`;
    return html`<button
        class="quiet"
        aria-label=${say('Put back: {title}', { title })}
        aria-describedby=${about}
        @click=${() => this.tell('put-back', entry)}
      >
        ${say('Put back')}
      </button>
      <button
        class="quiet"
        data-purge=${entry.id}
        aria-label=${say('Delete for good: {title}', { title })}
        aria-describedby=${about}
        @click=${() => this.ask(entry)}
      >
        ${say('Delete for good')}
      </button>`;
  }

  private renderQuestion(entry: ShelfEntry, title: string): TemplateResult {
    return html`<div class="question" role="group" aria-labelledby="question">
      <p id="question">${say('Delete {title} for good? It cannot be brought back.', { title })}</p>
      <button
        aria-label=${say('Delete for good: {title}', { title })}
        aria-describedby=${`about-${entry.id}`}
        @click=${() => this.tell('purge', entry)}
      >
        ${say('Delete for good')}
      </button>
      <button class="keep" aria-describedby="question" @click=${() => this.keep(entry)}>
        ${say('Keep it')}
      </button>
    </div>`;
  }

  private renderEntry(entry: ShelfEntry): TemplateResult {
    const title = entry.title || say('Notebook without a name');
    const isAsked = entry.id === this.asked;
    return html`<li
      class=${isAsked ? 'asked' : nothing}
      @keydown=${(event: KeyboardEvent) => this.onKeydown(event, entry)}
    >
      <span class="gone">
        <b>${title}</b>
        <span class="small soft" id=${`about-${entry.id}`}
          >${entryWords(entry, this.today, this.demoId)}</span
        >
      </span>
      ${isAsked ? this.renderQuestion(entry, title) : this.renderWays(entry, title)}
    </li>`;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { entries } = this;
    if (entries.length === 0) return nothing;
    return html`<details>
      <summary>${say('Deleted ({n})', { n: entries.length })}</summary>
      <ul>
        ${repeat(
          entries,
          ({ id }) => id,
          (entry) => this.renderEntry(entry),
        )}
      </ul>
    </details>`;
  }
}

customElements.define('sd-deleted-notebooks', SdDeletedNotebooks);

declare global {
  interface HTMLElementTagNameMap {
    'sd-deleted-notebooks': SdDeletedNotebooks;
  }
  interface HTMLElementEventMap {
    'put-back': CustomEvent<ShelfEntry>;
    purge: CustomEvent<ShelfEntry>;
  }
}
