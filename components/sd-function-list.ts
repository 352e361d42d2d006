import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { FUNCTION_FORMS, formText, type FunctionForm } from '../src/engine/function-form.ts';
import { helpCard } from '../src/engine/help-cards/all-help-cards.ts';
import type { CardCategory } from '../src/engine/help-cards/help-card.ts';
import { functionCard, helpCardStyles } from './help-card.ts';
import { theme } from './theme.ts';
import './sd-sheet.ts';
import type { SdSheet } from './sd-sheet.ts';
import { say } from '../src/text/say.ts';

/** The headings of the list, in its order of need: those of the trade, then the ordinary ones. */
const headings: Readonly<Record<CardCategory | 'ordinary', string>> = {
  'one cup': say('one cup'),
  'the herd': say('the herd'),
  'a dewormer': say('a dewormer'),
  treatment: say('treatment'),
  fluid: say('fluid'),
  ordinary: say('ordinary spreadsheet functions'),
};

/**
 * Every function a formula may use, to be searched by name or by words of its help. Each opens into its card:
 * what it gives, what it takes, what happens with gaps, an example, how it is worked out and on whose word.
 */
export class SdFunctionList extends LitElement {
  static override properties = { query: { state: true }, opened: { state: true } };

  static override styles = [
    ...theme,
    helpCardStyles,
    css`
      .search {
        position: sticky;
        top: 64px;
        z-index: 1;
        display: grid;
        gap: 4px;
        margin: -16px -20px 0;
        padding: 12px 20px;
        background: var(--sheet);
      }

      h3 {
        margin: 16px 0 4px;
        color: var(--soft);
      }

      details {
        border-bottom: 1px solid var(--line);
      }

      summary {
        display: grid;
        gap: 0 16px;
        align-items: baseline;
        min-height: var(--control);
        padding: 6px 0;
        cursor: pointer;
        list-style: none;
      }

      summary::-webkit-details-marker {
        display: none;
      }

      summary .name {
        overflow-wrap: anywhere;
        color: var(--accent);
        font-family: var(--font-code);
        font-size: 0.9375em;
      }

      summary .help {
        color: var(--soft);
        font-size: var(--size-small);
      }

      [open] summary .help {
        display: none;
      }

      .card {
        padding: 0 0 12px;
      }

      .card .form {
        display: none;
      }

      @media (min-width: 45em) {
        details:not([open]) summary {
          grid-template-columns: minmax(15em, 2fr) 3fr;
        }
      }

      @media (max-width: 37.5em) {
        .search {
          margin: -14px -14px 0;
          padding: 10px 14px;
        }
      }
    `,
  ];

  declare private query: string;
  declare private opened: ReadonlySet<string>;

  constructor() {
    super();
    this.query = '';
    this.opened = new Set();
  }

  /** Opens the list; what was searched for last still stands. */
  async open(): Promise<void> {
    await this.updateComplete;
    await this.renderRoot.querySelector<SdSheet>('sd-sheet')?.open();
  }

  private get found(): readonly FunctionForm[] {
    const words = this.query.toLowerCase().split(/\s+/).filter(Boolean);
    const fits = (form: FunctionForm): boolean => {
      const card = helpCard(form.name);
      const category = card ? headings[card.category] : '';
      const text = `${formText(form)} ${form.help} ${category} ${card?.inWords ?? ''}`;
      return words.every((word) => text.toLowerCase().includes(word));
    };
    const list = FUNCTION_FORMS.filter(fits);
    const named = (form: FunctionForm): boolean =>
      words[0] !== undefined && form.name.toLowerCase().startsWith(words[0]);
    return [...list.filter(named), ...list.filter((form) => !named(form))];
  }

  private onSearch(event: Event): void {
    this.query = (event.target as HTMLInputElement).value;
  }

  private onToggle(name: string, event: Event): void {
    const isOpen = (event.target as HTMLDetailsElement).open;
    const next = new Set(this.opened);
    if (isOpen) next.add(name);
    else next.delete(name);
    this.opened = next;
  }

  private renderForm(form: FunctionForm): TemplateResult {
    const isOpen = this.opened.has(form.name);
    return html`<details
      .open=${isOpen}
      @toggle=${(event: Event) => this.onToggle(form.name, event)}
    >
      <summary>
        <span class="name">${formText(form)}</span>
        <span class="help">${form.help}</span>
      </summary>
      ${isOpen ? functionCard(form.name) : nothing}
    </details>`;
  }

  protected override render(): TemplateResult {
    const { found } = this;
    const byCategory = new Map<keyof typeof headings, FunctionForm[]>();
    for (const form of found) {
      const category = helpCard(form.name)?.category ?? 'ordinary';
      byCategory.set(category, [...(byCategory.get(category) ?? []), form]);
    }
    const count = say('{n, plural, one {# function} other {# functions}}', { n: found.length });
    return html`<sd-sheet heading=${say('Functions')} .isWide=${true}>
      <div class="search">
        <input
          type="search"
          aria-label=${say('Search the functions')}
          placeholder=${say('Search: limits, mean, dose …')}
          autocomplete="off"
          data-first
          .value=${this.query}
          @input=${this.onSearch}
        />
        <span class="hint" role="status"
          >${found.length === 0 ? say('No function fits. Try one word of it.') : count}</span
        >
      </div>
      ${[...byCategory].map(
        ([category, forms]) =>
          html`<h3>${headings[category]}</h3>
            ${forms.map((form) => this.renderForm(form))}`,
      )}
    </sd-sheet>`;
  }
}

customElements.define('sd-function-list', SdFunctionList);

declare global {
  interface HTMLElementTagNameMap {
    'sd-function-list': SdFunctionList;
  }
}
