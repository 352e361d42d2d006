import { ContextConsumer } from '@lit/context';
import { LitElement, html, nothing, type TemplateResult } from 'lit';
import type { Template } from '../shared/template.ts';
import { animalsStaying, treatmentsInForce } from '../src/notebook/next-season.ts';
import { groupOn } from '../src/notebook/present.ts';
import { aboutOf, animalsOf } from '../src/notebook/read.ts';
import { isDate } from '../src/text/date.ts';
import { formStyles } from './form-styles.ts';
import { formText } from './form-text.ts';
import { carriedWords } from './season-carry-words.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import type { TemplateLine } from './templates.ts';
import { theme } from './theme.ts';
import './sd-sheet.ts';
import type { SdSheet } from './sd-sheet.ts';
import './sd-template-picker.ts';
import type { SdTemplatePicker } from './sd-template-picker.ts';
import { say } from '../src/text/say.ts';

/**
 * Starts the next season from the open notebook: its animals, their groups and the products go on in a new
 * notebook; its sampling days stay where they are. Fires `open-new`.
 */
export class SdNextSeason extends LitElement {
  static override properties = {
    from: { state: true },
    fault: { state: true },
    first: { state: true },
  };

  static override styles = [...theme, formStyles];

  declare private from: string;
  declare private fault: string;
  /** This notebook's own layout, made when the dialog opens. */
  declare private first: TemplateLine | undefined;
  private readonly session = new Select(this, (session) => session);
  private readonly notebook = new Select(this, (session) => session.notebook);
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.from = '';
    this.fault = '';
  }

  async open(): Promise<void> {
    const services = this.services.value;
    const notebook = this.notebook.value;
    this.fault = '';
    if (services && notebook) {
      this.from = services.today();
      const name = aboutOf(notebook).title ?? say('this notebook');
      this.first = {
        id: 'this',
        name: say('As “{name}” is laid out', { name }),
        purpose: say('Its columns, criteria, limits, figures and blocks as they stand now.'),
        load: async () => services.templateOf(this.notebook.value ?? notebook, name, ''),
      };
      await this.updateComplete;
      const title = this.renderRoot.querySelector<HTMLInputElement>('[name="title"]');
      if (title) title.value = nextTitle(name);
      const place = this.renderRoot.querySelector<HTMLInputElement>('[name="place"]');
      if (place) place.value = aboutOf(notebook).place ?? '';
    }
    await this.updateComplete;
    await this.renderRoot.querySelector<SdSheet>('sd-sheet')?.open();
  }

  /** Takes a template that was dropped on the page. */
  async take(name: string, template: Template): Promise<void> {
    await this.updateComplete;
    await this.picker?.take(name, template);
  }

  private get picker(): SdTemplatePicker | null {
    return this.renderRoot.querySelector('sd-template-picker');
  }

  private async onSubmit(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const [title, place] = [formText(form, 'title'), formText(form, 'place')];
    const services = this.services.value;
    const session = this.session.value;
    if (!services || !session) return;
    this.fault =
      title === ''
        ? say('Give the new notebook a name, like the farm and the season.')
        : isDate(this.from)
          ? ''
          : say('Say from which date the season begins: day, month and year.');
    if (this.fault) return;
    const template = await this.picker?.template();
    if (!template) return;
    const { from } = this;
    const notebook = services.startSeason(session.notebook, template, { title, place, from });
    this.renderRoot.querySelector<SdSheet>('sd-sheet')?.close();
    this.dispatchEvent(
      new CustomEvent('open-new', { detail: { notebook }, bubbles: true, composed: true }),
    );
  }

  private renderCarried(): TemplateResult | typeof nothing {
    const notebook = this.notebook.value;
    if (!notebook || !isDate(this.from)) return nothing;
    const staying = animalsStaying(notebook, this.from);
    const groups = new Set(staying.map(({ id }) => groupOn(notebook, id, this.from)));
    groups.delete(undefined);
    const words = carriedWords({
      animals: staying.length,
      gone: animalsOf(notebook).length - staying.length,
      groups: groups.size,
      treatments: treatmentsInForce(notebook, this.from).length,
    });
    return html`<p class="sum" role="status">${words}</p>`;
  }

  protected override render(): TemplateResult {
    return html`
      <sd-sheet heading=${say('Start the next season')} isWide>
        <form @submit=${this.onSubmit} novalidate>
          <p>
            ${say('A new notebook with your animals, their groups and your products. The sampling days stay in this one, which is not changed.')}
          </p>
          <div class="row">
            <label class="field">
              ${say('Name')} <input name="title" autocomplete="off" data-first />
            </label>
            <label class="field">${say('Place')} <input name="place" autocomplete="off" /></label>
            <label class="field">
              ${say('The season begins')}
              <input
                name="from"
                type="date"
                .value=${this.from}
                @input=${(event: Event) => {
                  this.from = (event.target as HTMLInputElement).value;
                }}
              />
            </label>
          </div>
          <sd-template-picker .first=${this.first}></sd-template-picker>
          ${this.renderCarried()}
          ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
          <div class="actions"><button class="main">${say('Start the season')}</button></div>
        </form>
      </sd-sheet>
    `;
  }
}

/** `Far Fell 2026` goes on as `Far Fell 2027`; a name without a year as `… next season`. */
function nextTitle(title: string): string {
  const year = /\b(20\d\d)\b(?!.*\b20\d\d\b)/;
  return year.test(title)
    ? title.replace(year, (found) => String(Number(found) + 1))
    : say('{title}, next season', { title });
}

customElements.define('sd-next-season', SdNextSeason);

declare global {
  interface HTMLElementTagNameMap {
    'sd-next-season': SdNextSeason;
  }
}
