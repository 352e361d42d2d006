import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Template } from '../shared/template.ts';
import { formText } from './form-text.ts';
import { formStyles } from './form-styles.ts';
import type { SdTemplatePicker } from './sd-template-picker.ts';
import './sd-template-picker.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/** Starts a notebook from a template, with its name and place. Fires `open-new`. */
export class SdNewNotebook extends LitElement {
  static override properties = { fault: { state: true } };

  static override styles = [
    ...theme,
    formStyles,
    css`
      :host {
        display: block;
      }

      .fault {
        margin: 0;
      }
    `,
  ];

  declare private fault: string;
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.fault = '';
  }

  /** Takes a template that came as a file. */
  async take(name: string, template: Template): Promise<void> {
    await this.picker?.take(name, template);
    this.picker?.scrollIntoView({ block: 'center' });
  }

  private get picker(): SdTemplatePicker | null {
    return this.renderRoot.querySelector('sd-template-picker');
  }

  private async onSubmit(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const title = formText(form, 'title');
    const place = formText(form, 'place');
    const services = this.services.value;
    if (!services) return;
    if (title === '') {
      this.fault = say('Give the notebook a name, like the farm and the season.');
      this.renderRoot.querySelector<HTMLInputElement>('[name="title"]')?.focus();
      return;
    }
    this.fault = '';
    const template = await this.picker?.template();
    if (!template) return;
    const notebook = services.startNotebook(template, title, place);
    this.dispatchEvent(
      new CustomEvent('open-new', { detail: { notebook }, bubbles: true, composed: true }),
    );
  }

  protected override render(): TemplateResult {
    return html`
      <form @submit=${this.onSubmit} novalidate>
        <sd-template-picker></sd-template-picker>
        <label class="field">
          ${say('Name')}
          <input
            name="title"
            autocomplete="off"
            placeholder=${say('Far Fell 2026')}
            aria-invalid=${this.fault ? 'true' : 'false'}
            aria-describedby=${this.fault ? 'title-fault' : nothing}
          />
        </label>
        ${this.fault ? html`<p class="fault" id="title-fault">${this.fault}</p>` : nothing}
        <label class="field">
          ${say('Place')}
          <input name="place" autocomplete="off" placeholder=${say('optional')} />
        </label>
        <button class="main">${say('Start the notebook')}</button>
      </form>
    `;
  }
}

customElements.define('sd-new-notebook', SdNewNotebook);

declare global {
  interface HTMLElementTagNameMap {
    'sd-new-notebook': SdNewNotebook;
  }
}
