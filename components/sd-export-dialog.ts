import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { SamplingDay } from '../shared/notebook.ts';
import { aboutOf, daysOf } from '../src/notebook/read.ts';
import { dayWords } from '../src/text/day-words.ts';
import { downloadText } from './download.ts';
import type { ExportWish, NamedText } from './export-files.ts';
import { Select } from './selector-controller.ts';
import { canShareFiles, downloadType, shareFiles } from './share-files.ts';
import { theme } from './theme.ts';
import './sd-sheet.ts';
import type { SdSheet } from './sd-sheet.ts';
import { say } from '../src/text/say.ts';

/** Counts and figures as CSV files: a list for the vet with its method, or a tidy table. */
export class SdExportDialog extends LitElement {
  static override properties = {
    kind: { state: true },
    from: { state: true },
    to: { state: true },
    marks: { state: true },
    state: { state: true },
    said: { state: true },
    made: { state: true },
  };

  static override styles = [
    ...theme,
    css`
      form {
        display: grid;
        gap: 18px;
      }

      fieldset {
        display: grid;
        gap: 8px;
        margin: 0;
        padding: 0;
        border: 0;
      }

      legend {
        margin-bottom: 6px;
        padding: 0;
        font-weight: 650;
      }

      .choice {
        display: grid;
        grid-template-columns: auto minmax(0, 1fr);
        padding: 10px 12px;
        border: 1px solid var(--line-strong);
        border-radius: var(--radius);
        cursor: pointer;
      }

      .choice:has(:checked) {
        border-color: var(--accent);
        background: var(--accent-soft);
      }

      .choice input {
        margin-top: 0.15em;
      }

      .row {
        display: flex;
        flex-wrap: wrap;
        align-items: end;
        gap: 12px;
      }

      p {
        margin: 0;
      }

      [role='status']:not(:empty) {
        margin-top: 14px;
        overflow-wrap: anywhere;
      }

      .again button {
        justify-content: flex-start;
        text-align: left;
      }
    `,
  ];

  declare private kind: ExportWish['kind'];
  /** The first and the last day taken; '' for the open one. */
  declare private from: string;
  declare private to: string;
  declare private marks: ExportWish['style'] | '';
  declare private state: 'still' | 'working';
  declare private said: string;
  /** What was made last, to be saved again where a browser let only the first file through. */
  declare private made: readonly NamedText[];
  private readonly days = new Select(this, (session) => daysOf(session.notebook));
  private readonly openDay = new Select(this, (session) => session.openDay ?? '');

  constructor() {
    super();
    this.kind = 'vet';
    this.from = '';
    this.to = '';
    this.marks = '';
    this.state = 'still';
    this.said = '';
    this.made = [];
  }

  async open(): Promise<void> {
    const day = this.openDay.value ?? '';
    this.from = day;
    this.to = day;
    this.said = '';
    this.made = [];
    await this.updateComplete;
    await this.renderRoot.querySelector<SdSheet>('sd-sheet')?.open();
  }

  private get chosenDays(): readonly string[] {
    const ids = (this.days.value ?? []).map(({ id }) => id);
    const [a, b] = [ids.indexOf(this.from), ids.indexOf(this.to)];
    return a === -1 || b === -1 ? [] : ids.slice(Math.min(a, b), Math.max(a, b) + 1);
  }

  private get written(): ExportWish['style'] {
    if (this.marks !== '') return this.marks;
    const { session } = this.days;
    const mark = session && aboutOf(session.notebook).decimalMark;
    return mark === ',' ? 'semicolon' : 'comma';
  }

  private async make(): Promise<readonly NamedText[]> {
    const { session } = this.days;
    if (!session || this.chosenDays.length === 0) return [];
    this.state = 'working';
    this.said = say('Working it out…');
    const { exportFiles } = await import('./export-files.ts');
    const wish = { kind: this.kind, days: this.chosenDays, style: this.written };
    try {
      return await exportFiles(session.notebook, wish, (done, of) => {
        this.said = of > 1 ? say('Working it out: {done} of {of} days', { done, of }) : this.said;
      });
    } finally {
      this.state = 'still';
    }
  }

  private async onSave(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    if (this.state === 'working') return;
    const files = await this.make();
    for (const { name, text } of files) downloadText(name, text, downloadType);
    this.made = files;
    this.said = files.length === 0 ? '' : say('Saved: {files}.', { files: namesOf(files) });
  }

  private async onShare(): Promise<void> {
    if (this.state === 'working') return;
    const files = await this.make();
    try {
      const isShared = (await shareFiles(navigator, files)) && files.length > 0;
      this.said = isShared ? say('Shared: {files}.', { files: namesOf(files) }) : '';
    } catch {
      this.said = say('This device would not share the files. Save them instead.');
    }
  }

  private renderKind(kind: ExportWish['kind'], name: string, hint: string): TemplateResult {
    return html`
      <label class="choice">
        <input
          type="radio"
          name="kind"
          value=${kind}
          .checked=${this.kind === kind}
          @change=${() => {
            this.kind = kind;
          }}
        />
        <span><b>${name}</b><br /><span class="small soft">${hint}</span></span>
      </label>
    `;
  }

  private renderDay(
    label: string,
    days: readonly SamplingDay[],
    value: string,
    change: (day: string) => void,
  ): TemplateResult {
    return html`
      <label class="field"
        >${label}
        <select
          @change=${(event: Event) => {
            change((event.target as HTMLSelectElement).value);
            this.said = '';
          }}
        >
          ${days.map(
            (day) =>
              html`<option value=${day.id} .selected=${day.id === value}>${dayWords(day)}</option>`,
          )}
        </select>
      </label>
    `;
  }

  private renderDays(): TemplateResult {
    const days = this.days.value ?? [];
    return html`
      <fieldset>
        <legend>${say('Which days')}</legend>
        <div class="row">
          ${this.renderDay(say('From'), days, this.from, (day) => {
            this.from = day;
          })}
          ${this.renderDay(say('to'), days, this.to, (day) => {
            this.to = day;
          })}
          <button
            type="button"
            class="quiet"
            ?hidden=${days.length < 2}
            @click=${() => {
              this.from = days[0]?.id ?? '';
              this.to = days.at(-1)?.id ?? '';
            }}
          >
            ${say('The whole season')}
          </button>
        </div>
        <p class="hint">${daysWords(this.chosenDays.length)}</p>
      </fieldset>
    `;
  }

  protected override render(): TemplateResult {
    const isEmpty = (this.days.value ?? []).length === 0;
    // Not `disabled`: a button that is loses the focus, and the keyboard its place.
    const isWorking = this.state === 'working' ? 'true' : 'false';
    return html`
      <sd-sheet heading=${say('Export')}>
        ${
          isEmpty
            ? html`<p>
                ${say('There is no sampling day yet. Add one first; then its counts can be exported.')}
              </p>`
            : html`<form @submit=${this.onSave}>
                <fieldset>
                  <legend>${say('What for')}</legend>
                  ${this.renderKind(
                    'vet',
                    say('For the vet'),
                    say(
                      'One row for each animal, with units, limits, reasons, doses and clear dates; the method and the cautions in a second file.',
                    ),
                  )}
                  ${this.renderKind(
                    'tidy',
                    say('Tidy table'),
                    say(
                      'One row for each animal and day, everything typed and worked out; reads back into this notebook.',
                    ),
                  )}
                </fieldset>
                ${this.renderDays()}
                <label class="field"
                  >${say('Numbers and fields')}
                  <select
                    @change=${(event: Event) => {
                      const { value } = event.target as HTMLSelectElement;
                      this.marks = value === 'semicolon' ? 'semicolon' : 'comma';
                    }}
                  >
                    <option value="comma" .selected=${this.written === 'comma'}>
                      ${say('1.5, fields parted by commas')}
                    </option>
                    <option value="semicolon" .selected=${this.written === 'semicolon'}>
                      ${say('1,5; fields parted by semicolons')}
                    </option>
                  </select>
                </label>
                <div class="actions">
                  ${
                    canShareFiles(navigator)
                      ? html`<button
                          type="button"
                          aria-disabled=${isWorking}
                          @click=${this.onShare}
                        >
                          ${say('Share')}
                        </button>`
                      : nothing
                  }
                  <button class="main" aria-disabled=${isWorking}>
                    ${this.kind === 'vet' ? say('Save two files') : say('Save the file')}
                  </button>
                </div>
              </form>`
        }
        <p role="status">${this.said}</p>
        ${
          this.made.length > 1
            ? html`<p class="again">
                <span class="small soft">${say('One of them is missing? Save it by itself:')}</span>
                ${this.made.map(
                  ({ name, text }) =>
                    html`<button
                      class="quiet"
                      @click=${() => downloadText(name, text, downloadType)}
                    >
                      ${name}
                    </button>`,
                )}
              </p>`
            : nothing
        }
      </sd-sheet>
    `;
  }
}

function daysWords(days: number): string {
  return say('{days, plural, one {One sampling day.} other {# sampling days.}}', { days });
}

function namesOf(files: readonly NamedText[]): string {
  return files.map(({ name }) => name).join('; ');
}

customElements.define('sd-export-dialog', SdExportDialog);

declare global {
  interface HTMLElementTagNameMap {
    'sd-export-dialog': SdExportDialog;
  }
}
