import { html, nothing, type TemplateResult } from 'lit';
import { say } from '../src/text/say.ts';

/** Lets the changes go, and takes the focus to the button beside: the one that had it is gone then. */
function forgetFrom(event: Event, forget: () => void): void {
  const at = event.currentTarget;
  const all = at instanceof Element ? (at.parentElement?.querySelectorAll('button') ?? []) : [];
  [...all].find((one) => one !== at)?.focus();
  forget();
}

/** That what stands in a form does not hold yet, with the way back to what does; nothing where all of it holds. */
export function notKept(isChanged: boolean, forget: () => void): TemplateResult | typeof nothing {
  if (!isChanged) return nothing;
  return html`<span class="soft">${say('Not kept yet.')}</span>
    <button type="button" @click=${(event: Event) => forgetFrom(event, forget)}>
      ${say('Forget the changes')}
    </button>`;
}
