import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { isFault } from '../shared/value.ts';
import { changedWords } from './changed-words.ts';
import { servicesContext, type Services, type ShelfEntry } from './services.ts';
import { theme } from './theme.ts';
import './sd-menu.ts';
import './sd-new-notebook.ts';
import './sd-rename-notebook.ts';
import type { SdRenameNotebook } from './sd-rename-notebook.ts';

/**
 * The first page: the notebooks on this device, a new one from a season's template, the demo, or a
 * file. A deleted notebook can be put back until the next thing is done.
 *
 * Fires `open-notebook` `{id}`, `open-new` `{notebook}` and `open-demo`.
 */
export class SdStart extends LitElement {
  static override properties = {
    trouble: { type: String },
    entries: { state: true },
    deleted: { state: true },
    fileTrouble: { state: true },
  };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
      }

      main {
        max-width: 940px;
        margin: 0 auto;
        padding: clamp(20px, 5vw, 56px) 20px 48px;
      }

      h1 {
        font-size: clamp(1.6rem, 4vw, 2.1rem);
        letter-spacing: -0.01em;
      }

      .lead {
        max-width: 44em;
        margin: 6px 0 28px;
        font-size: 1.0625rem;
        color: var(--soft);
      }

      .columns {
        display: grid;
        grid-template-columns: minmax(0, 1.15fr) minmax(0, 1fr);
        align-items: start;
        gap: 24px;
      }

      section {
        padding: 18px 20px 20px;
        border: 1px solid var(--line);
        border-radius: 10px;
        background: var(--sheet);
      }

      h2 {
        margin-bottom: 10px;
        font-size: 1.125rem;
      }

      ul {
        margin: 0 -10px;
        padding: 0;
        list-style: none;
      }

      li {
        display: flex;
        align-items: center;
        border-top: 1px solid var(--line);
      }

      li:first-child {
        border-top: 0;
      }

      .open {
        flex: 1;
        flex-direction: column;
        align-items: flex-start;
        gap: 0;
        min-width: 0;
        min-height: 60px;
        padding: 8px 10px;
        border: 0;
        background: none;
        text-align: left;
      }

      .open b {
        font-size: 1.0625rem;
        font-weight: 600;
        overflow-wrap: anywhere;
      }

      .deleted,
      .trouble {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        justify-content: space-between;
        gap: 8px 16px;
        margin: 0 0 20px;
        padding: 8px 16px;
        border: 1px solid var(--line-strong);
        border-radius: var(--radius);
        background: var(--sheet);
      }

      .trouble {
        border-color: var(--warm);
        background: var(--warm-soft);
        color: var(--warm);
      }

      .other {
        display: flex;
        flex-wrap: wrap;
        gap: 10px;
        margin-top: 16px;
      }

      .other button,
      .other .button {
        min-height: 44px;
      }

      .button:focus-within {
        outline: 3px solid var(--accent);
        outline-offset: 1px;
      }

      summary {
        min-height: 44px;
        margin-top: 12px;
        padding: 11px 0;
        font-size: var(--size-small);
        color: var(--soft);
        cursor: pointer;
      }

      .gone {
        flex: 1;
        min-width: 0;
        padding-left: 10px;
        overflow-wrap: anywhere;
      }

      li .quiet {
        min-height: 44px;
        color: var(--accent);
      }

      footer {
        margin-top: 28px;
        font-size: var(--size-small);
        color: var(--soft);
      }

      @media (max-width: 760px) {
        .columns {
          grid-template-columns: minmax(0, 1fr);
          gap: 16px;
        }

        main {
          padding-inline: 14px;
        }
      }
    `,
  ];

  declare trouble: string;
  declare private entries: readonly ShelfEntry[] | undefined;
  declare private deleted: ShelfEntry | undefined;
  declare private fileTrouble: string;
  private readonly given = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
    callback: () => void this.readList(),
  });

  constructor() {
    super();
    this.trouble = '';
    this.fileTrouble = '';
  }

  private get services(): Services | undefined {
    return this.given.value;
  }

  private async readList(): Promise<void> {
    this.entries = (await this.services?.shelf.list().catch(() => [])) ?? [];
  }

  private tell(name: string, detail: object): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  private async rename(entry: ShelfEntry): Promise<void> {
    await this.renderRoot.querySelector<SdRenameNotebook>('sd-rename-notebook')?.open(entry);
  }

  private async copy(entry: ShelfEntry): Promise<void> {
    const { services } = this;
    if (!services) return;
    const copied = await services.shelf.copy(entry.id, `${entry.title} (copy)`);
    this.fileTrouble = isFault(copied) ? copied.sentence : '';
    await this.readList();
  }

  private async takeOff(entry: ShelfEntry): Promise<void> {
    await this.services?.shelf.remove(entry.id);
    this.deleted = entry;
    await this.readList();
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('.deleted button')?.focus();
  }

  private async putBack(entry: ShelfEntry): Promise<void> {
    await this.services?.shelf.restore(entry.id);
    if (this.deleted?.id === entry.id) this.deleted = undefined;
    await this.readList();
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('.open')?.focus();
  }

  private async purge(entry: ShelfEntry): Promise<void> {
    await this.services?.shelf.purge(entry.id);
    if (this.deleted?.id === entry.id) this.deleted = undefined;
    await this.readList();
  }

  private async onFile(event: Event): Promise<void> {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    if (!file || !this.services) return;
    const notebook = this.services.readFile(await file.text());
    input.value = '';
    if (isFault(notebook)) this.fileTrouble = `${file.name}: ${notebook.sentence}`;
    else this.tell('open-new', { notebook });
  }

  private renderEntry(entry: ShelfEntry): TemplateResult {
    const today = this.services?.today() ?? '';
    const words = [entry.place, changedWords(entry.changedAt, today)].filter(Boolean).join(' · ');
    return html`
      <li>
        <button class="open" @click=${() => this.tell('open-notebook', { id: entry.id })}>
          <b>${entry.title || 'Notebook without a name'}</b>
          <span class="small soft">${words}</span>
        </button>
        <sd-menu
          label=${`More about ${entry.title}`}
          .choices=${[
            { label: 'Rename', run: () => this.rename(entry) },
            { label: 'Copy', run: () => this.copy(entry) },
            { label: 'Delete', run: () => this.takeOff(entry) },
          ]}
        ></sd-menu>
      </li>
    `;
  }

  private renderDeleted(entries: readonly ShelfEntry[]): TemplateResult | typeof nothing {
    if (entries.length === 0) return nothing;
    return html`
      <details>
        <summary>Deleted (${entries.length})</summary>
        <ul>
          ${entries.map(
            (entry) => html`
              <li>
                <span class="gone">${entry.title}</span>
                <button class="quiet" @click=${() => this.putBack(entry)}>Put back</button>
                <button class="quiet" @click=${() => this.purge(entry)}>Delete for good</button>
              </li>
            `,
          )}
        </ul>
      </details>
    `;
  }

  private renderNotebooks(all: readonly ShelfEntry[]): TemplateResult {
    const entries = all.filter(({ isDeleted }) => !isDeleted);
    return html`
      <section aria-labelledby="yours">
        <h2 id="yours">Your notebooks</h2>
        ${
          entries.length === 0
            ? html`<p class="soft">
                None on this device yet. Start one, or look at the demo first: an invented
                smallholding with four sampling days.
              </p>`
            : html`<ul>
                ${entries.map((entry) => this.renderEntry(entry))}
              </ul>`
        }
        <div class="other">
          <button @click=${() => this.tell('open-demo', {})}>Open the demo</button>
          <label class="button">
            Open a file…
            <input
              class="visually-hidden"
              type="file"
              accept=".json,application/json"
              @change=${this.onFile}
            />
          </label>
        </div>
        ${this.renderDeleted(all.filter(({ isDeleted }) => isDeleted))}
      </section>
    `;
  }

  protected override render(): TemplateResult {
    const { entries, deleted } = this;
    const trouble = this.fileTrouble || this.trouble;
    return html`
      <main>
        <h1>Sampling Daybook</h1>
        <p class="lead">
          Type what you count, see eggs per gram, who needs treating and whether the dewormer still
          works. Everything stays on this device, also without a network.
        </p>
        <div role="status">
          ${trouble ? html`<p class="trouble">${trouble}</p>` : nothing}
          ${
            deleted
              ? html`<div class="deleted">
                  <span>${deleted.title} is deleted.</span>
                  <button @click=${() => this.putBack(deleted)}>Put it back</button>
                </div>`
              : nothing
          }
        </div>
        ${
          entries === undefined
            ? nothing
            : html`<div class="columns">
                ${this.renderNotebooks(entries)}
                <section aria-labelledby="new">
                  <h2 id="new">Start a notebook</h2>
                  <sd-new-notebook></sd-new-notebook>
                </section>
              </div>`
        }
        <footer>
          ${this.services?.promise() ?? ''} Wear gloves, wash your hands before you eat, and keep
          samples out of the food fridge.
        </footer>
        <sd-rename-notebook @notebook-renamed=${this.readList}></sd-rename-notebook>
      </main>
    `;
  }
}

customElements.define('sd-start', SdStart);

declare global {
  interface HTMLElementTagNameMap {
    'sd-start': SdStart;
  }
}
