import { LitElement, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import type { Column } from '../shared/notebook.ts';
import { lineOf, putBehind, type LineKind } from '../src/notebook/line.ts';
import { partColumnOf } from '../src/notebook/lanes.ts';
import { animalOf, columnByKey, dayOf } from '../src/notebook/read.ts';
import { groupOn } from '../src/notebook/present.ts';
import type { Session } from '../src/session/session.ts';
import { askOrigin } from './ask-origin.ts';
import { Announcer } from './announcer.ts';
import { undoSentence } from './grid-sentences.ts';
import { cardField, cardParts, type CardHand, type CardPart } from './card-fields.ts';
import { laneField } from './card-lanes.ts';
import { cardStyles } from './card-styles.ts';
import { cellSource, openOutcome } from './cell-source.ts';
import { mainCounts, statusOf } from './cup-state.ts';
import { cellText, outcomeText, type CellText } from './grid-cell-text.ts';
import { typedEdit } from './grid-edits.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-find-animal.ts';
import { say } from '../src/text/say.ts';
import { tooMany } from './cell-words.ts';
import { statusLabel } from '../src/text/typed-words.ts';

/**
 * One animal at a time, for a phone in the yard or a tablet beside the microscope: its counts and
 * signs with large fields, what they come to, and Next. Bench order (cups) and yard order (animals)
 * are apart. Every field is kept as soon as it is left.
 *
 * Fires `sd-card-animal` (detail: row) when another animal is shown, `sd-go-to-block` (detail: kind).
 */
export class SdCard extends LitElement {
  static override properties = { row: { type: String }, line: { state: true } };

  static override styles = [...theme, cardStyles];

  /** The animal shown; the first of the line until one is asked for. */
  declare row: string | null;
  declare private line: LineKind;
  private drafts = new Map<string, string>();
  private focused: string | null = null;
  private readonly announcer = new Announcer(this);
  /** Anything may change the card: it is one animal, drawn in no time. */
  private readonly revision = new Select(this, () => (this.count += 1));
  private count = 0;

  private readonly hand: CardHand = {
    draft: (column) => this.drafts.get(column.id),
    typing: (column, text) => {
      this.drafts.set(column.id, text);
      void this.revision.session?.enterRow(this.row);
    },
    commit: (column, text) => void this.commit(column, text),
    next: (column) => void this.nextField(column),
    entered: (column) => (this.focused = column.id),
    lanes: (part, text, count) => void this.chooseLanes(part, text, count),
  };

  constructor() {
    super();
    this.row = null;
    this.line = 'bench';
    this.addEventListener('focusout', (event) => {
      const isInside = event.relatedTarget instanceof Node && this.contains(event.relatedTarget);
      if (!isInside && !this.shadowRoot?.activeElement) void this.leave();
    });
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    void this.leave();
  }

  override focus(): void {
    this.renderRoot.querySelector<HTMLElement>('.part-field input, .part-field button')?.focus();
  }

  private async leave(): Promise<void> {
    await this.commitDrafts();
    await this.revision.session?.enterRow(null);
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('row')) return;
    this.drafts = new Map();
    this.focused = null;
  }

  private get animals(): ReturnType<typeof lineOf> {
    const { session } = this.revision;
    return session?.openDay ? lineOf(session.notebook, session.openDay, this.line) : [];
  }

  private async commit(column: Column, text: string): Promise<void> {
    const { session } = this.revision;
    this.drafts.delete(column.id);
    if (!session?.openDay || this.row === null) return;
    const place = { day: session.openDay, row: this.row, column: column.id };
    const { edit, reading } = typedEdit(session.notebook, place, column, text);
    await session.dispatch(edit);
    if (reading?.kind === 'fault') this.announcer.say(reading.reason);
    this.requestUpdate();
  }

  private async commitDrafts(): Promise<void> {
    for (const column of this.parts(this.revision.session).flatMap((part) => part.columns)) {
      const text = this.drafts.get(column.id);
      if (text !== undefined) await this.commit(column, text);
    }
  }

  private parts(session: Session | undefined): readonly CardPart[] {
    return session?.openDay ? cardParts(session.notebook, session.openDay, this.line) : [];
  }

  /** The typed fields that Enter walks through: those of the first part that have a keypad. */
  private async nextField(column: Column): Promise<void> {
    await this.commitDrafts();
    const [first] = this.parts(this.revision.session);
    const walk = (first?.columns ?? []).filter((c) => c.kind !== 'tick' && c.kind !== 'text');
    const next = walk[walk.findIndex((c) => c.id === column.id) + 1];
    const field = next && this.renderRoot.querySelector<HTMLElement>(`#field-${next.id}`);
    if (field) (field.matches('input') ? field : field.querySelector('button'))?.focus();
    else await this.step(1);
  }

  /** Keeps which lanes were counted, and goes to their count, ready to be typed over. */
  private async chooseLanes(part: Column, text: string, count: Column): Promise<void> {
    await this.commitDrafts();
    await this.commit(part, text);
    const field = this.renderRoot.querySelector<HTMLInputElement>(`#field-${count.id}`);
    field?.focus();
    field?.select();
  }

  /** Shows the animal so many places on in the line; stays at its ends and says so. */
  private async step(by: number): Promise<void> {
    await this.commitDrafts();
    const { animals } = this;
    const at = animals.findIndex((animal) => animal.id === this.row);
    const next = animals[at + by];
    if (next) await this.show(next.id);
    else {
      await this.revision.session?.enterRow(null);
      this.announcer.say(by > 0 ? say('That was the last one.') : say('This is the first one.'));
    }
  }

  /** Undoes, says what, and goes to the animal it was about. */
  private async takeBack(session: Session): Promise<void> {
    let row: string | undefined;
    const stop = session.subscribe(({ transaction }) => {
      const path = transaction?.changes[0]?.path;
      if (path?.[0] === 'readings') row = path[2];
    });
    const done = await session.undo();
    stop();
    if (row !== undefined && row !== this.row) await this.show(row);
    this.announcer.say(undoSentence('undo', done));
  }

  /** Shows an animal, its first field ready to be typed in. */
  async show(row: string): Promise<void> {
    await this.commitDrafts();
    await this.revision.session?.enterRow(null);
    this.row = row;
    this.dispatchEvent(
      new CustomEvent('sd-card-animal', { detail: { row }, bubbles: true, composed: true }),
    );
    await this.updateComplete;
    this.focus();
    // Whose counts are typed must be in sight, also where a keypad leaves little of the screen.
    this.renderRoot.querySelector('.head')?.scrollIntoView({ block: 'nearest' });
    this.shadowRoot?.activeElement?.scrollIntoView({ block: 'nearest' });
  }

  private async onFound(row: string): Promise<void> {
    const { session } = this.revision;
    const before = this.row;
    if (this.line === 'yard' && session?.openDay && before !== null && before !== row)
      await session.dispatch(putBehind(session.notebook, session.openDay, 'yard', row, before));
    await this.show(row);
  }

  private async setStatus(status: string): Promise<void> {
    const { session } = this.revision;
    const column = session && columnByKey(session.notebook, 'status');
    if (!column) return;
    await this.commit(column, status);
    if (status !== '') await this.step(1);
  }

  /** Too many, in the chamber that has the focus or else the first one still empty. */
  private async tooMany(): Promise<void> {
    const { session } = this.revision;
    if (!session?.openDay || this.row === null) return;
    await this.commitDrafts();
    const counts = mainCounts(session.notebook);
    const source = cellSource(session, session.openDay, this.row);
    const column =
      counts.find((count) => count.id === this.focused) ??
      counts.find((count) => cellText(source, count).look === 'soft') ??
      counts[0];
    if (!column) return;
    await this.commit(column, tooMany);
    await this.updateComplete;
    const lanes = partColumnOf(session.notebook, column)?.id;
    this.renderRoot.querySelector(`#field-${lanes} button`)?.scrollIntoView({ block: 'nearest' });
  }

  protected override render(): TemplateResult {
    const { session } = this.revision;
    const { animals } = this;
    if (!session?.openDay)
      return html`<p>${say('Add a sampling day first; then the cards are here.')}</p>`;
    if (this.row === null || !animals.some((animal) => animal.id === this.row))
      this.row = animals[0]?.id ?? null;
    const at = animals.findIndex((animal) => animal.id === this.row);
    const animal = animals[at];
    if (!animal)
      return html`<p>${say('No animal is present on this day. Add one by its tag.')}</p>
        <sd-find-animal @sd-animal-found=${this.onFoundEvent}></sd-find-animal>`;
    const day = session.openDay;
    const date = dayOf(session.notebook, day)?.date ?? day;
    const group = groupOn(session.notebook, animal.id, date);
    const where = { at: at + 1, n: animals.length };
    const place =
      this.line === 'bench' ? say('cup {at} of {n}', where) : say('{at}. of {n}', where);
    return html`
      <div class="lines" role="group" aria-label=${say('Order')}>
        ${(['bench', 'yard'] as const).map(
          (line) => html`
            <button
              aria-pressed=${this.line === line ? 'true' : 'false'}
              @click=${() => {
                this.line = line;
              }}
            >
              ${line === 'bench' ? say('At the bench') : say('In the yard')}
            </button>
          `,
        )}
        <button class="quiet" @click=${this.goToList}>${say('Treatment list')}</button>
      </div>
      <sd-find-animal @sd-animal-found=${this.onFoundEvent}></sd-find-animal>
      <div class="head">
        <button class="step" aria-label=${say('The one before')} @click=${() => this.step(-1)}>
          <span aria-hidden="true">‹</span>
        </button>
        <h2>
          ${animal.tag}
          <small>${[animal.name, group].filter(Boolean).join(' · ')} · ${place}</small>
        </h2>
      </div>
      ${this.renderAnswer(session, day, animal.id)} ${this.renderStatus(session, day, animal.id)}
      ${this.parts(session).map((part) => this.renderPart(session, day, animal.id, part))}
      <div class="onward">
        <button @click=${() => this.takeBack(session)} ?disabled=${session.undoLabel === null}>
          ${say('Undo')}
        </button>
        <button class="main" @mousedown=${keepKeypad} @click=${this.onNext}>${say('Next')}</button>
      </div>
      <p class="visually-hidden" role="status">${this.announcer.text}</p>
    `;
  }

  private readonly onFoundEvent = (event: CustomEvent<{ row: string }>): void => {
    void this.onFound(event.detail.row);
  };

  /** Next is chamber 2 after chamber 1, and the next animal after the last field. */
  private readonly onNext = (): void => {
    const counts = this.parts(this.revision.session)[0]?.columns ?? [];
    const column = counts.find((count) => count.id === this.focused);
    void (column ? this.nextField(column) : this.step(1));
  };

  private readonly goToList = (): void => {
    this.dispatchEvent(
      new CustomEvent('sd-go-to-block', {
        detail: { kind: 'treatment list' },
        bubbles: true,
        composed: true,
      }),
    );
  };

  private renderAnswer(session: Session, day: string, row: string): TemplateResult {
    const source = cellSource(session, day, row);
    const epg = columnByKey(session.notebook, 'epg');
    const figure = epg && cellText(source, epg);
    const outcome = outcomeText(openOutcome(session, row), source.cup.isBegun);
    return html`
      <div class="answer">
        ${
          figure
            ? html`<span
                  data-animal=${animalOf(session.notebook, row)?.tag ?? row}
                  data-day=${day}
                  data-column=${epg.key}
                  ><strong>${figure.text}</strong> ${say('epg')}</span
                >
                ${figure.note ? html`<span>${figure.note}</span>` : nothing}`
            : nothing
        }
        ${outcomeTemplate(outcome)}
        ${
          epg && figure && figure.text !== ''
            ? html`<button
                class="quiet sure"
                @click=${() => askOrigin(this, { kind: 'cell', row, column: epg.id })}
              >
                ${say('How sure, and from what')}
              </button>`
            : nothing
        }
      </div>
    `;
  }

  private renderStatus(
    session: Session,
    day: string,
    row: string,
  ): TemplateResult | typeof nothing {
    const status = statusOf(session.notebook, day, row);
    if (status === '' || status === 'sampled') return nothing;
    return html`
      <p class="status">
        ${say('This cup: {status}. Its counts enter no figure.', { status: statusLabel(status) })}
        <button @click=${() => this.setStatus('')}>${say('Take it back')}</button>
      </p>
    `;
  }

  private renderPart(session: Session, day: string, row: string, part: CardPart): TemplateResult {
    const fields = (columns: readonly Column[]): TemplateResult | typeof nothing =>
      columns.length === 0
        ? nothing
        : html`<div class="fields">
            ${columns.map((column) => cardField(session.notebook, day, row, column, this.hand))}
          </div>`;
    const isCount = (column: Column): boolean => column.kind === 'count';
    return html`
      <h3 class="part-name">${part.name}</h3>
      ${
        part.isCup
          ? html`${fields(part.columns.filter(isCount))} ${this.renderCouldNot()}
            ${part.columns
              .filter(isCount)
              .map((count) => laneField(session.notebook, day, row, count, this.hand))}
            ${fields(part.columns.filter((column) => !isCount(column)))}`
          : fields(part.columns)
      }
    `;
  }

  private renderCouldNot(): TemplateResult {
    return html`
      <div class="could-not" @mousedown=${keepKeypad}>
        <button @click=${() => this.setStatus('not sampled')}>${say('Not sampled')}</button>
        <button @click=${() => this.step(1)}>${say('One chamber only')}</button>
        <button @click=${this.tooMany}>${say('Too many')}</button>
        <button @click=${() => this.setStatus('could not count')}>${say('Could not count')}</button>
      </div>
    `;
  }
}

/** A button pressed by finger must not take the focus from the field: the keypad would go and come again. */
function keepKeypad(event: MouseEvent): void {
  event.preventDefault();
}

/** What the criteria say, in words that can be read in full: a chip only where something is to be done. */
function outcomeTemplate({ look, text, reason }: CellText): TemplateResult | typeof nothing {
  if (text === '') return nothing;
  if (look === 'over')
    return html`<span class="chip over">${say('over your criteria')}</span>
      <p class="small">${text}</p>`;
  const isOpen = look === 'open';
  return html`${isOpen ? html`<span class="chip open">${text}</span>` : nothing}
    <p class="small soft">${reason ?? text}</p>`;
}

customElements.define('sd-card', SdCard);

declare global {
  interface HTMLElementTagNameMap {
    'sd-card': SdCard;
  }
  interface HTMLElementEventMap {
    'sd-card-animal': CustomEvent<{ row: string }>;
    'sd-go-to-block': CustomEvent<{ kind: string }>;
  }
}
