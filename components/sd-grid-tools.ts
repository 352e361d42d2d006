import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { OutcomeKind } from '../src/notebook/outcome.ts';
import { columnByKey, limitsOf, limitValue } from '../src/notebook/read.ts';
import type { GridModel } from './grid-model.ts';
import { noFilter, plainSort, type Filter, type GridRow, type Sort } from './grid-rows.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';
import { animalWord } from './animal-words.ts';
import { outcomeWords } from './cell-words.ts';
import { statusLabel } from '../src/text/typed-words.ts';

const outcomes: readonly OutcomeKind[] = ['over', 'not enough known', 'below'];

/**
 * Finding, showing and ordering animals, above the counts. Views alone: nothing in the notebook moves.
 * Fires `sd-found` (detail: row) for an animal found, `sd-back` when the search is left, `sd-say`
 * for a sentence to announce, and `sd-column-dialog` to see all columns.
 */
export class SdGridTools extends LitElement {
  static override properties = {
    model: { attribute: false },
    revision: { type: Number },
    isOpen: { state: true },
  };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
        flex: none;
        padding-bottom: 8px;
      }

      .line {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 8px;
      }

      .find {
        flex: 0 1 12em;
        min-width: 120px;
        padding-left: 12px;
      }

      .narrow {
        display: none;
      }

      @media (max-width: 35em) {
        .narrow {
          display: inline;
        }

        .wide {
          display: none;
        }

        .line {
          gap: 6px;
        }

        .find {
          flex: 1 1 100px;
          min-width: 90px;
        }

        .spread {
          display: none;
        }
      }

      .spread {
        flex: 1;
      }

      .more {
        display: flex;
        flex-wrap: wrap;
        align-items: end;
        gap: 8px 12px;
        margin-top: 8px;
        padding: 10px 12px 12px;
        border: 1px solid var(--line);
        border-radius: var(--radius);
        background: var(--sheet);
      }

      .every {
        display: flex;
        align-items: center;
        min-height: var(--control);
      }

      .epg {
        width: 7em;
      }

      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  declare model: GridModel | undefined;
  /** Counts up whenever the model's rows or views have changed. */
  declare revision: number;
  declare private isOpen: boolean;
  private lastFound = -1;

  constructor() {
    super();
    this.revision = 0;
    this.isOpen = false;
  }

  /** Puts the focus into the search. */
  find(): void {
    this.renderRoot.querySelector<HTMLInputElement>('.find')?.select();
    this.renderRoot.querySelector<HTMLInputElement>('.find')?.focus();
  }

  private fire(name: string, detail: object = {}): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }

  private onFindKey(event: KeyboardEvent): void {
    const input = event.target as HTMLInputElement;
    if (event.key === 'Enter') {
      event.preventDefault();
      this.toNext(input.value, event.shiftKey ? -1 : 1);
    } else if (event.key === 'Escape') {
      event.preventDefault();
      input.value = '';
      this.fire('sd-back');
    } else if (event.key === 'ArrowDown') {
      event.preventDefault();
      this.fire('sd-back');
    }
  }

  private onFindInput(event: Event): void {
    this.lastFound = -1;
    this.toNext((event.target as HTMLInputElement).value, 1);
  }

  private toNext(typed: string, by: 1 | -1): void {
    const rows = this.model?.sheet.rows ?? [];
    const wanted = typed.trim().toLowerCase();
    if (wanted === '') return;
    const matches = rows.flatMap((row, at) => (isMatch(row, wanted) ? [at] : []));
    const next =
      by === 1
        ? (matches.find((at) => at > this.lastFound) ?? matches[0])
        : (matches.findLast((at) => at < this.lastFound) ?? matches.at(-1));
    const row = next === undefined ? undefined : rows[next];
    if (next === undefined || !row) {
      this.fire('sd-say', {
        sentence: say('No animal shown has "{text}" in tag or name.', { text: typed.trim() }),
      });
      return;
    }
    this.lastFound = next;
    this.fire('sd-found', { row: row.id });
    const animal = row.name === '' ? row.tag : `${row.tag} ${row.name}`;
    const sentence =
      matches.length === 1
        ? `${animal}.`
        : say('{animal}, {at} of {n}.', {
            animal,
            at: matches.indexOf(next) + 1,
            n: matches.length,
          });
    this.fire('sd-say', { sentence });
  }

  private filter(part: Partial<Filter>): void {
    const { model } = this;
    if (!model) return;
    model.filterBy({ ...model.filter, ...part });
    const { length } = model.sheet.rows;
    this.fire('sd-say', {
      sentence: say('{n, plural, one {# animal} other {# animals}} shown.', { n: length }),
    });
  }

  private sort(value: string): void {
    const [by = 'order', direction] = value.split(' ');
    const column =
      this.model && columnByKey(this.model.session.notebook, by.startsWith('=') ? by.slice(1) : '');
    const sort: Sort['by'] = column
      ? { column: column.id }
      : by === 'bench' || by === 'tag' || by === 'group'
        ? by
        : 'order';
    this.model?.sortBy({ by: sort, isDescending: direction === 'down' });
  }

  protected override render(): TemplateResult | typeof nothing {
    const { model } = this;
    if (!model) return nothing;
    const isChanged = model.isFiltered || model.isSorted;
    return html`<div class="line">
        <input
          class="find"
          type="search"
          aria-label=${say('Find an animal by tag or name')}
          placeholder=${say('Find tag or name')}
          autocomplete="off"
          @keydown=${this.onFindKey}
          @input=${this.onFindInput}
        />
        <button
          aria-expanded=${this.isOpen ? 'true' : 'false'}
          @click=${() => (this.isOpen = !this.isOpen)}
        >
          <span class="wide">${say('Show and sort')}</span
          ><span class="narrow">${say('Show')}</span
          >${model.isFiltered ? ` · ${say('{n} shown', { n: model.sheet.rows.length })}` : ''}
        </button>
        ${
          model.isOrderKept && isChanged
            ? html`<button
                class="quiet"
                title=${say('Rows stay where they are while you type.')}
                @click=${() => model.sortAgain()}
              >
                ${model.isSorted ? say('Sort again') : say('Filter again')}
              </button>`
            : nothing
        }
        ${
          isChanged
            ? html`<button
                class="quiet"
                @click=${() => {
                  model.sortBy(plainSort);
                  model.filterBy(noFilter);
                }}
              >
                ${say('Show all in order')}
              </button>`
            : nothing
        }
        <span class="spread"></span>
        <button class="quiet" @click=${() => this.fire('sd-column-dialog', { column: null })}>
          ${say('Columns')}
        </button>
      </div>
      ${this.isOpen ? this.moreTemplate(model) : nothing}`;
  }

  private moreTemplate(model: GridModel): TemplateResult {
    const { filter, rows, session, sort } = model;
    const status = columnByKey(session.notebook, 'status');
    const limit = limitsOf(session.notebook).find(({ key }) => key === 'treat_from');
    const treatFrom =
      limit && model.openDay !== null && limitValue(session.notebook, model.openDay, limit.id);
    const sorts: readonly (readonly [string, string])[] = [
      ['order', say('the notebook’s order')],
      ['bench', say('bench order')],
      ['tag', say('tag')],
      ['group', say('group')],
      ['=epg down', say('epg, highest first')],
      ['=outcome down', say('outcome, over first')],
    ];
    return html`<div class="more">
      ${select(say('Group'), filter.group, wordsOf(rows, 'group'), asItIs, (group) => this.filter({ group }))}
      ${select(say('Class'), filter.class, wordsOf(rows, 'class'), animalWord, (kind) =>
        this.filter({ class: kind }),
      )}
      ${select(say('Status'), filter.status, status?.words ?? [], statusLabel, (word) =>
        this.filter({ status: word }),
      )}
      ${select(say('Outcome'), filter.outcome, outcomes, outcomeShown, (word) =>
        this.filter({ outcome: outcomes.find((o) => o === word) ?? '' }),
      )}
      <label class="field"
        >${say('epg from')}
        <input
          class="epg"
          type="text"
          inputmode="numeric"
          placeholder=${typeof treatFrom === 'number' ? String(treatFrom) : say('any')}
          .value=${filter.epgFrom === null ? '' : String(filter.epgFrom)}
          @change=${(event: Event) => {
            const typed = (event.target as HTMLInputElement).value.trim();
            this.filter({ epgFrom: /^\d+$/.test(typed) ? Number(typed) : null });
          }}
        />
      </label>
      <label class="field"
        >${say('Sort by')}
        <select @change=${(event: Event) => this.sort((event.target as HTMLSelectElement).value)}>
          ${sorts.map(
            ([value, words]) =>
              html`<option value=${value} ?selected=${value === sortValue(model, sort)}>
                ${words}
              </option>`,
          )}
        </select>
      </label>
      <label class="every"
        ><input
          type="checkbox"
          .checked=${filter.everyAnimal}
          @change=${(event: Event) =>
            this.filter({ everyAnimal: (event.target as HTMLInputElement).checked })}
        />
        ${say('also animals not here that day')}</label
      >
    </div>`;
  }
}

function isMatch(row: GridRow, wanted: string): boolean {
  return row.tag.toLowerCase().includes(wanted) || row.name.toLowerCase().includes(wanted);
}

function wordsOf(rows: readonly GridRow[], of: 'group' | 'class'): readonly string[] {
  return [...new Set(rows.map((row) => row[of]))].filter((word) => word !== '').sort();
}

function sortValue(model: GridModel, { by, isDescending }: Sort): string {
  if (typeof by === 'string') return by;
  const key = model.session.notebook.columns[by.column]?.key?.[0]?.[0];
  return `=${key}${isDescending ? ' down' : ''}`;
}

function asItIs(word: string): string {
  return word;
}

function outcomeShown(word: string): string {
  const outcome = outcomes.find((one) => one === word);
  return outcome ? outcomeWords[outcome] : word;
}

function select(
  label: string,
  value: string,
  words: readonly string[],
  shown: (word: string) => string,
  choose: (word: string) => void,
): TemplateResult {
  return html`<label class="field"
    >${label}
    <select @change=${(event: Event) => choose((event.target as HTMLSelectElement).value)}>
      <option value="">${say('all')}</option>
      ${words.map(
        (word) => html`<option value=${word} ?selected=${word === value}>${shown(word)}</option>`,
      )}
    </select>
  </label>`;
}

customElements.define('sd-grid-tools', SdGridTools);

declare global {
  interface HTMLElementTagNameMap {
    'sd-grid-tools': SdGridTools;
  }
}
