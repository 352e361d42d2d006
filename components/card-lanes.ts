import { html, nothing, type TemplateResult } from 'lit';
import type { Column, Notebook } from '../shared/notebook.ts';
import { laneParts, partAsked } from '../src/notebook/lanes.ts';
import { readingOf } from '../src/notebook/read.ts';
import { say } from '../src/text/say.ts';
import { cardField, fieldFrame, type CardHand } from './card-fields.ts';
import { laneWords } from './lane-words.ts';

/**
 * Which lanes of a count's grid were counted, as buttons: there once the grid held too many eggs, or
 * where a part is typed. Typed like any field where the day's lanes are not known.
 */
export function laneField(
  notebook: Notebook,
  day: string,
  row: string,
  count: Column,
  hand: CardHand,
): TemplateResult | typeof nothing {
  const part = partAsked(notebook, day, row, count);
  if (!part) return nothing;
  const parts = laneParts(notebook, day);
  if (parts.length === 0) return cardField(notebook, day, row, part, hand);
  const typed = readingOf(notebook, day, row, part.id)?.text ?? '';
  const isOther = typed !== '' && !parts.includes(typed);
  return fieldFrame(
    notebook,
    day,
    row,
    part,
    html`
      <fieldset class="score" id=${`field-${part.id}`}>
        <legend>
          ${say('{chamber}: lanes counted', { chamber: count.label ?? count.key })}
          ${isOther ? html`<b>${typed}</b>` : nothing}
        </legend>
        <div class="points">
          ${['', ...parts].map(
            (text) => html`
              <button
                class=${text === '' ? 'point all' : 'point'}
                aria-label=${laneWords(text)}
                aria-pressed=${typed === text ? 'true' : 'false'}
                @click=${() => hand.lanes(part, text, count)}
              >
                ${text === '' ? say('all') : text}
              </button>
            `,
          )}
        </div>
      </fieldset>
    `,
  );
}
