import { html, nothing, type TemplateResult } from 'lit';
import { ifDefined } from 'lit/directives/if-defined.js';

/** What a field for a group shows beside its label. */
export interface GroupField {
  readonly label: string;
  /** That the group typed reads like another one; '' where it does not. */
  readonly likeness: string;
  /** What stands there where nothing has to be pointed out. */
  readonly hint?: string;
  /** The id of the list of groups to choose from. */
  readonly list?: string;
  readonly onInput: () => void;
}

/** The field `group` of a form, which points out a group that is spelled almost like a known one. */
export function groupField(field: GroupField): TemplateResult {
  const words = field.likeness || field.hint;
  return html`
    <label class="field">
      ${field.label}
      <input
        name="group"
        autocomplete="off"
        autocapitalize="off"
        list=${ifDefined(field.list)}
        @input=${field.onInput}
      />
      <span class="hint" role="status">${words ?? nothing}</span>
    </label>
  `;
}

/** The groups to choose from. */
export function groupNames(id: string, names: Iterable<string | undefined>): TemplateResult {
  const known = [...new Set(names)].filter((name) => name !== undefined);
  return html`<datalist id=${id}>
    ${known.map((name) => html`<option value=${name}></option>`)}
  </datalist>`;
}
