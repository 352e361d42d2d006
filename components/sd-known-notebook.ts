import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Notebook } from '../shared/notebook.ts';
import { aboutOf } from '../src/notebook/read.ts';
import { servicesContext, type ShelfEntry } from './services.ts';
import { theme } from './theme.ts';
import './sd-sheet.ts';
import type { SdSheet } from './sd-sheet.ts';
import { say } from '../src/text/say.ts';

/**
 * Asks what to do with a file of a notebook that is already on this device: nothing kept here is ever
 * replaced by a file. Fires `open-notebook` `{id, bring}` or `open-new` `{notebook, isFromFile}`.
 */
export class SdKnownNotebook extends LitElement {
  static override properties = { entry: { state: true } };

  static override styles = [
    ...theme,
    css`
      .ways {
        display: grid;
        gap: 10px;
      }

      .ways button {
        justify-content: flex-start;
        min-height: 44px;
        text-align: left;
      }
    `,
  ];

  declare private entry: ShelfEntry | undefined;
  private notebook: Notebook | undefined;
  private readonly services = new ContextConsumer(this, { context: servicesContext });

  /** What is asked about. */
  ask(entry: ShelfEntry, notebook: Notebook): void {
    this.entry = entry;
    this.notebook = notebook;
  }

  async open(): Promise<void> {
    await this.updateComplete;
    await this.renderRoot.querySelector<SdSheet>('sd-sheet')?.open();
  }

  private tell(name: string, detail: object): void {
    this.renderRoot.querySelector<SdSheet>('sd-sheet')?.close();
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  private async bring(): Promise<void> {
    const { entry, notebook } = this;
    if (!entry) return;
    if (entry.isDeleted) await this.services.value?.shelf.restore(entry.id);
    this.tell('open-notebook', { id: entry.id, bring: notebook });
  }

  private own(): void {
    const { notebook } = this;
    const services = this.services.value;
    if (!notebook || !services) return;
    const title = say('{title} (from a file)', {
      title: aboutOf(notebook).title ?? say('Notebook'),
    });
    this.tell('open-new', { notebook: services.copyOf(notebook, title), isFromFile: true });
  }

  protected override render(): TemplateResult {
    const { entry } = this;
    return html`
      <sd-sheet heading=${say('This notebook is here already')}>
        ${
          entry
            ? html`
                <p>
                  ${
                    entry.isDeleted
                      ? say(
                          '“{title}” is among the deleted notebooks of this device. Counts may stand here that the file lacks, so the file does not take its place.',
                          { title: entry.title },
                        )
                      : say(
                          '“{title}” is on this device. Counts may stand here that the file lacks, so the file does not take its place.',
                          { title: entry.title },
                        )
                  }
                </p>
                <div class="ways">
                  <button class="main" data-first @click=${this.bring}>
                    ${say('Bring the file in as a second copy…')}
                  </button>
                  <button @click=${this.own}>
                    ${say('Open the file as a notebook of its own')}
                  </button>
                </div>
              `
            : nothing
        }
      </sd-sheet>
    `;
  }
}

customElements.define('sd-known-notebook', SdKnownNotebook);

declare global {
  interface HTMLElementTagNameMap {
    'sd-known-notebook': SdKnownNotebook;
  }
}
