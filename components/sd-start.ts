import { ContextConsumer } from '@lit/context';
import { LitElement, html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import type { Notebook } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { salvageNotebookText } from '../src/notebook/notebook-file.ts';
import type { Salvaged } from '../src/notebook/validate.ts';
import { downloadText } from './download.ts';
import { entryWords } from './entry-words.ts';
import { openDialog } from './open-dialog.ts';
import type { SdKnownNotebook } from './sd-known-notebook.ts';
import type { SdNewNotebook } from './sd-new-notebook.ts';
import { servicesContext, type Services, type ShelfEntry } from './services.ts';
import { startStyles } from './start-styles.ts';
import { theme } from './theme.ts';
import './sd-deleted-notebooks.ts';
import './sd-language-choice.ts';
import './sd-menu.ts';
import './sd-new-notebook.ts';
import './sd-rename-notebook.ts';
import type { Renamed, SdRenameNotebook } from './sd-rename-notebook.ts';
import { keepingWords } from './promise-words.ts';
import { programName } from './program-name.ts';
import { say } from '../src/text/say.ts';

/**
 * The first page: the notebooks on this device, a new one from a season's template, the demo, or a
 * file. A deleted notebook can be put back until the next thing is done.
 *
 * Fires `open-notebook` `{id}`, `open-new` `{notebook, isFromFile}` and `open-demo`.
 */
export class SdStart extends LitElement {
  static override properties = {
    trouble: { type: String },
    entries: { state: true },
    deleted: { state: true },
    done: { state: true },
    fileTrouble: { state: true },
    rescue: { state: true },
  };

  static override styles = [...theme, startStyles];

  declare trouble: string;
  declare private entries: readonly ShelfEntry[] | undefined;
  declare private deleted: ShelfEntry | undefined;
  /** What was done last, in a sentence; '' where the list alone says it. */
  declare private done: string;
  declare private fileTrouble: string;
  /** What can be read of a file in which something is wrong. */
  declare private rescue: Salvaged | undefined;
  private stops: (() => void)[] = [];
  private readonly given = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
    callback: (services) => {
      this.hush();
      const update = (): void => this.requestUpdate();
      const stops = [services?.offline?.subscribe(update), services?.subscribeNotices(update)];
      this.stops = stops.filter((stop) => stop !== undefined);
      void this.readList();
    },
  });

  constructor() {
    super();
    this.trouble = '';
    this.fileTrouble = '';
    this.done = '';
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.hush();
  }

  /** Where the keyboard starts when the person has come back from a notebook. */
  async focusTitle(): Promise<void> {
    await this.updateComplete;
    this.renderRoot.querySelector('h1')?.focus();
  }

  private hush(): void {
    for (const stop of this.stops) stop();
    this.stops = [];
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

  private async onRenamed({ detail }: CustomEvent<Renamed>): Promise<void> {
    await this.readList();
    this.done = say('{former} is now called {title}.', {
      former: detail.former,
      title: detail.title,
    });
    await this.focusOn('sd-menu', detail.id);
  }

  private async copy(entry: ShelfEntry): Promise<void> {
    const { services } = this;
    if (!services) return;
    const title = say('{title} (copy)', { title: entry.title });
    const copied = await services.shelf.copy(entry.id, title);
    this.fileTrouble = isFault(copied) ? copied.sentence : '';
    this.done = isFault(copied) ? '' : say('{title} is in the list now.', { title });
    await this.readList();
    await this.focusOn('sd-menu', entry.id);
  }

  private async takeOff(entry: ShelfEntry): Promise<void> {
    await this.services?.shelf.remove(entry.id);
    this.deleted = entry;
    this.done = '';
    await this.readList();
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('.deleted button')?.focus();
  }

  private async putBack(entry: ShelfEntry): Promise<void> {
    await this.services?.shelf.restore(entry.id);
    if (this.deleted?.id === entry.id) this.deleted = undefined;
    this.done = say('{title} is in the list again.', { title: entry.title });
    await this.readList();
    await this.focusOn('.open', entry.id);
  }

  private async purge(entry: ShelfEntry): Promise<void> {
    await this.services?.shelf.purge(entry.id);
    if (this.deleted?.id === entry.id) this.deleted = undefined;
    this.done = say('{title} is deleted for good.', { title: entry.title });
    await this.readList();
    await this.updateComplete;
    const others = this.renderRoot.querySelector('sd-deleted-notebooks');
    (others ?? this.renderRoot.querySelector<HTMLElement>('#yours'))?.focus();
  }

  /** To what stands in the line of one notebook, wherever the list has it by now. */
  private async focusOn(selector: string, id: string): Promise<void> {
    await this.updateComplete;
    const line = `[data-notebook="${CSS.escape(id)}"] ${selector}`;
    this.renderRoot.querySelector<HTMLElement>(line)?.focus();
  }

  private async onFile(event: Event): Promise<void> {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    if (file) await this.take(file);
    input.value = '';
  }

  /** A file that was chosen here or dropped on the page. */
  async take(file: File): Promise<void> {
    const { services } = this;
    if (!services) return;
    this.rescue = undefined;
    const { isList } = await import('./take-file.ts');
    if (await isList(file)) {
      this.fileTrouble = say(
        '{name} is a list, not a notebook. Open or start a notebook first, then bring the list in there with Import.',
        { name: file.name },
      );
      return;
    }
    const text = await file.text();
    const read = services.readFile(text);
    this.fileTrouble = isFault(read)
      ? say('{name}: {sentence}', { name: file.name, sentence: read.sentence })
      : '';
    if (isFault(read)) this.rescue = rescued(text);
    else if (read.kind === 'notebook') await this.openNotebook(read.notebook);
    else
      await this.renderRoot
        .querySelector<SdNewNotebook>('sd-new-notebook')
        ?.take(file.name, read.template);
  }

  /** Opens a notebook that was read from a file; asks first where it is on this device already. */
  async openNotebook(notebook: Notebook): Promise<void> {
    const known = await this.services?.shelf.list().catch(() => []);
    const entry = known?.find(({ id }) => id === notebook.id);
    if (!entry) this.tell('open-new', { notebook, isFromFile: true });
    else
      await openDialog<SdKnownNotebook>(
        this,
        'sd-known-notebook',
        () => import('./sd-known-notebook.ts'),
        (dialog) => dialog.ask(entry, notebook),
      );
  }

  private async openRescued({ notebook, problems }: Salvaged): Promise<void> {
    const aside = `${JSON.stringify(problems, null, 2)}\n`;
    downloadText('damaged-part.json', aside, 'application/json');
    await this.openNotebook(notebook);
  }

  private renderEntry(entry: ShelfEntry): TemplateResult {
    const { services } = this;
    const words = entryWords(entry, services?.today() ?? '', services?.demo.id);
    return html`
      <li data-notebook=${entry.id}>
        <button class="open" @click=${() => this.tell('open-notebook', { id: entry.id })}>
          <b>${entry.title || say('Notebook without a name')}</b>
          <span class="small soft">${words}</span>
        </button>
        <sd-menu
          label=${say('More about {title}', { title: entry.title })}
          .choices=${[
            { label: say('Rename'), run: () => this.rename(entry) },
            { label: say('Copy'), run: () => this.copy(entry) },
            { label: say('Delete'), run: () => this.takeOff(entry) },
          ]}
        ></sd-menu>
      </li>
    `;
  }

  private renderDeleted(entries: readonly ShelfEntry[]): TemplateResult | typeof nothing {
    if (entries.length === 0) return nothing;
    const { services } = this;
    return html`<sd-deleted-notebooks
      .entries=${entries}
      .today=${services?.today() ?? ''}
      .demoId=${services?.demo.id}
      @put-back=${(event: CustomEvent<ShelfEntry>) => this.putBack(event.detail)}
      @purge=${(event: CustomEvent<ShelfEntry>) => this.purge(event.detail)}
    ></sd-deleted-notebooks>`;
  }

  private renderNotebooks(all: readonly ShelfEntry[]): TemplateResult {
    const entries = all.filter(({ isDeleted }) => !isDeleted);
    return html`
      <section aria-labelledby="yours">
        <h2 id="yours" tabindex="-1">${say('Your notebooks')}</h2>
        ${
          entries.length === 0
            ? html`<p class="soft">
                ${say('None on this device yet. Start one, or look at the demo first: an invented smallholding with four sampling days.')}
              </p>`
            : html`<ul>
                ${repeat(
                  entries,
                  ({ id }) => id,
                  (entry) => this.renderEntry(entry),
                )}
              </ul>`
        }
        <div class="other">
          <button @click=${() => this.tell('open-demo', {})}>${say('Open the demo')}</button>
          <label class="button">
            ${say('Open a file…')}
            <input
              class="visually-hidden"
              type="file"
              accept=".json,.txt,application/json"
              @change=${this.onFile}
            />
          </label>
        </div>
        ${this.renderDeleted(all.filter(({ isDeleted }) => isDeleted))}
      </section>
    `;
  }

  protected override render(): TemplateResult {
    const { entries, deleted, rescue } = this;
    const trouble = this.fileTrouble || this.trouble;
    return html`
      <main>
        <h1 tabindex="-1">${programName}</h1>
        <p class="lead">
          ${say('Type what you count, see eggs per gram, who needs treating and whether the dewormer still works. Everything stays on this device, also without a network.')}
        </p>
        <div role="status">
          ${
            trouble
              ? html`<p class="trouble">
                  ${trouble}
                  ${
                    rescue
                      ? html`<button @click=${() => this.openRescued(rescue)}>
                          ${say('Open what can be read, and save the rest aside')}
                        </button>`
                      : nothing
                  }
                </p>`
              : nothing
          }
          ${this.done ? html`<p class="done">${this.done}</p>` : nothing}
          ${
            deleted
              ? html`<div class="deleted">
                  <span>${say('{title} is deleted.', { title: deleted.title })}</span>
                  <button @click=${() => this.putBack(deleted)}>${say('Put it back')}</button>
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
                  <h2 id="new">${say('Start a notebook')}</h2>
                  <sd-new-notebook></sd-new-notebook>
                </section>
              </div>`
        }
        <footer>
          ${this.services ? keepingWords(this.services) : nothing}
          ${say('Wear gloves, wash your hands before you eat, and keep samples out of the food fridge.')}
          <sd-language-choice></sd-language-choice>
        </footer>
        <sd-rename-notebook @notebook-renamed=${this.onRenamed}></sd-rename-notebook>
      </main>
    `;
  }
}

function rescued(text: string): Salvaged | undefined {
  const read = salvageNotebookText(text);
  return isFault(read) ? undefined : read;
}

customElements.define('sd-start', SdStart);

declare global {
  interface HTMLElementTagNameMap {
    'sd-start': SdStart;
  }
}
