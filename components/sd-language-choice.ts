import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { LanguageChange } from './change-language.ts';
import { chosenLanguage, languages, type Drawer } from './language.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/**
 * The language of the page, for this device. Another one takes a page loaded anew, so choosing alone does
 * nothing: a button does, beside a word about what is not kept yet.
 */
export class SdLanguageChoice extends LitElement {
  static override properties = {
    picked: { state: true },
    result: { state: true },
    drawer: { attribute: false },
  };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
        font-size: var(--size-small);
      }

      .choice {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 8px;
      }

      label {
        display: inline-flex;
        flex-direction: row;
        align-items: center;
        gap: 8px;
      }

      select,
      button {
        min-height: 44px;
      }

      p {
        margin: 6px 0 0;
      }
    `,
  ];

  /** Where this device keeps its choice; a test puts its own here. */
  declare drawer: () => Drawer;
  /** Picked and not yet taken; '' is the browser's own language. */
  declare private picked: string | undefined;
  declare private result: LanguageChange | undefined;
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.drawer = () => localStorage;
  }

  private get kept(): string {
    return chosenLanguage(this.drawer) ?? '';
  }

  private async change(): Promise<void> {
    const { picked } = this;
    if (picked === undefined) return;
    this.result = await this.services.value?.changeLanguage(picked === '' ? null : picked);
  }

  private renderButton(picked: string): TemplateResult {
    const name = languages.find(({ code }) => code === picked)?.name;
    return html`
      <button @click=${this.change}>
        ${
          name === undefined
            ? say("Change to the browser's language")
            : say('Change to {language}', { language: name })
        }
      </button>
      <span class="soft">
        ${say('This loads the page anew: keep what you typed in a form first.')}
      </span>
    `;
  }

  private get words(): string {
    if (this.result === 'not kept')
      return say(
        'This browser does not keep your choice, so the page goes on in the language of the browser.',
      );
    if (this.result === 'waiting')
      return say(
        'The page speaks that language when it is next loaded. What you typed is in this page alone: save the notebook to a file first, then reload the page.',
      );
    return '';
  }

  protected override render(): TemplateResult {
    const chosen = this.picked ?? this.kept;
    const isOther = chosen !== this.kept;
    return html`
      <div class="choice">
        <label>
          ${say('Language')}
          <select
            @change=${(event: Event) => {
              this.picked = (event.target as HTMLSelectElement).value;
              this.result = undefined;
            }}
          >
            <option value="" .selected=${chosen === ''}>${say('As the browser')}</option>
            ${languages.map(
              ({ code, name }) =>
                html`<option value=${code} lang=${code} .selected=${chosen === code}>
                  ${name}
                </option>`,
            )}
          </select>
        </label>
        ${isOther ? this.renderButton(chosen) : nothing}
      </div>
      <p role="status" ?hidden=${this.words === ''}>${this.words}</p>
    `;
  }
}

customElements.define('sd-language-choice', SdLanguageChoice);

declare global {
  interface HTMLElementTagNameMap {
    'sd-language-choice': SdLanguageChoice;
  }
}
