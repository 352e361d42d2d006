import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { Reach } from '../src/notebook/edit-days.ts';
import { dayOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { dayWords } from '../src/text/day-words.ts';
import { say } from '../src/text/say.ts';

/** The choices of reach, the one that rewrites nothing past first. */
export const reaches: readonly Reach[] = ['from this day on', 'only this day', 'every day'];

/**
 * Asks which days a changed default reaches; nothing to ask while no day is open. A change never
 * rewrites the past without a word, so "from this day on" stands unless the person says otherwise.
 */
export function reachField(
  session: Session,
  chosen: Reach,
  onChosen: (reach: Reach) => void,
): TemplateResult | typeof nothing {
  const { notebook, openDay } = session;
  const day = openDay === null ? undefined : dayOf(notebook, openDay);
  if (!day) return nothing;
  const words: Readonly<Record<Reach, string>> = {
    'from this day on': say('from {day} on', { day: dayWords(day) }),
    'only this day': say('only {day}', { day: dayWords(day) }),
    'every day': say('every day, past ones too'),
  };
  return html`
    <label class="field">
      ${say('Holds')}
      <select
        @change=${(event: Event) => onChosen((event.target as HTMLSelectElement).value as Reach)}
      >
        ${reaches.map(
          (reach) =>
            html`<option value=${reach} .selected=${live(reach === chosen)}>
              ${words[reach]}
            </option>`,
        )}
      </select>
    </label>
  `;
}
