import { ContextConsumer } from '@lit/context';
import { LitElement, html, nothing, type TemplateResult } from 'lit';
import type { Template } from '../shared/template.ts';
import { aboutOf } from '../src/notebook/read.ts';
import { formStyles } from './form-styles.ts';
import { formText } from './form-text.ts';
import { saveTemplate } from './notebook-files.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';
import './sd-sheet.ts';
import type { SdSheet } from './sd-sheet.ts';
import { say } from '../src/text/say.ts';

/** The open notebook's layout as a template: kept among the person's own, or as a file to hand on. */
export class SdSaveTemplate extends LitElement {
  static override properties = { fault: { state: true }, said: { state: true } };

  static override styles = [...theme, formStyles];

  declare private fault: string;
  declare private said: string;
  private readonly session = new Select(this, (session) => session);
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.fault = '';
    this.said = '';
  }

  async open(): Promise<void> {
    this.fault = '';
    this.said = '';
    await this.updateComplete;
    const name = this.renderRoot.querySelector<HTMLInputElement>('[name="name"]');
    const session = this.session.value;
    if (name && name.value === '' && session) name.value = aboutOf(session.notebook).title ?? '';
    await this.renderRoot.querySelector<SdSheet>('sd-sheet')?.open();
  }

  private get made(): Template | undefined {
    const form = this.renderRoot.querySelector('form');
    const session = this.session.value;
    if (!form || !session) return undefined;
    const name = formText(form, 'name');
    this.said = '';
    this.fault = name === '' ? say('Give the template a name, to be found again in the list.') : '';
    if (this.fault) {
      form.querySelector<HTMLInputElement>('[name="name"]')?.focus();
      return undefined;
    }
    return this.services.value?.templateOf(session.notebook, name, formText(form, 'purpose'));
  }

  private async keep(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const template = this.made;
    if (!template) return;
    try {
      await this.services.value?.ownTemplates.keep(template);
      this.said = say(
        '“{name}” is kept. It is offered under “Your own” wherever a notebook or a season is started.',
        { name: template.name },
      );
    } catch (error) {
      this.fault = error instanceof Error ? error.message : String(error);
    }
  }

  private saveFile(): void {
    const template = this.made;
    if (!template) return;
    saveTemplate(template);
    this.said = say(
      '“{name}” is saved to a file. Whoever gets it opens it where a notebook is started.',
      { name: template.name },
    );
  }

  protected override render(): TemplateResult {
    return html`
      <sd-sheet heading=${say('Save as a template')}>
        <form @submit=${this.keep} novalidate>
          <p>
            ${say('Its columns, protocol, limits, criteria, figures, check list and blocks, as they stand for new days. No animals, no counts, no products, no treatments.')}
          </p>
          <label class="field"
            >${say('Name')} <input name="name" autocomplete="off" data-first
          /></label>
          <label class="field">
            ${say('When it is the right one')}
            <input name="purpose" autocomplete="off" placeholder=${say('optional')} />
          </label>
          ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
          <p role="status">${this.said || nothing}</p>
          <div class="actions">
            <button type="button" @click=${this.saveFile}>${say('Save to a file')}</button>
            <button class="main">${say('Keep on this device')}</button>
          </div>
        </form>
      </sd-sheet>
    `;
  }
}

customElements.define('sd-save-template', SdSaveTemplate);

declare global {
  interface HTMLElementTagNameMap {
    'sd-save-template': SdSaveTemplate;
  }
}
