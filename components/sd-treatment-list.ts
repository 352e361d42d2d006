import { LitElement, html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { aboutOf, dayOf } from '../src/notebook/read.ts';
import { LIST_CAUTIONS } from '../src/treating/cautions.ts';
import { undecide } from '../src/treating/decision.ts';
import type { ListEntry, TreatmentList } from '../src/treating/treatment-list.ts';
import { AfterPaint } from './after-paint.ts';
import { Announcer } from './announcer.ts';
import { dayWords } from '../src/text/day-words.ts';
import { Select } from './selector-controller.ts';
import { showHistory } from './show-history.ts';
import { theme } from './theme.ts';
import { byLack, dayList, deciding, type DayList } from './treatment-list.ts';
import { treatmentListStyles } from './treatment-list-styles.ts';
import { treatmentRow, type RowParts } from './treatment-row.ts';
import './sd-dose-round.ts';
import './sd-tag-line.ts';
import './sd-untreated.ts';
import { BeforePrint } from './before-print.ts';
import { say } from '../src/text/say.ts';

type Part = 'over' | 'notEnoughKnown' | 'below';

/** Rows of one list that are drawn at first. */
const few = 100;

/**
 * What a person's own criteria say of every animal present on the open day: over, with every reason
 * and the most dangerous first; not enough known, with what is missing; below, with what was not looked
 * at. A tick records the person's own decision, also against the list; doses follow for those ticked, then
 * who stays untreated. A press on a tag fires `go-to-animal` `{row}`.
 */
export class SdTreatmentList extends LitElement {
  static override properties = {
    blockId: { type: String },
    opened: { state: true },
    whole: { state: true },
  };

  static override styles = [...theme, treatmentListStyles];

  declare blockId: string;
  /** Lists whose animals are shown one by one. */
  declare private opened: ReadonlySet<Part>;
  /** Lists shown to their end. */
  declare private whole: ReadonlySet<Part>;
  private readonly list = new AfterPaint<DayList | null>(this, dayList);
  private readonly about = new Select(this, (session) => aboutOf(session.notebook));
  private readonly announcer = new Announcer(this);
  private told = '';

  constructor() {
    super();
    this.blockId = '';
    this.opened = new Set();
    this.whole = new Set();
    new BeforePrint(this, () => {
      this.whole = new Set(['over', 'notEnoughKnown', 'below']);
      this.performUpdate();
    });
  }

  protected override willUpdate(): void {
    const list = this.list.value?.list;
    if (!list) return;
    const words = say('{n} over your criteria', { n: list.over.length });
    if (this.told !== '' && words !== this.told) this.announcer.say(words);
    this.told = words;
  }

  private goTo(row: string): void {
    this.dispatchEvent(
      new CustomEvent('go-to-animal', { detail: { row }, bubbles: true, composed: true }),
    );
  }

  private async decide(
    entries: readonly ListEntry[],
    treat: boolean | null,
    reason?: string,
  ): Promise<void> {
    const { session } = this.about;
    const day = this.list.value?.day;
    // Refused, a tick stands again as it was.
    if (!session?.mayWrite()) return this.requestUpdate();
    if (day === undefined || entries.length === 0) return;
    const { notebook } = session;
    const ids = entries.map(({ animal }) => animal.id);
    const edit =
      treat === null
        ? undecide(notebook, day, ids)
        : deciding(notebook, day, entries, treat, reason);
    if (edit) await session.dispatch(edit);
  }

  /** The button goes once all are ticked, so the keyboard is put on the first of them. */
  private async tickAll(undecided: readonly ListEntry[]): Promise<void> {
    this.renderRoot.querySelector<HTMLElement>('.treat input')?.focus();
    await this.decide(undecided, true);
  }

  private open(part: Part): void {
    const opened = new Set(this.opened);
    if (!opened.delete(part)) opened.add(part);
    this.opened = opened;
  }

  private renderRows(
    part: Part,
    entries: readonly ListEntry[],
    label: string,
    parts: RowParts,
  ): TemplateResult | typeof nothing {
    if (entries.length === 0) return nothing;
    const shown = this.whole.has(part) ? entries : entries.slice(0, few);
    return html`
      <ol aria-label=${label}>
        ${shown.map((entry) => treatmentRow(entry, parts))}
      </ol>
      ${
        shown.length < entries.length
          ? html`<button
              class="quiet act below"
              @click=${() => {
                this.whole = new Set([...this.whole, part]);
              }}
            >
              ${say('Show all {n}', { n: entries.length })}
            </button>`
          : nothing
      }
    `;
  }

  /** Animals with a decision one by one, the others in one line for each thing that lacks, until opened. */
  private renderOthers(
    part: 'notEnoughKnown' | 'below',
    entries: readonly ListEntry[],
    parts: RowParts,
  ): TemplateResult | typeof nothing {
    if (entries.length === 0) return nothing;
    const isBelow = part === 'below';
    const label = isBelow ? say('Below your criteria') : say('Not enough known');
    const isOpen = this.opened.has(part);
    const rows = isOpen ? entries : entries.filter(({ decision }) => decision !== undefined);
    const others = isOpen ? [] : entries.filter(({ decision }) => decision === undefined);
    const lacks = byLack(others, (of) => (isBelow ? of.notLooked : of.lacking));
    return html`
      <h3>${label}: ${entries.length}</h3>
      ${this.renderRows(part, rows, label, parts)}
      ${repeat(
        lacks,
        ({ lack }) => lack.join('\n'),
        ({ lack, entries: alike }) => {
          const lacking = lack.join(', ');
          const words = isBelow
            ? say('not looked at: {lacking}.', { lacking })
            : say('missing: {lacking}.', { lacking });
          const none = isBelow ? '' : say('not judged.');
          return html`<p class="group">
            <span class="soft">${lack.length > 0 ? words : none}</span>
            <sd-tag-line .tags=${alike.map(({ animal }) => animal.tag)}></sd-tag-line>
          </p>`;
        },
      )}
      <button
        class="quiet act below"
        aria-expanded=${isOpen ? 'true' : 'false'}
        @click=${() => this.open(part)}
      >
        ${isOpen ? say('Show them in one line') : say('Show these {n} with a tick', { n: entries.length })}
      </button>
    `;
  }

  private renderCounts({ day, list }: DayList): TemplateResult {
    const { notebook } = this.about.session ?? {};
    const shown = notebook && dayOf(notebook, day);
    const { counted, judged, present } = list;
    const counts = [
      say('{n} below', { n: list.below.length }),
      say('{n} not enough known', { n: list.notEnoughKnown.length }),
      say('{counted} counted, {judged} judged, {present} present', { counted, judged, present }),
      ...(list.ticked > 0 ? [say('{n} ticked', { n: list.ticked })] : []),
    ];
    return html`
      <p class="small soft counts">
        ${shown ? `${dayWords(shown)} · ` : ''}<b
          >${say('{n} over your criteria', { n: list.over.length })}</b
        >
        · ${counts.join(' · ')}
      </p>
      ${list.alarm.rings ? html`<p class="pale">${list.alarm.sentence}</p>` : nothing}
    `;
  }

  private renderTickAll({ over }: TreatmentList): TemplateResult | typeof nothing {
    const undecided = over.filter(({ decision }) => decision === undefined);
    if (undecided.length < 2) return nothing;
    return html`<p>
      <button @click=${() => this.tickAll(undecided)}>
        ${say('Tick all {n}', { n: undecided.length })}
      </button>
    </p>`;
  }

  private renderList(of: DayList): TemplateResult {
    const { list, day, bounds } = of;
    const { session } = this.about;
    if (list.present === 0 || !session)
      return html`<p class="soft">${say('No animals are present on this day.')}</p>`;
    const parts: RowParts = {
      notebook: session.notebook,
      about: this.about.value ?? {},
      bounds,
      decide: (entry, treat, reason) => void this.decide([entry], treat, reason),
      goTo: (row) => this.goTo(row),
      showHistory: (row) => showHistory(this, row),
    };
    const ticked = [...list.over, ...list.notEnoughKnown, ...list.below]
      .filter(({ decision }) => decision?.treat === true)
      .map(({ animal }) => animal.id);
    return html`
      ${this.renderCounts(of)}
      ${this.renderRows('over', list.over, say('Over your criteria, danger first'), parts)}
      ${this.renderTickAll(list)} ${this.renderOthers('notEnoughKnown', list.notEnoughKnown, parts)}
      ${this.renderOthers('below', list.below, parts)}
      <div class="cautions">${LIST_CAUTIONS.map((sentence) => html`<p>${sentence}</p>`)}</div>
      <sd-dose-round .animals=${ticked} .day=${day}></sd-dose-round>
      <sd-untreated .list=${list} .day=${day}></sd-untreated>
    `;
  }

  protected override render(): TemplateResult {
    const { value, error } = this.list;
    return html`
      <p class="visually-hidden" role="status">${this.announcer.text}</p>
      ${
        error !== undefined
          ? html`<p class="fault" role="alert">
              ${say('The list could not be worked out. The counts are safe; change any cell to try again.')}
            </p>`
          : nothing
      }
      ${
        value
          ? this.renderList(value)
          : html`<p class="soft">
              ${value === null ? say('No sampling day is open.') : say('Working…')}
            </p>`
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
