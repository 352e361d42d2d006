import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Template } from '../shared/template.ts';
import { formText } from './form-text.ts';
import { formStyles } from './form-styles.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';

/** Starts a notebook from a season's template, with its name and place. Fires `open-new`. */
export class SdNewNotebook extends LitElement {
  static override properties = {
    chosen: { state: true },
    fault: { state: true },
  };

  static override styles = [
    ...theme,
    formStyles,
    css`
      :host {
        display: block;
      }

      .purpose {
        margin: 2px 0 0;
        color: var(--ink);
      }

      input,
      select,
      button {
        min-height: 44px;
      }

      .fault {
        margin: 0;
      }
    `,
  ];

  declare private chosen: string;
  declare private fault: string;
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.chosen = '';
    this.fault = '';
  }

  private get templates(): readonly Template[] {
    return this.services.value?.templates ?? [];
  }

  private get template(): Template | undefined {
    return this.templates.find(({ id }) => id === this.chosen) ?? this.templates[0];
  }

  private onSubmit(event: SubmitEvent): void {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const title = formText(form, 'title');
    const place = formText(form, 'place');
    const { template } = this;
    const services = this.services.value;
    if (!template || !services) return;
    if (title === '') {
      this.fault = 'Give the notebook a name, like the farm and the season.';
      this.renderRoot.querySelector<HTMLInputElement>('[name="title"]')?.focus();
      return;
    }
    this.fault = '';
    const notebook = services.startNotebook(template, title, place);
    this.dispatchEvent(
      new CustomEvent('open-new', { detail: { notebook }, bubbles: true, composed: true }),
    );
  }

  protected override render(): TemplateResult {
    const { template } = this;
    return html`
      <form @submit=${this.onSubmit} novalidate>
        <label class="field">
          Template
          <select
            name="template"
            @change=${(event: Event) => {
              this.chosen = (event.target as HTMLSelectElement).value;
            }}
          >
            ${this.templates.map(
              ({ id, name }) =>
                html`<option value=${id} ?selected=${id === template?.id}>${name}</option>`,
            )}
          </select>
          <span class="purpose" aria-live="polite">${template?.purpose ?? ''}</span>
        </label>
        <label class="field">
          Name
          <input
            name="title"
            autocomplete="off"
            placeholder="Far Fell 2026"
            aria-invalid=${this.fault ? 'true' : 'false'}
            aria-describedby=${this.fault ? 'title-fault' : nothing}
          />
        </label>
        ${this.fault ? html`<p class="fault" id="title-fault">${this.fault}</p>` : nothing}
        <label class="field">
          Place
          <input name="place" autocomplete="off" placeholder="optional" />
        </label>
        <button class="main">Start the notebook</button>
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
