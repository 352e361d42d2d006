import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { laneParts, partAsked } from '../src/notebook/lanes.ts';
import { columnOf, readingOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { say } from '../src/text/say.ts';
import { typedEdit } from './grid-edits.ts';
import type { Place } from './grid-place.ts';
import { laneWords } from './lane-words.ts';

/**
 * Which lanes of a grid with too many eggs were counted, for the count at a place; the count of them
 * is typed next. Nothing where the whole grid is the usual thing, or the day's lanes are not known.
 *
 * @param onChosen gives the focus back: at once after a press, by Enter, Escape or Tab after the keys,
 *   of which each arrow chooses the next of the list.
 */
export function laneSelect(
  session: Session,
  { day, row, column }: Place,
  onChosen: () => void,
): TemplateResult | typeof nothing {
  const { notebook } = session;
  const count = columnOf(notebook, column);
  const part =
    count?.kind === 'count' && count.otherEggs !== true
      ? partAsked(notebook, day, row, count)
      : undefined;
  const parts = laneParts(notebook, day);
  if (!part || parts.length === 0) return nothing;
  const typed = readingOf(notebook, day, row, part.id)?.text ?? '';
  const own = typed === '' || parts.includes(typed) ? [] : [typed];
  const choose = (event: Event): void => {
    const list = event.target as HTMLSelectElement;
    const text = list.value;
    const { edit } = typedEdit(session.notebook, { day, row, column: part.id }, part, text);
    void session.dispatch(edit);
    if (list.dataset['by'] !== 'keys') onChosen();
  };
  const onKeydown = (event: KeyboardEvent): void => {
    (event.currentTarget as HTMLSelectElement).dataset['by'] = 'keys';
    const isEnd = event.key === 'Enter' || event.key === 'Escape' || event.key === 'Tab';
    if (!isEnd || event.shiftKey) return;
    event.preventDefault();
    onChosen();
  };
  const onPress = (event: Event): void => {
    (event.currentTarget as HTMLSelectElement).dataset['by'] = 'press';
  };
  return html`<label class="lanes">
    ${say('Lanes counted')}
    <select @change=${choose} @keydown=${onKeydown} @pointerdown=${onPress}>
      ${['', ...parts].map(
        (text) =>
          html`<option value=${text} .selected=${live(text === typed)}>${laneWords(text)}</option>`,
      )}
      ${own.map((text) => html`<option value=${text} .selected=${live(true)}>${text}</option>`)}
    </select>
  </label>`;
}
