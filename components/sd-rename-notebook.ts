import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { formText } from './form-text.ts';
import { formStyles } from './form-styles.ts';
import { servicesContext, type ShelfEntry } from './services.ts';
import { theme } from './theme.ts';
import './sd-sheet.ts';
import type { SdSheet } from './sd-sheet.ts';
import { say } from '../src/text/say.ts';

/** What `notebook-renamed` tells of. */
export interface Renamed {
  readonly id: string;
  readonly former: string;
  readonly title: string;
}

/** Renames a notebook that is not open. Fires `notebook-renamed` with a `Renamed`. */
export class SdRenameNotebook extends LitElement {
  static override properties = { entry: { state: true }, fault: { state: true } };

  static override styles = [
    ...theme,
    formStyles,
    css`
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
    const title = this.renderRoot.querySelector<HTMLInputElement>('[name="title"]');
    if (title) title.value = entry.title;
    await this.sheet?.open();
    title?.select();
  }

  private async onSubmit(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const title = formText(form, 'title');
    const services = this.services.value;
    const { entry } = this;
    if (!services || !entry) return;
    if (title === '') {
      this.fault = say('A notebook needs a name, to be found again in the list.');
      return;
    }
    const wrong = await services.shelf.rename(entry.id, title);
    if (wrong) {
      this.fault = wrong.sentence;
      return;
    }
    this.sheet?.close();
    const detail: Renamed = { id: entry.id, former: entry.title, title };
    this.dispatchEvent(
      new CustomEvent('notebook-renamed', { detail, bubbles: true, composed: true }),
    );
  }

  protected override render(): TemplateResult {
    return html`
      <sd-sheet heading=${say('Rename the notebook')}>
        <form @submit=${this.onSubmit} novalidate>
          <label class="field"
            >${say('Name')} <input name="title" autocomplete="off" data-first
          /></label>
          ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
          <div class="actions"><button class="main">${say('Rename')}</button></div>
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
