import { LitElement, css, html, type TemplateResult } from 'lit';
import { DropFile } from './drop-file.ts';
import type { ListSource } from './import-work.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/** A list from a file, chosen or dropped, or pasted. Fires `list-given` with a `ListSource`. */
export class SdImportSource extends LitElement {
  static override properties = { pasted: { state: true }, trouble: { state: true } };

  static override styles = [
    ...theme,
    css`
      :host {
        display: grid;
        gap: 18px;
      }

      .drop {
        display: grid;
        justify-items: center;
        gap: 10px;
        padding: 28px 16px;
        border: 2px dashed var(--line-strong);
        border-radius: 10px;
        background: var(--sunk);
        text-align: center;
      }

      .drop.over {
        border-color: var(--accent);
        background: var(--accent-soft);
      }

      .drop p {
        margin: 0;
      }

      textarea {
        min-height: 7em;
        font-family: var(--font-code);
        font-size: var(--size-small);
        white-space: pre;
      }

      .actions {
        margin-top: 8px;
      }

      @media (pointer: coarse) {
        .mouse {
          display: none;
        }
      }
    `,
  ];

  declare private pasted: string;
  declare private trouble: string;
  private readonly drop = new DropFile(this, (file) => void this.read(file));

  constructor() {
    super();
    this.pasted = '';
    this.trouble = '';
  }

  private async read(file: File): Promise<void> {
    this.trouble = '';
    try {
      this.give({ name: file.name, input: new Uint8Array(await file.arrayBuffer()) });
    } catch {
      this.trouble = say(
        '{name} could not be read. If it lies in the cloud or on a stick, copy it to this device first.',
        { name: file.name },
      );
    }
  }

  private give(source: ListSource): void {
    this.dispatchEvent(
      new CustomEvent('list-given', { detail: source, bubbles: true, composed: true }),
    );
  }

  private onChosen(event: Event): void {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    if (file) void this.read(file);
    // The same file can be chosen again after it was put right.
    input.value = '';
  }

  private onPasted(event: SubmitEvent): void {
    event.preventDefault();
    if (this.pasted.trim() === '') this.trouble = say('Nothing is pasted yet.');
    else this.give({ name: say('a pasted list'), input: this.pasted });
  }

  protected override render(): TemplateResult {
    return html`
      <div class=${this.drop.isOver ? 'drop over' : 'drop'}>
        <button
          class="main"
          @click=${() => this.renderRoot.querySelector<HTMLInputElement>('#file')?.click()}
        >
          ${say('Choose a file')}
        </button>
        <input
          id="file"
          type="file"
          accept=".csv,.txt,.tsv,text/csv,text/plain,text/tab-separated-values"
          aria-label=${say('File with a list')}
          hidden
          @change=${this.onChosen}
        />
        <p class="mouse">${say('or drop it here')}</p>
        <p class="small soft">
          ${say('CSV from a spreadsheet, a laboratory, a tag reader or a scale. Nothing changes before you have seen what it holds.')}
        </p>
      </div>
      <form @submit=${this.onPasted}>
        <label class="field">
          ${say('Or paste a list')}
          <textarea
            spellcheck="false"
            placeholder=${say('tag,date,chamber1,chamber2')}
            .value=${this.pasted}
            @input=${(event: Event) => {
              this.pasted = (event.target as HTMLTextAreaElement).value;
              this.trouble = '';
            }}
          ></textarea>
        </label>
        <div class="actions"><button>${say('Look at it')}</button></div>
      </form>
      <p class="fault" role="alert" ?hidden=${this.trouble === ''}>${this.trouble}</p>
    `;
  }
}

customElements.define('sd-import-source', SdImportSource);

declare global {
  interface HTMLElementTagNameMap {
    'sd-import-source': SdImportSource;
  }
}
