import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { isFault } from '../shared/value.ts';
import { planToEdit } from '../src/csv/import-edit.ts';
import { isReady, type ImportPlan } from '../src/csv/import-plan.ts';
import type { Role } from '../src/csv/role.ts';
import { columnsOf } from '../src/notebook/read.ts';
import { encodingName, separatorName, separators } from './import-words.ts';
import { ImportWork, type ListSource } from './import-work.ts';
import { tell } from './page-message.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';
import './sd-import-columns.ts';
import './sd-import-day.ts';
import './sd-import-findings.ts';
import './sd-import-questions.ts';
import './sd-import-source.ts';
import './sd-sheet.ts';
import type { SdSheet } from './sd-sheet.ts';
import { say } from '../src/text/say.ts';

/**
 * A list from a file or the clipboard into the notebook: what it was read as, what its columns are taken
 * for, what only the person knows, and what it would do. Done, it is one edit and one undo.
 */
export class SdImportDialog extends LitElement {
  static override properties = { fault: { state: true } };

  static override styles = [
    ...theme,
    css`
      section {
        display: grid;
        gap: 14px;
      }

      .file {
        display: flex;
        flex-wrap: wrap;
        align-items: end;
        gap: 10px 14px;
      }

      .file > div {
        flex: 1 1 14em;
        min-width: 0;
      }

      .file b {
        overflow-wrap: anywhere;
      }

      h3 {
        margin-bottom: 8px;
      }

      progress {
        width: 100%;
        accent-color: var(--accent);
      }

      .actions {
        position: sticky;
        bottom: 0;
        margin: 0;
        padding: 12px 0;
        border-top: 1px solid var(--line);
        background: var(--sheet);
      }

      .actions .fault {
        flex: 1 1 100%;
        margin: 0;
      }

      summary {
        min-height: var(--control);
        padding: 6px 0;
        font-weight: 650;
        cursor: pointer;
      }
    `,
  ];

  declare private fault: string;
  private readonly session = new Select(this, (session) => session);
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });
  private readonly work = new ImportWork(
    this,
    () => this.session.value?.notebook,
    () => this.newId(),
  );

  constructor() {
    super();
    this.fault = '';
  }

  private newId(): string {
    const services = this.services.value;
    if (!services) throw new Error('<sd-import-dialog> stands below no services.');
    return services.newId();
  }

  async open(): Promise<void> {
    await this.updateComplete;
    await this.sheet?.open();
  }

  /** Looks at a file that was dropped elsewhere on the page. */
  async take(source: ListSource | null): Promise<void> {
    this.fault = '';
    await this.work.take(source);
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('#found')?.focus();
  }

  private get sheet(): SdSheet | null {
    return this.renderRoot.querySelector<SdSheet>('sd-sheet');
  }

  private async onImport(): Promise<void> {
    const { plan, source } = this.work;
    const session = this.session.value;
    if (!plan || !source || !session?.mayWrite()) return;
    const edit = planToEdit(session.notebook, plan, source.name);
    if (isFault(edit)) {
      this.fault = edit.sentence;
      return;
    }
    const day = plan.days.at(-1)?.id;
    await session.dispatch(edit);
    this.sheet?.close();
    await this.work.take(null);
    if (day !== undefined && session.openDay !== day) await session.open(day);
    tell(this, importedWords(plan, source.name), 'with undo');
  }

  private renderFile(): TemplateResult {
    const { source, table } = this.work;
    const lines = [...(table?.preamble ?? []), ...(table?.header ? [table.header] : [])]
      .concat((table?.rows ?? []).slice(0, 5))
      .map(({ line }) => line);
    return html`
      <div class="file">
        <div>
          <b id="found" tabindex="-1">${source?.name}</b>
          <div class="small soft">
            ${
              table
                ? say('{rows, plural, one {# row} other {# rows}}, read as {encoding}', {
                    rows: table.rows.length,
                    encoding: encodingName(table.encoding),
                  })
                : say('Reading…')
            }
          </div>
        </div>
        ${
          table
            ? html`<label class="field"
                  >${say('Between fields')}
                  <select @change=${this.onSeparator}>
                    ${separators.map(
                      ([mark, name]) =>
                        html`<option value=${mark} .selected=${mark === table.separator}>
                          ${name}
                        </option>`,
                    )}
                    ${
                      separators.some(([mark]) => mark === table.separator)
                        ? nothing
                        : html`<option value=${table.separator} selected>
                            ${separatorName(table.separator)}
                          </option>`
                    }
                  </select>
                </label>
                <label class="field"
                  >${say('Headings')}
                  <select @change=${this.onHeader}>
                    <option value="none" .selected=${table.header === null}>${say('none')}</option>
                    ${[...new Set(lines)]
                      .sort((a, b) => a - b)
                      .map(
                        (line) =>
                          html`<option
                            value=${String(line)}
                            .selected=${line === table.header?.line}
                          >
                            ${say('on line {line}', { line })}
                          </option>`,
                      )}
                  </select>
                </label>`
            : nothing
        }
        <button class="quiet" @click=${() => this.take(null)}>${say('Another list')}</button>
      </div>
    `;
  }

  private onSeparator(event: Event): void {
    void this.work.readAs({ separator: (event.target as HTMLSelectElement).value });
  }

  private onHeader(event: Event): void {
    const { value } = event.target as HTMLSelectElement;
    void this.work.readAs({ headerLine: value === 'none' ? 'none' : Number(value) });
  }

  private renderColumns(): TemplateResult {
    const { plan, table } = this.work;
    const session = this.session.value;
    const columns = plan?.columns ?? [];
    const isFolded = columns.every(({ sure, leftOut }) => sure && leftOut === null);
    return html`
      <details ?open=${!isFolded}>
        <summary>
          ${say('{columns, plural, one {# column} other {# columns}}', { columns: columns.length })}
        </summary>
        <sd-import-columns
          .table=${table}
          .columns=${columns}
          .known=${session ? columnsOf(session.notebook) : []}
          @role-chosen=${(event: CustomEvent<{ column: number; role: Role }>) =>
            this.work.choose(event.detail.column, event.detail.role)}
        ></sd-import-columns>
      </details>
    `;
  }

  private renderWork(): TemplateResult {
    const { progress, plan, asked, answers, asksDay, day } = this.work;
    return html`
      <section
        @answered=${(event: CustomEvent<{ id: string; value: string }>) => {
          this.fault = '';
          void this.work.answer(event.detail.id, event.detail.value);
        }}
      >
        ${this.renderFile()}
        ${
          progress
            ? html`<div role="status">
                <label class="small soft" for="progress">
                  ${
                    progress.of > 0
                      ? say('Looking at the list: {done} of {of}', { ...progress })
                      : say('Looking at the list…')
                  }
                </label>
                <progress
                  id="progress"
                  max=${progress.of || nothing}
                  value=${progress.of > 0 ? progress.done : nothing}
                ></progress>
              </div>`
            : nothing
        }
        ${
          plan
            ? html`
                ${
                  asksDay
                    ? html`<sd-import-day
                        .day=${day}
                        @day-chosen=${(event: CustomEvent<{ day: string | null }>) =>
                          this.work.onDay(event.detail.day)}
                      ></sd-import-day>`
                    : nothing
                }
                <sd-import-questions .questions=${asked} .answers=${answers}></sd-import-questions>
                ${this.renderColumns()}
                <sd-import-findings .plan=${plan}></sd-import-findings>
                <div class="actions">
                  <p class="fault" role="alert" ?hidden=${this.fault === ''}>${this.fault}</p>
                  <button class="quiet" @click=${() => this.sheet?.close()}>
                    ${say('Not now')}
                  </button>
                  <button class="main" @click=${this.onImport}>${importWords(plan)}</button>
                </div>
              `
            : nothing
        }
      </section>
    `;
  }

  protected override render(): TemplateResult {
    return html`
      <sd-sheet heading=${say('Import a list')} isWide>
        ${
          this.work.source
            ? this.renderWork()
            : html`<sd-import-source
                @list-given=${(event: CustomEvent<ListSource>) => this.take(event.detail)}
              ></sd-import-source>`
        }
      </sd-sheet>
    `;
  }
}

function importWords(plan: ImportPlan): string {
  if (!isReady(plan)) return say('Import');
  const animals = plan.animals.length;
  return plan.count === 0
    ? say('Import {animals, plural, one {# animal} other {# animals}}', { animals })
    : say(
        'Import {values, plural, one {# value} other {# values}} of {animals, plural, one {# animal} other {# animals}}',
        { values: plan.count, animals },
      );
}

function importedWords(plan: ImportPlan, name: string): string {
  const done = say(
    'Imported {name}: {values, plural, one {# value} other {# values}} of {animals, plural, one {# animal} other {# animals}}.',
    { name, values: plan.count, animals: plan.animals.length },
  );
  const out = plan.problems.filter(({ what }) => what === 'left out').length;
  return out === 0
    ? done
    : `${done} ${say('{out, plural, one {# left out.} other {# left out.}}', { out })}`;
}

customElements.define('sd-import-dialog', SdImportDialog);

declare global {
  interface HTMLElementTagNameMap {
    'sd-import-dialog': SdImportDialog;
  }
}
