import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { Column, Notebook } from '../shared/notebook.ts';
import type { LineKind } from '../src/notebook/line.ts';
import { animalOf, columnsOf, dayOf, markOf, readingOf } from '../src/notebook/read.ts';
import { mainCounts } from './cup-state.ts';
import { choiceHeld, choicesOf, type Choice } from './grid-choices.ts';
import { textToEdit, typingOf } from './grid-edits.ts';
import { inLines, inOneLine } from './one-line.ts';
import { say } from '../src/text/say.ts';

/** A part of the card: what is typed together, at the bench or in the yard. */
export interface CardPart {
  readonly name: string;
  /** About the cup: what could not be counted is said here. */
  readonly isCup: boolean;
  readonly columns: readonly Column[];
}

const scoreButtonsAtMost = 6;

/**
 * The parts of one animal's card: the cup's counts and the animal's signs, the one first that is done
 * in this line. Counts of further egg types show where the day looks for them; the status has buttons
 * of its own, and the part of a grid stands with its count.
 */
export function cardParts(notebook: Notebook, day: string, line: LineKind): readonly CardPart[] {
  const lookedFor = new Set(dayOf(notebook, day)?.lookedFor ?? []);
  const main = new Set(mainCounts(notebook).map((column) => column.id));
  const isTyped = (column: Column): boolean =>
    !isWorkedOut(column) && column.kind !== 'part' && column.key !== 'status';
  const shown = columnsOf(notebook).filter(
    (column) =>
      isTyped(column) &&
      (column.hidden !== true || main.has(column.id) || lookedFor.has(column.id)),
  );
  const isOfCup = (column: Column): boolean => column.about === 'cup';
  const cup = { name: say('Counts'), isCup: true, columns: shown.filter(isOfCup) };
  const signs = { name: say('Signs'), isCup: false, columns: shown.filter((c) => !isOfCup(c)) };
  const parts = line === 'bench' ? [cup, signs] : [signs, cup];
  return parts.filter((part) => part.columns.length > 0);
}

/** What a field tells the card. */
export interface CardHand {
  readonly draft: (column: Column) => string | undefined;
  readonly typing: (column: Column, text: string) => void;
  readonly commit: (column: Column, text: string) => void;
  /** Enter, or the keypad's Next: commit, and on to the next field. */
  readonly next: (column: Column) => void;
  readonly entered: (column: Column) => void;
  /** The lanes counted are chosen; on to the count of them. */
  readonly lanes: (part: Column, text: string, count: Column) => void;
}

/** One field of the card, by its column's kind; its fault, if any, stands right below it. */
export function cardField(
  notebook: Notebook,
  day: string,
  row: string,
  column: Column,
  hand: CardHand,
): TemplateResult {
  const reading = readingOf(notebook, day, row, column.id);
  const body =
    column.kind === 'score' && pointsOf(notebook, column).length <= scoreButtonsAtMost
      ? scoreButtons(notebook, column, reading?.text ?? '', hand)
      : column.kind === 'tick'
        ? tickButton(column, reading?.kind === 'tick' && reading.value, hand)
        : textInput(notebook, day, row, column, hand, reading?.kind === 'fault');
  return fieldFrame(notebook, day, row, column, body);
}

/** What surrounds a field: whose and which it is, and its fault. */
export function fieldFrame(
  notebook: Notebook,
  day: string,
  row: string,
  column: Column,
  body: TemplateResult,
): TemplateResult {
  const reading = readingOf(notebook, day, row, column.id);
  const fault = reading?.kind === 'fault' ? reading.reason : undefined;
  return html`
    <div
      class="part-field ${column.kind}"
      data-animal=${animalOf(notebook, row)?.tag ?? row}
      data-day=${day}
      data-column=${column.key}
    >
      ${body}${fault ? html`<p class="fault" id=${`fault-${column.id}`}>${fault}</p>` : nothing}
    </div>
  `;
}

function isWorkedOut(column: Column): boolean {
  return column.kind === 'formula' || column.kind === 'outcome';
}

function labelOf(column: Column): string {
  return column.label ?? column.key;
}

/** The points of a score as this notebook's person writes them. */
function pointsOf(notebook: Notebook, column: Column): readonly Choice[] {
  return choicesOf(column, markOf(notebook)).filter(({ text }) => text !== '');
}

/** The keypad a column needs; words get the whole keyboard, and so does a count's "too many". */
function keypadOf(column: Column): 'numeric' | 'decimal' | 'text' {
  if (column.kind === 'count') return 'numeric';
  return column.kind === 'number' || column.kind === 'weight' || column.kind === 'score'
    ? 'decimal'
    : 'text';
}

function textInput(
  notebook: Notebook,
  day: string,
  row: string,
  column: Column,
  hand: CardHand,
  isWrong: boolean,
): TemplateResult {
  const text = hand.draft(column) ?? textToEdit(notebook, { day, row, column: column.id });
  return html`
    <label class="field">
      <span>${labelOf(column)}</span>
      <input
        id=${`field-${column.id}`}
        type="text"
        inputmode=${keypadOf(column)}
        enterkeyhint="next"
        autocomplete="off"
        autocapitalize="off"
        spellcheck="false"
        aria-invalid=${isWrong ? 'true' : 'false'}
        aria-describedby=${isWrong ? `fault-${column.id}` : nothing}
        .value=${live(inOneLine(text))}
        @focus=${(event: Event) => {
          (event.target as HTMLInputElement).select();
          hand.entered(column);
        }}
        @input=${(event: Event) => hand.typing(column, textIn(event))}
        @blur=${(event: Event) => {
          // Only gone through, nothing was typed.
          if (hand.draft(column) !== undefined) hand.commit(column, textIn(event));
        }}
        @keydown=${(event: KeyboardEvent) => {
          if (event.key !== 'Enter' || event.isComposing) return;
          event.preventDefault();
          hand.next(column);
        }}
      />
    </label>
  `;
}

function textIn(event: Event): string {
  return inLines((event.target as HTMLInputElement).value);
}

function scoreButtons(
  notebook: Notebook,
  column: Column,
  typed: string,
  hand: CardHand,
): TemplateResult {
  const words = column.words ?? [];
  const points = pointsOf(notebook, column);
  const chosen = choiceHeld(points, column, typed, typingOf(notebook));
  return html`
    <fieldset class="score" id=${`field-${column.id}`}>
      <legend>${labelOf(column)}</legend>
      <div class="points">
        ${points.map(({ text }, i) => {
          const isChosen = i === chosen;
          return html`
            <button
              class="point"
              aria-pressed=${isChosen ? 'true' : 'false'}
              @click=${() => {
                hand.entered(column);
                hand.commit(column, isChosen ? '' : text);
              }}
            >
              ${text} ${words[i] ? html`<small>${words[i]}</small>` : nothing}
            </button>
          `;
        })}
      </div>
    </fieldset>
  `;
}

function tickButton(column: Column, isSeen: boolean, hand: CardHand): TemplateResult {
  return html`
    <button
      class="tick"
      id=${`field-${column.id}`}
      aria-pressed=${isSeen ? 'true' : 'false'}
      @click=${() => {
        hand.entered(column);
        hand.commit(column, isSeen ? '' : 'yes');
      }}
    >
      ${
        isSeen
          ? say('{sign}: seen', { sign: labelOf(column) })
          : say('{sign}: not seen', { sign: labelOf(column) })
      }
    </button>
  `;
}
