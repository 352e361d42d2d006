import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { aboutOf, dayOf } from '../src/notebook/read.ts';
import { cautions, goatCaution, manyPale } from '../src/text/cautions.ts';
import { kgPerLb } from '../src/text/parse-reading.ts';
import { AfterPaint } from './after-paint.ts';
import { Announcer } from './announcer.ts';
import { dayWords } from './day-words.ts';
import { figureText } from './figure-text.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import { byLack, treatmentList, type ListedAnimal, type TreatmentList } from './treatment-list.ts';

/**
 * What a person's own criteria say of every animal present on the open day: over, with every reason
 * and the most dangerous first; not enough known, with what is missing; below, with what was not
 * looked at. A press on a tag fires `go-to-animal` `{row}`.
 */
export class SdTreatmentList extends LitElement {
  static override properties = { blockId: { type: String } };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
      }

      .counts {
        margin: 2px 0 10px;
      }

      .pale {
        margin: 0 0 10px;
        padding: 8px 12px;
        border: 1px solid var(--warm);
        border-radius: var(--radius);
        background: var(--warm-soft);
        color: var(--warm);
        font-weight: 600;
      }

      ol {
        margin: 0 0 12px;
        padding: 0;
        list-style: none;
      }

      li.animal {
        display: grid;
        grid-template-columns: minmax(4.6em, auto) minmax(0, 1fr) auto;
        gap: 2px 12px;
        align-items: baseline;
        padding: 4px 0;
        border-top: 1px solid var(--line);
      }

      .tag {
        justify-content: flex-start;
        min-height: 36px;
        margin-left: -8px;
        padding: 2px 8px;
        font-size: 1.0625rem;
        font-weight: 600;
        overflow-wrap: anywhere;
      }

      .why {
        color: var(--ink);
      }

      .weight {
        color: var(--soft);
        font-size: var(--size-small);
        white-space: nowrap;
      }

      h3 {
        margin: 12px 0 2px;
        font-size: var(--size-small);
      }

      .group {
        margin: 0 0 6px;
        font-size: var(--size-small);
        overflow-wrap: anywhere;
      }

      .cautions {
        margin-top: 12px;
        font-size: var(--size-tiny);
        color: var(--soft);
      }

      .cautions p {
        margin-bottom: 4px;
      }

      @media (pointer: coarse) {
        .tag {
          min-height: 44px;
        }
      }
    `,
  ];

  declare blockId: string;
  private readonly list = new AfterPaint<TreatmentList | null>(this, treatmentList);
  private readonly about = new Select(this, (session) => aboutOf(session.notebook));
  private readonly announcer = new Announcer(this);
  private told = '';

  constructor() {
    super();
    this.blockId = '';
  }

  protected override willUpdate(): void {
    const list = this.list.value;
    if (!list) return;
    const words = `${list.over.length} over your criteria`;
    if (this.told !== '' && words !== this.told) this.announcer.say(words);
    this.told = words;
  }

  private goTo(row: string): void {
    this.dispatchEvent(
      new CustomEvent('go-to-animal', { detail: { row }, bubbles: true, composed: true }),
    );
  }

  private number(value: number, decimals?: number): string {
    return figureText(value, decimals, this.about.value?.decimalMark ?? '.');
  }

  private epgWords({ epg, bound }: ListedAnimal): string {
    if (epg !== null) return `${this.number(epg, 0)} epg`;
    if (bound?.epg != null) return `${bound.is} ${this.number(bound.epg, 0)} epg`;
    return bound === null || bound.is === 'too many' ? '' : bound.is;
  }

  private weightWords({ weightKg }: ListedAnimal): string {
    if (weightKg === null) return 'no weight';
    if (this.about.value?.weightUnit === 'lb') return `${this.number(weightKg / kgPerLb, 0)} lb`;
    return `${this.number(weightKg)} kg`;
  }

  private renderOver(one: ListedAnimal): TemplateResult {
    const { animal, outcome } = one;
    const epg = this.epgWords(one) || (one.bound ? '' : 'not counted');
    const why = [...outcome.reasons, epg].filter(Boolean).join(', ');
    return html`
      <li class="animal">
        <button class="quiet tag" @click=${() => this.goTo(animal.id)}>${animal.tag}</button>
        <span class="why">${why}</span>
        <span class="weight">${this.weightWords(one)}</span>
      </li>
    `;
  }

  private renderGroups(
    animals: readonly ListedAnimal[],
    lackOf: Parameters<typeof byLack>[1],
    words: string,
    none: string,
  ): readonly TemplateResult[] {
    return byLack(animals, lackOf).map(
      ({ lack, animals: alike }) => html`
        <p class="group">
          <span class="soft">${lack.length > 0 ? `${words}: ${lack.join(', ')}.` : none}</span>
          ${alike.map(({ animal }) => animal.tag).join(', ')}
        </p>
      `,
    );
  }

  private renderList(list: TreatmentList): TemplateResult {
    const { over, open, below, present } = list;
    const notebook = this.about.session?.notebook;
    const day = notebook && dayOf(notebook, list.day);
    const hasGoat = over.some(({ animal }) => animal.species === 'goat');
    if (present === 0) return html`<p class="soft">No animals are present on this day.</p>`;
    return html`
      <p class="small soft counts">
        ${day ? `${dayWords(day)} · ` : ''}<b>${over.length} over your criteria</b> ·
        ${below.length} below · ${open.length} not enough known · ${present} present
      </p>
      ${
        list.pale
          ? html`<p class="pale">${manyPale(list.pale.pale, list.pale.scored)}</p>`
          : nothing
      }
      ${
        over.length > 0
          ? html`<ol aria-label="Over your criteria, danger first">
              ${over.map((one) => this.renderOver(one))}
            </ol>`
          : nothing
      }
      ${
        open.length > 0
          ? html`<h3>Not enough known: ${open.length}</h3>
              ${this.renderGroups(open, (outcome) => outcome.lacking, 'missing', 'not judged.')}`
          : nothing
      }
      ${
        below.length > 0
          ? html`<h3>Below your criteria: ${below.length}</h3>
              ${this.renderGroups(below, (outcome) => outcome.notLooked, 'not looked at', '')}`
          : nothing
      }
      <div class="cautions">
        ${cautions.map((sentence) => html`<p>${sentence}</p>`)}
        ${hasGoat ? html`<p>${goatCaution}</p>` : nothing}
      </div>
    `;
  }

  protected override render(): TemplateResult {
    const list = this.list.value;
    return html`
      <p class="visually-hidden" role="status">${this.announcer.text}</p>
      ${
        this.list.error !== undefined
          ? html`<p class="fault" role="alert">
              The list could not be worked out. The counts are safe; change any cell to try again.
            </p>`
          : nothing
      }
      ${
        list
          ? this.renderList(list)
          : html`<p class="soft">${list === null ? 'No sampling day is open.' : 'Working…'}</p>`
      }
    `;
  }
}

customElements.define('sd-treatment-list', SdTreatmentList);

declare global {
  interface HTMLElementTagNameMap {
    'sd-treatment-list': SdTreatmentList;
  }
}
