import { html, type TemplateResult } from 'lit';
import type { Animal } from '../shared/notebook.ts';

/** One animal of the list: its tick, its tag and how things are with it. */
export function animalRow(
  animal: Animal,
  state: string,
  isTicked: boolean,
  tick: (isTicked: boolean) => void,
): TemplateResult {
  return html`
    <li data-id=${animal.id}>
      <label>
        <input
          type="checkbox"
          .checked=${isTicked}
          @change=${(event: Event) => tick((event.target as HTMLInputElement).checked)}
        />
        <b>${animal.tag}</b>
        <span class="small soft">${state}</span>
      </label>
    </li>
  `;
}
