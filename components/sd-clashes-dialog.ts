import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Json } from '../shared/cell.ts';
import { choosing, clashesOf, type Clash } from '../src/notebook/clashes.ts';
import { mayClash } from './clash-notice.ts';
import { placeWords, valueWords, writtenWords } from './clash-words.ts';
import { mergeStyles } from './merge-styles.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';
import './sd-sheet.ts';
import type { SdSheet } from './sd-sheet.ts';
import { say } from '../src/text/say.ts';

/** So many are drawn at a time; the next ones follow as these are settled. */
const mostDrawn = 50;

/** Places where two copies of the notebook differ, each with its values: the person chooses. */
export class SdClashesDialog extends LitElement {
  static override properties = { isOpen: { state: true }, said: { state: true } };

  static override styles = [
    ...theme,
    mergeStyles,
    css`
      .values {
        display: flex;
        flex-wrap: wrap;
        gap: 8px;
      }

      .values button {
        flex-direction: column;
        align-items: flex-start;
        gap: 0;
        max-width: 100%;
        padding-block: 6px;
        overflow-wrap: anywhere;
        text-align: left;
      }

      .values b {
        font-weight: 650;
      }

      [role='status'] {
        min-height: 1.4em;
      }
    `,
  ];

  declare private isOpen: boolean;
  declare private said: string;
  private clashes: readonly Clash[] = [];
  private readonly session = new Select(this, (session) => session);
  private readonly services = new ContextConsumer(this, { context: servicesContext });

  constructor() {
    super();
    this.isOpen = false;
    this.said = '';
    new Select(this, (session) => this.look(session.notebook), {
      when: ({ transaction }) => transaction === undefined || mayClash(transaction.changes),
    });
  }

  async open(): Promise<void> {
    this.isOpen = true;
    this.said = '';
    const session = this.session.value;
    if (session) this.look(session.notebook);
    this.requestUpdate();
    await this.updateComplete;
    await this.renderRoot.querySelector<SdSheet>('sd-sheet')?.open();
  }

  private look(notebook: Parameters<typeof clashesOf>[0]): readonly Clash[] {
    if (this.isOpen) this.clashes = clashesOf(notebook);
    return this.clashes;
  }

  private async choose(clash: Clash, value: Json): Promise<void> {
    const session = this.session.value;
    if (!session?.mayWrite()) return;
    const place = placeWords(session.notebook, clash.path);
    await session.dispatch(choosing(clash, value, place));
    this.said = say('{place}: {value} stands.', {
      place,
      value: valueWords(value, session.notebook, clash.path),
    });
    await this.updateComplete;
    const next = this.renderRoot.querySelector<HTMLElement>('.values button');
    (next ?? this.renderRoot.querySelector<HTMLElement>('#none'))?.focus();
  }

  private renderClash(clash: Clash): TemplateResult {
    const notebook = this.session.value?.notebook;
    const year = this.services.value?.today().slice(0, 4) ?? '';
    const place = notebook ? placeWords(notebook, clash.path) : '';
    return html`
      <li>
        <span>${place}</span>
        <div class="values" role="group" aria-label=${say('Which one stands: {place}', { place })}>
          ${clash.values.map(
            ({ value, stamp }) => html`
              <button @click=${() => this.choose(clash, value)}>
                <b>${valueWords(value, notebook, clash.path)}</b>
                <span class="small soft">${writtenWords(stamp, year)}</span>
              </button>
            `,
          )}
        </div>
      </li>
    `;
  }

  protected override render(): TemplateResult {
    const { clashes } = this;
    const rest = clashes.length - mostDrawn;
    return html`
      <sd-sheet
        heading=${say('Where two copies differ')}
        isWide
        @sheet-closed=${() => {
          this.isOpen = false;
        }}
      >
        ${
          clashes.length === 0
            ? html`<p id="none" tabindex="-1">${say('Nowhere: every value is settled.')}</p>`
            : html`<p>
                  ${say('Each device wrote a value without knowing of the other’s. Choose the one that is right; until then the newest one counts. Undo takes a choice back.')}
                </p>
                <ul class="plain">
                  ${clashes.slice(0, mostDrawn).map((clash) => this.renderClash(clash))}
                </ul>
                ${rest > 0 ? html`<p class="soft">${say('and {rest} more', { rest })}</p>` : nothing}`
        }
        <p role="status">${this.said}</p>
      </sd-sheet>
    `;
  }
}

customElements.define('sd-clashes-dialog', SdClashesDialog);

declare global {
  interface HTMLElementTagNameMap {
    'sd-clashes-dialog': SdClashesDialog;
  }
}
