import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { isFault } from '../shared/value.ts';
import type { OutcomeKind } from '../src/notebook/outcome.ts';
import { columnByKey, columnOf, limitsOf, limitValue, markOf } from '../src/notebook/read.ts';
import { parseNumber, writeNumber } from '../src/text/decimal-text.ts';
import { say } from '../src/text/say.ts';
import { statusLabel } from '../src/text/typed-words.ts';
import { animalWord } from './animal-words.ts';
import { outcomeWords } from './cell-words.ts';
import type { GridModel } from './grid-model.ts';
import type { Filter, GridRow, Sort } from './grid-rows.ts';
import { shownSentence } from './grid-sentences.ts';
import { theme } from './theme.ts';

const outcomes: readonly OutcomeKind[] = ['over', 'not enough known', 'below'];

/**
 * Which animals the counts show, and in which order. Views alone: nothing in the notebook moves.
 * Fires `sd-say` for a sentence to announce.
 */
export class SdShowRows extends LitElement {
  static override properties = {
    model: { attribute: false },
    revision: { type: Number },
    typedEpg: { state: true },
  };

  static override styles = [
    ...theme,
    css`
      :host {
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

      .fault {
        flex-basis: 100%;
        margin: 0;
      }
    `,
  ];

  declare model: GridModel | undefined;
  /** Counts up whenever the model's rows or views have changed. */
  declare revision: number;
  /** What is typed for the epg and cannot be used; null where the filter holds what was typed. */
  declare private typedEpg: string | null;

  constructor() {
    super();
    this.revision = 0;
    this.typedEpg = null;
  }

  /** Forgets a text typed for the epg that could not be used. */
  forgetTyped(): void {
    this.typedEpg = null;
  }

  private filter(part: Partial<Filter>): void {
    const { model } = this;
    if (!model) return;
    model.filterBy({ ...model.filter, ...part });
    this.dispatchEvent(
      new CustomEvent('sd-say', {
        detail: { sentence: shownSentence(model.sheet.rows.length) },
        bubbles: true,
        composed: true,
      }),
    );
  }

  private filterFrom(model: GridModel, text: string): void {
    const epgFrom = text === '' ? null : epgOf(text, model);
    const isUsable = typeof epgFrom !== 'string';
    this.typedEpg = isUsable ? null : text;
    this.filter({ epgFrom: isUsable ? epgFrom : null });
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
    const words = this.model && sortsOf(this.model).find(([one]) => one === value)?.[1];
    const sentence = say('In this order: {order}.', { order: words ?? value });
    this.dispatchEvent(
      new CustomEvent('sd-say', { detail: { sentence }, bubbles: true, composed: true }),
    );
  }

  protected override render(): TemplateResult | typeof nothing {
    const { model } = this;
    if (!model) return nothing;
    const { filter, rows, session, sort } = model;
    const status = columnByKey(session.notebook, 'status');
    return html`
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
      ${this.epgTemplate(model)}
      <label class="field"
        >${say('Sort by')}
        <select @change=${(event: Event) => this.sort((event.target as HTMLSelectElement).value)}>
          ${sortsOf(model).map(
            ([value, words]) =>
              html`<option value=${value} .selected=${live(value === sortValue(model, sort))}>
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
      ${this.faultTemplate(model)}
    `;
  }

  private epgTemplate(model: GridModel): TemplateResult {
    const { notebook } = model.session;
    const mark = markOf(notebook);
    const { epgFrom } = model.filter;
    const limit = limitsOf(notebook).find(({ key }) => key === 'treat_from');
    const treatFrom =
      limit && model.openDay !== null && limitValue(notebook, model.openDay, limit.id);
    const held = epgFrom === null ? '' : writeNumber(epgFrom, mark);
    return html`<label class="field"
      >${say('epg from')}
      <input
        class="epg"
        type="text"
        inputmode="decimal"
        autocomplete="off"
        placeholder=${typeof treatFrom === 'number' ? writeNumber(treatFrom, mark) : say('any')}
        aria-invalid=${this.typedEpg === null ? 'false' : 'true'}
        .value=${this.typedEpg ?? held}
        @change=${(event: Event) =>
          this.filterFrom(model, (event.target as HTMLInputElement).value.trim())}
      />
    </label>`;
  }

  private faultTemplate(model: GridModel): TemplateResult | typeof nothing {
    if (this.typedEpg === null) return nothing;
    const sentence = epgOf(this.typedEpg, model);
    return html`<p class="fault" role="alert">
      ${say('epg from: {sentence} Until then animals of any epg are shown.', { sentence })}
    </p>`;
  }
}

/** The epg typed, or the sentence that says why there is none. */
function epgOf(text: string, model: GridModel): number | string {
  const epg = parseNumber(text, markOf(model.session.notebook));
  if (isFault(epg)) return epg.sentence;
  return epg < 0 ? say('Type a number of 0 or more.') : epg;
}

function wordsOf(rows: readonly GridRow[], of: 'group' | 'class'): readonly string[] {
  return [...new Set(rows.map((row) => row[of]))].filter((word) => word !== '').sort();
}

/** The orders to choose from; one that was chosen by a column's own menu is among them while it holds. */
function sortsOf(model: GridModel): readonly (readonly [value: string, words: string])[] {
  const { sort, session } = model;
  const usual = [
    ['order', say('the notebook’s order')],
    ['bench', say('bench order')],
    ['tag', say('tag')],
    ['group', say('group')],
    ['=epg down', say('epg, highest first')],
    ['=outcome down', say('outcome, over first')],
  ] as const;
  const held = sortValue(model, sort);
  const column =
    typeof sort.by === 'string' ? undefined : columnOf(session.notebook, sort.by.column);
  if (!column || usual.some(([value]) => value === held)) return usual;
  const name = column.label ?? column.key;
  const words = sort.isDescending
    ? say('{name}, highest first', { name })
    : say('{name}, lowest first', { name });
  return [...usual, [held, words]];
}

function sortValue(model: GridModel, { by, isDescending }: Sort): string {
  if (typeof by === 'string') return by;
  return `=${columnOf(model.session.notebook, by.column)?.key}${isDescending ? ' down' : ''}`;
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
  // What holds is offered too where no animal has it any more.
  const offered = value === '' || words.includes(value) ? words : [...words, value];
  return html`<label class="field"
    >${label}
    <select @change=${(event: Event) => choose((event.target as HTMLSelectElement).value)}>
      <option value="">${say('all')}</option>
      ${offered.map(
        (word) =>
          html`<option value=${word} .selected=${live(word === value)}>${shown(word)}</option>`,
      )}
    </select>
  </label>`;
}

customElements.define('sd-show-rows', SdShowRows);

declare global {
  interface HTMLElementTagNameMap {
    'sd-show-rows': SdShowRows;
  }
}
