import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { About, Notebook } from '../shared/notebook.ts';
import { columnsOf } from '../src/notebook/read.ts';
import { kgPerLb } from '../src/text/parse-reading.ts';
import { notClearWords } from '../src/treating/clearance.ts';
import { isAgainstList } from '../src/treating/decision.ts';
import type { ListEntry } from '../src/treating/treatment-list.ts';
import type { BoundEpg } from './bound-epg.ts';
import { figureText } from './figure-text.ts';
import { boundWords } from './code-words.ts';
import { say } from '../src/text/say.ts';

/** What a row of the treatment list is shown with, and what can be done to it. */
export interface RowParts {
  readonly notebook: Notebook;
  readonly about: About;
  readonly bounds: ReadonlyMap<string, BoundEpg>;
  /** Records a decision, or (null) takes it back. */
  readonly decide: (entry: ListEntry, treat: boolean | null, reason?: string) => void;
  readonly goTo: (row: string) => void;
  readonly showHistory: (row: string) => void;
}

/** One animal of the list: tick, tag, weight, why, what to keep in mind, and the person's decision. */
export function treatmentRow(entry: ListEntry, parts: RowParts): TemplateResult {
  const { animal, decision, outcome } = entry;
  const { tag, id } = animal;
  const isLeft = decision?.treat === false;
  const isTicked = decision?.treat === true;
  return html`
    <li class="animal">
      <label class="treat">
        <span class="visually-hidden">${say('Treat {tag}', { tag })}</span>
        <input
          type="checkbox"
          .checked=${live(isTicked)}
          @change=${(event: Event) =>
            parts.decide(entry, (event.target as HTMLInputElement).checked ? true : null)}
        />
      </label>
      <div>
        <div class="line">
          <button class="quiet tag" @click=${() => parts.goTo(id)}>${tag}</button>
          <span class="weight">${weightWords(entry.weightKg, parts.about)}</span>
          ${
            outcome.kind === 'over' || isLeft
              ? html`<button
                  class="quiet act"
                  aria-pressed=${isLeft ? 'true' : 'false'}
                  aria-label=${say('Leave {tag} untreated', { tag })}
                  @click=${() => parts.decide(entry, isLeft ? null : false)}
                >
                  ${say('Leave')}
                </button>`
              : nothing
          }
          <button
            class="quiet act"
            aria-label=${say('History of {tag}', { tag })}
            @click=${() => parts.showHistory(id)}
          >
            ${say('History')}
          </button>
        </div>
        <p class="why">${whyWords(entry, parts)}</p>
        ${notes(entry).map((note) => html`<p class="also">${note}</p>`)}
        ${decision ? decisionLine(entry, parts) : nothing}
      </div>
    </li>
  `;
}

/** Every reason that holds, or what is missing or was not looked at, and the count. */
export function whyWords(entry: ListEntry, { bounds, about }: RowParts): string {
  const { outcome, epg, animal } = entry;
  const bound = bounds.get(animal.id);
  const count = epgWords(epg, bound, about) || (bound ? '' : say('not counted'));
  if (outcome.kind === 'over') return [...outcome.reasons, count].filter(Boolean).join(', ');
  const open =
    outcome.kind === 'below'
      ? outcome.notLooked.length > 0 &&
        say('not looked at: {lacking}', { lacking: outcome.notLooked.join(', ') })
      : outcome.lacking.length > 0
        ? say('missing: {lacking}', { lacking: outcome.lacking.join(', ') })
        : say('not judged');
  return [count, open].filter(Boolean).join('; ');
}

/** An epg, or what a cup with a bound says of it; empty where there is neither. */
export function epgWords(
  epg: number | null,
  bound: BoundEpg | undefined,
  { decimalMark = '.' }: About,
): string {
  if (epg !== null) return say('{epg} epg', { epg: figureText(epg, 0, decimalMark) });
  if (!bound || bound.is === 'too many') return '';
  if (bound.epg === null) return boundWords(bound);
  const shown = figureText(bound.epg, 0, decimalMark);
  return bound.is === 'at least'
    ? say('at least {epg} epg', { epg: shown })
    : say('at most {epg} epg', { epg: shown });
}

/** A weight in the notebook's own unit. */
export function weightWords(kg: number | null, about: About): string {
  if (kg === null) return say('no weight');
  const mark = about.decimalMark ?? '.';
  if (about.weightUnit === 'lb') return `${figureText(kg / kgPerLb, 0, mark)} lb`;
  return `${figureText(kg, undefined, mark)} kg`;
}

function notes({ cautions, notClear }: ListEntry): readonly string[] {
  return [...cautions, ...notClearWords(notClear)];
}

function decisionLine(entry: ListEntry, parts: RowParts): TemplateResult {
  const { animal, decision, outcome } = entry;
  const treat = decision?.treat === true;
  const made = decidedOn(entry, parts.notebook);
  const madeOn =
    made === ''
      ? nothing
      : html`<p class="also">${say('Decided on {values}.', { values: made })}</p>`;
  if (!isAgainstList(outcome, treat)) {
    const own = decision?.reason ?? '';
    const isOwn = own !== '' && own !== outcome.reasons.join('; ') && treat;
    return isOwn
      ? html`<p class="also">${say('Your reason: {reason}', { reason: own })}</p>
          ${madeOn}`
      : html`${madeOn}`;
  }
  const words = treat
    ? outcome.kind === 'below'
      ? say('Treated though below your criteria. Why?')
      : say('Treated though not enough is known. Why?')
    : say('Left though over your criteria. Why?');
  return html`
    <label class="field reason">
      ${words}
      <input
        autocomplete="off"
        aria-label=${`${animal.tag}: ${words}`}
        .value=${decision?.reason ?? ''}
        @change=${(event: Event) =>
          parts.decide(entry, treat, (event.target as HTMLInputElement).value.trim())}
      />
    </label>
    ${madeOn}
  `;
}

/** The values a decision was made on, where what is known now is something else; empty where it is the same. */
function decidedOn({ decision, epg, sentence }: ListEntry, notebook: Notebook): string {
  const values = decision?.values;
  if (!values || ((values['epg'] ?? null) === epg && values['outcome'] === sentence)) return '';
  return valueWords(notebook, values);
}

/** Values of a decision in words, by the labels of their columns: `650 epg, eyelid colour 2, weight 28.3`. */
export function valueWords(notebook: Notebook, values: Readonly<Record<string, unknown>>): string {
  const { epg } = values;
  const parts = [
    typeof epg === 'number' ? say('{epg} epg', { epg: Number(epg.toFixed(0)) }) : say('no count'),
  ];
  for (const { key, label, kind, about } of columnsOf(notebook)) {
    const value = values[key];
    if (about === 'cup' || kind === 'outcome' || key === 'epg') continue;
    if (typeof value === 'boolean')
      parts.push(value ? (label ?? key) : say('no {label}', { label: label ?? key }));
    else if (typeof value === 'number' || (typeof value === 'string' && value !== ''))
      parts.push(`${label ?? key} ${value}`);
  }
  return parts.join(', ');
}
