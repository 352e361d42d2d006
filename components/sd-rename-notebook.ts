import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Edit } from '../shared/edit.ts';
import { isFault } from '../shared/value.ts';
import { setsOf } from '../src/notebook/record-sets.ts';
import { servicesContext, type ShelfEntry } from './services.ts';
import { theme } from './theme.ts';
import './sd-sheet.ts';
import type { SdSheet } from './sd-sheet.ts';

/** Renames a notebook that is not open. Fires `notebook-renamed` `{notebook}`. */
export class SdRenameNotebook extends LitElement {
  static override properties = { entry: { state: true }, fault: { state: true } };

  static override styles = [
    ...theme,
    css`
      form {
        display: grid;
        gap: 14px;
      }

      .fault {
        margin: 0;
      }
    `,
  ];

  declare private entry: ShelfEntry | undefined;
  declare private fault: string;
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.fault = '';
  }

  private get sheet(): SdSheet | null {
    return this.renderRoot.querySelector('sd-sheet');
  }

  async open(entry: ShelfEntry): Promise<void> {
    this.entry = entry;
    this.fault = '';
    await this.updateComplete;
    const field = (name: string): HTMLInputElement | null =>
      this.renderRoot.querySelector(`[name="${name}"]`);
    const title = field('title');
    const place = field('place');
    if (title) title.value = entry.title;
    if (place) place.value = entry.place;
    await this.sheet?.open();
    title?.select();
  }

  private async onSubmit(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const form = new FormData(event.target as HTMLFormElement);
    const title = String(form.get('title') ?? '').trim();
    const place = String(form.get('place') ?? '').trim();
    const services = this.services.value;
    if (!services || !this.entry) return;
    if (title === '') {
      this.fault = 'A notebook needs a name, to be found again in the list.';
      return;
    }
    const notebook = await services.shelf.load(this.entry.id);
    if (isFault(notebook)) {
      this.fault = notebook.sentence;
      return;
    }
    const sets = setsOf('about', 'notebook', { title, place });
    const edit: Edit = { label: 'the name', source: 'typed', sets };
    const detail = { notebook: services.withEdit(notebook, edit) };
    this.sheet?.close();
    this.dispatchEvent(
      new CustomEvent('notebook-renamed', { detail, bubbles: true, composed: true }),
    );
  }

  protected override render(): TemplateResult {
    return html`
      <sd-sheet heading="Rename the notebook">
        <form @submit=${this.onSubmit} novalidate>
          <label class="field">Name <input name="title" autocomplete="off" autofocus /></label>
          ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
          <label class="field">Place <input name="place" autocomplete="off" /></label>
          <div class="actions"><button class="main">Rename</button></div>
        </form>
      </sd-sheet>
    `;
  }
}

customElements.define('sd-rename-notebook', SdRenameNotebook);

declare global {
  interface HTMLElementTagNameMap {
    'sd-rename-notebook': SdRenameNotebook;
  }
}
