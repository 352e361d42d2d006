import { LitElement, html, type PropertyValues, type TemplateResult } from 'lit';
import type { Column } from '../shared/notebook.ts';
import { lineOf, putBehind, type LineKind } from '../src/notebook/line.ts';
import { partColumnOf } from '../src/notebook/lanes.ts';
import { columnByKey, columnOf, dayOf, readingOf } from '../src/notebook/read.ts';
import { groupOn } from '../src/notebook/present.ts';
import type { Session } from '../src/session/session.ts';
import { Announcer } from './announcer.ts';
import { undoSentence } from './grid-sentences.ts';
import { cardAnswer, cardStatus } from './card-answer.ts';
import { couldNotBar, onwardBar, orderBar, type CouldNot } from './card-bars.ts';
import { CardDrafts, type CardDraft } from './card-drafts.ts';
import { cardParts, type CardHand, type CardPart } from './card-fields.ts';
import { cardPart } from './card-part.ts';
import { keepPlace, recallPlace } from './card-place.ts';
import { cardStyles } from './card-styles.ts';
import { cellSource } from './cell-source.ts';
import { cupSentence } from './cup-sentence.ts';
import { cupState, mainCounts } from './cup-state.ts';
import { cellText } from './grid-cell-text.ts';
import { textToEdit, typedEdit } from './grid-edits.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-find-animal.ts';
import { say } from '../src/text/say.ts';
import { tooMany } from './cell-words.ts';

/**
 * One animal at a time, for a phone in the yard or a tablet beside the microscope: its counts and
 * signs with large fields, what they come to, and Next. Bench order (cups) and yard order (animals)
 * are apart. Every field is kept as soon as it is left.
 *
 * Fires `sd-card-animal` (detail: row) when another animal is shown, `sd-go-to-block` (detail: kind).
 */
export class SdCard extends LitElement {
  static override properties = {
    row: { type: String },
    line: { state: true },
    remark: { state: true },
    end: { state: true },
  };

  static override styles = [...theme, cardStyles];

  /** The animal shown; the first of the line until one is asked for. */
  declare row: string | null;
  declare private line: LineKind;
  /** Why a button did nothing, and what to do. */
  declare private remark: string;
  /** That there is no further card that way. */
  declare private end: string;
  private readonly drafts = new CardDrafts();
  private focused: string | null = null;
  private readonly announcer = new Announcer(this);
  /** Anything may change the card: it is one animal, drawn in no time. */
  private readonly revision = new Select(this, () => (this.count += 1));
  private count = 0;

  private readonly couldNot: CouldNot = {
    status: (status) => void this.setStatus(status),
    oneChamber: () => void this.oneChamber(),
    tooMany: () => void this.tooMany(),
  };

  private readonly hand: CardHand = {
    draft: (column) =>
      this.drafts.textAt(this.revision.session?.openDay ?? '', this.row ?? '', column.id),
    typing: (column, text) => {
      const { session } = this.revision;
      if (!session?.openDay || this.row === null) return;
      this.drafts.hold({ day: session.openDay, row: this.row, column: column.id, text });
      this.remark = '';
      this.requestUpdate();
      void session.enterRow(this.row);
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
    this.remark = '';
    this.end = '';
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

  /** What was typed for another animal or day is kept there, before anything else is shown. */
  protected override willUpdate(changed: PropertyValues<this>): void {
    const { openDay } = this.revision.session ?? {};
    if (this.drafts.all.some(({ day, row }) => day !== openDay || row !== this.row))
      void this.commitDrafts();
    if (changed.has('row')) this.focused = null;
    if (this.row === null) this.recall();
  }

  protected override updated(changed: PropertyValues): void {
    const { session } = this.revision;
    if (session?.openDay && (changed.has('row') || changed.has('line')))
      keepPlace(session.notebook.id, session.openDay, { line: this.line, row: this.row });
  }

  /** A card that is shown anew goes on where the last one was. */
  private recall(): void {
    const { session } = this.revision;
    const place = session?.openDay ? recallPlace(session.notebook.id, session.openDay) : null;
    if (!place) return;
    this.line = place.line;
    this.row = place.row;
  }

  private get animals(): ReturnType<typeof lineOf> {
    const { session } = this.revision;
    return session?.openDay ? lineOf(session.notebook, session.openDay, this.line) : [];
  }

  /** Keeps a field where it was typed for; one left as it was is no edit. */
  private async commit(column: Column, text: string): Promise<void> {
    const { session } = this.revision;
    const draft = this.drafts.of(column.id);
    if (!session?.openDay || this.row === null) return;
    const { day, row } = draft ?? { day: session.openDay, row: this.row };
    const place = { day, row, column: column.id };
    const kept = draft?.text ?? text;
    const isChange = kept !== textToEdit(session.notebook, place);
    // Refused, what was typed stays in its field, and a choice stands again as it was.
    if (isChange && !session.mayWrite()) return draft ? undefined : this.requestUpdate();
    this.drafts.take(column.id);
    if (isChange) {
      const { edit, reading } = typedEdit(session.notebook, place, column, kept);
      await session.dispatch(edit);
      if (reading?.kind === 'fault') this.announcer.say(reading.reason);
      else if (day === session.openDay) this.announcer.say(() => cupSentence(session, row));
    }
    this.requestUpdate();
  }

  /** What stands in fields and is not kept yet. */
  get typed(): readonly CardDraft[] {
    return this.drafts.all;
  }

  /** Keeps all that is typed and not kept yet, without leaving the cup. */
  async commitDrafts(): Promise<void> {
    const { session } = this.revision;
    for (const draft of this.drafts.all) {
      const column = session && columnOf(session.notebook, draft.column);
      if (column) await this.commit(column, draft.text);
      else this.drafts.take(draft.column);
    }
  }

  private parts(session: Session | undefined): readonly CardPart[] {
    return session?.openDay ? cardParts(session.notebook, session.openDay, this.line) : [];
  }

  /** Enter walks through the fields of a part that have a keypad, and from the last to the next animal. */
  private async nextField(column: Column): Promise<void> {
    if (await this.isRefused(column)) return;
    const part = this.parts(this.revision.session).find(({ columns }) =>
      columns.some(({ id }) => id === column.id),
    );
    const walk = (part?.columns ?? []).filter((c) => c.kind !== 'tick' && c.kind !== 'text');
    const at = walk.findIndex((c) => c.id === column.id);
    const next = at === -1 ? undefined : walk[at + 1];
    const field = next && this.renderRoot.querySelector<HTMLElement>(`#field-${next.id}`);
    if (field) (field.matches('input') ? field : field.querySelector('button'))?.focus();
    else await this.step(1);
  }

  /** Keeps what is typed; true where this field's could not be read: its reason is to be seen before going on. */
  private async isRefused({ id }: Column): Promise<boolean> {
    const draft = this.drafts.of(id);
    await this.commitDrafts();
    const { session } = this.revision;
    if (!draft || !session) return false;
    if (readingOf(session.notebook, draft.day, draft.row, id)?.kind !== 'fault') return false;
    await this.updateComplete;
    this.shadowRoot?.getElementById(`fault-${id}`)?.scrollIntoView({ block: 'nearest' });
    return true;
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
    this.remark = '';
    this.end = '';
    await this.commitDrafts();
    const { animals } = this;
    const at = animals.findIndex((animal) => animal.id === this.row);
    const next = animals[at + by];
    if (next) await this.show(next.id);
    else {
      await this.revision.session?.enterRow(null);
      this.end = by > 0 ? say('That was the last one.') : say('This is the first one.');
      this.announcer.say(this.end);
    }
  }

  private get canUndo(): boolean {
    return this.drafts.all.length > 0 || this.revision.session?.undoLabel != null;
  }

  /** Undoes, says what, and goes to the animal it was about. */
  private async takeBack(session: Session): Promise<void> {
    await this.commitDrafts();
    let row: string | undefined;
    const stop = session.subscribe(({ transaction }) => {
      const path = transaction?.changes[0]?.path;
      if (path?.[0] === 'readings') row = path[2];
    });
    const done = await session.undo();
    stop();
    const sentence = undoSentence('undo', done);
    if (row !== undefined && row !== this.row) await this.show(row, sentence);
    else this.announcer.say(sentence);
  }

  /** Shows an animal, its first field ready to be typed in; says a sentence, or else which animal it is. */
  async show(row: string, sentence?: string): Promise<void> {
    await this.commitDrafts();
    await this.revision.session?.enterRow(null);
    this.row = row;
    this.end = '';
    this.dispatchEvent(
      new CustomEvent('sd-card-animal', { detail: { row }, bubbles: true, composed: true }),
    );
    await this.updateComplete;
    this.focus();
    this.announcer.say(sentence ?? (() => this.heading()));
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
    if (!column || !session.mayWrite()) return;
    // Before it, so that undo takes the status back first.
    await this.commitDrafts();
    await this.commit(column, status);
    if (status !== '') await this.step(1);
    else this.focus();
  }

  /** One chamber alone is counted: on to the next cup, unless there is none or both. */
  private async oneChamber(): Promise<void> {
    await this.commitDrafts();
    const { session } = this.revision;
    if (!session?.openDay || this.row === null) return;
    const { onlySoFar, isBegun } = cupState(session.notebook, session.openDay, this.row);
    if (onlySoFar !== null) await this.step(1);
    else
      this.remark = isBegun
        ? say('More than one chamber holds a count. Empty the one that was not counted.')
        : say('Type the count of that chamber first.');
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
    this.renderRoot.querySelector(`#field-${column.id}`)?.scrollIntoView({ block: 'nearest' });
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
    const group = groupOn(session.notebook, animal.id, dayOf(session.notebook, day)?.date ?? day);
    const place = this.placeWords(at, animals.length);
    const couldNot = couldNotBar(this.remark, this.couldNot);
    return html`
      ${orderBar(this.line, (line) => (this.line = line), this.goToList)}
      <sd-find-animal @sd-animal-found=${this.onFoundEvent}></sd-find-animal>
      <div class="head">
        <button class="step" aria-label=${say('The one before')} @click=${() => this.step(-1)}>
          <span aria-hidden="true">‹</span>
        </button>
        <h2>
          ${animal.tag}
          <small>${[animal.name, group, place].filter(Boolean).join(' · ')}</small>
        </h2>
      </div>
      ${cardAnswer(this, session, day, animal.id)}
      ${cardStatus(session, day, animal.id, () => void this.setStatus(''))}
      ${this.parts(session).map((part) => cardPart(session.notebook, day, animal.id, part, this.hand, couldNot))}
      ${onwardBar(this.end, this.canUndo, () => void this.takeBack(session), this.onNext)}
      <p class="visually-hidden" role="status">${this.announcer.text}</p>
    `;
  }

  /** `cup 2 of 40` at the bench, `2. of 40` in the yard. */
  private placeWords(at: number, n: number): string {
    const where = { at: at + 1, n };
    return this.line === 'bench' ? say('cup {at} of {n}', where) : say('{at}. of {n}', where);
  }

  /** Which animal the card shows, aloud. */
  private heading(): string {
    const { animals } = this;
    const at = animals.findIndex(({ id }) => id === this.row);
    const { tag = '', name } = animals[at] ?? {};
    return [tag, name, this.placeWords(at, animals.length)].filter(Boolean).join(', ');
  }

  private readonly onFoundEvent = (event: CustomEvent<{ row: string }>): void => {
    void this.onFound(event.detail.row);
  };

  /** Next is chamber 2 after chamber 1, and the next animal after the last field. */
  private readonly onNext = (): void => {
    const [first, ...others] = this.parts(this.revision.session);
    const isFocused = ({ id }: Column): boolean => id === this.focused;
    const column = first?.columns.find(isFocused);
    const other = others.flatMap(({ columns }) => columns).find(isFocused);
    if (column) void this.nextField(column);
    else
      void (other ? this.isRefused(other) : Promise.resolve(false)).then((isRefused) =>
        isRefused ? undefined : this.step(1),
      );
  };

  private readonly goToList = (): void => {
    const detail = { kind: 'treatment list' };
    this.dispatchEvent(
      new CustomEvent('sd-go-to-block', { detail, bubbles: true, composed: true }),
    );
  };
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
