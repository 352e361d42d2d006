import { html, nothing, type TemplateResult } from 'lit';
import { kindWords, type ColumnDraft } from './column-draft.ts';
import type { FormulaChange } from './sd-formula-field.ts';
import './sd-formula-field.ts';
import { say } from '../src/text/say.ts';

/** The fields of a column, those only that its kind has; each is named as the draft names it. */
export function columnFields(
  draft: ColumnDraft,
  isNew: boolean,
  onFormula: (formula: string) => void,
): TemplateResult {
  const isMeasured = draft.kind === 'number' || draft.kind === 'score';
  return html`
    ${field(say('Name'), 'label', draft.label)}
    ${
      isNew
        ? html`<label class="field"
            >${say('What stands in it')}
            <select name="kind">
              ${Object.entries(kindWords).map(
                ([kind, words]) =>
                  html`<option value=${kind} .selected=${kind === draft.kind}>${words}</option>`,
              )}
            </select>
          </label>`
        : nothing
    }
    ${
      draft.kind === 'formula'
        ? html`<sd-formula-field
            label=${say('Formula, for every animal =')}
            place="column"
            own-key=${draft.key || nothing}
            .value=${draft.formula}
            @sd-formula-change=${(event: CustomEvent<FormulaChange>) => onFormula(event.detail.value)}
          ></sd-formula-field>`
        : nothing
    }
    ${
      draft.kind === 'choice' || draft.kind === 'score'
        ? html`<label class="field"
            >${
              draft.kind === 'choice'
                ? say('Words to choose from, one on each line')
                : say('A word for each point, from the least up, one on each line')
            }
            <textarea name="words" .value=${draft.words}></textarea>
          </label>`
        : nothing
    }
    <div class="row">
      ${field(say('Unit'), 'unit', draft.unit)}
      ${isMeasured ? field(say('At least'), 'low', draft.low) : nothing}
      ${isMeasured ? field(say('At most'), 'high', draft.high) : nothing}
      ${draft.kind === 'score' ? field(say('In steps of'), 'step', draft.step) : nothing}
      ${draft.kind === 'formula' ? field(say('Decimals'), 'decimals', draft.decimals) : nothing}
      ${field(say('Width in pixels'), 'width', draft.width, say('as needed'))}
      ${field(say('Name in formulas'), 'key', draft.key, isNew ? say('from the name') : '')}
    </div>
    ${field(say('What to type here, or what it means'), 'help', draft.help)}
    <label
      ><input
        type="checkbox"
        name="isHidden"
        .checked=${draft.isHidden}
      />${say('Hidden; still counts in formulas')}</label
    >
    ${
      draft.kind === 'formula'
        ? html`<label
            ><input
              type="checkbox"
              name="isShaded"
              .checked=${draft.isShaded}
            />${say('Shaded by its figure, light to dark')}</label
          >`
        : nothing
    }
  `;
}

function field(label: string, name: keyof ColumnDraft, value: string, hint = ''): TemplateResult {
  return html`<label class="field"
    >${label}
    <input
      name=${name}
      autocomplete="off"
      placeholder=${hint || nothing}
      inputmode=${name === 'width' || name === 'decimals' ? 'numeric' : nothing}
      spellcheck=${name === 'key' ? 'false' : nothing}
      autocapitalize=${name === 'key' ? 'off' : nothing}
      .value=${value}
    />
  </label>`;
}
