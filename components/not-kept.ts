import { html, nothing, type TemplateResult } from 'lit';
import { say } from '../src/text/say.ts';

/** That what stands in a form does not hold yet, with the way back to what does; nothing where all of it holds. */
export function notKept(isChanged: boolean, forget: () => void): TemplateResult | typeof nothing {
  if (!isChanged) return nothing;
  return html`<span class="soft">${say('Not kept yet.')}</span>
    <button type="button" @click=${forget}>${say('Forget the changes')}</button>`;
}
