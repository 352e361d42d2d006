import { html, nothing, type TemplateResult } from 'lit';
import type { LineKind } from '../src/notebook/line.ts';
import { say } from '../src/text/say.ts';

/** In which order the cards come, and the way to the treatment list. */
export function orderBar(
  line: LineKind,
  choose: (line: LineKind) => void,
  goToList: () => void,
): TemplateResult {
  return html`
    <div class="lines" role="group" aria-label=${say('Order')}>
      ${(['bench', 'yard'] as const).map(
        (one) => html`
          <button aria-pressed=${line === one ? 'true' : 'false'} @click=${() => choose(one)}>
            ${one === 'bench' ? say('At the bench') : say('In the yard')}
          </button>
        `,
      )}
      <button class="quiet" @click=${goToList}>${say('Treatment list')}</button>
    </div>
  `;
}

/** What is said of a cup that could not be counted, or not in full. */
export interface CouldNot {
  readonly status: (status: string) => void;
  readonly oneChamber: () => void;
  readonly tooMany: () => void;
}

/** `remark`: why one of them did nothing, and what to do. */
export function couldNotBar(remark: string, hand: CouldNot): TemplateResult {
  return html`
    <div class="could-not" @mousedown=${keepKeypad}>
      <button @click=${() => hand.status('not sampled')}>${say('Not sampled')}</button>
      <button @click=${hand.oneChamber}>${say('One chamber only')}</button>
      <button @click=${hand.tooMany}>${say('Too many')}</button>
      <button @click=${() => hand.status('could not count')}>${say('Could not count')}</button>
    </div>
    ${remark === '' ? nothing : html`<p class="fault" role="alert">${remark}</p>`}
  `;
}

/** Undo and Next, under the thumb; `end`: that there is no further card that way. */
export function onwardBar(
  end: string,
  canUndo: boolean,
  undo: () => void,
  next: () => void,
): TemplateResult {
  return html`
    <div class="onward">
      ${end === '' ? nothing : html`<p>${end}</p>`}
      <button aria-disabled=${canUndo ? 'false' : 'true'} @mousedown=${keepKeypad} @click=${undo}>
        ${say('Undo')}
      </button>
      <button class="main" @mousedown=${keepKeypad} @click=${next}>${say('Next')}</button>
    </div>
  `;
}

/** A button pressed by finger must not take the focus from the field: the keypad would go and come again. */
function keepKeypad(event: MouseEvent): void {
  event.preventDefault();
}
