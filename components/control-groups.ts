import { html, nothing, type TemplateResult } from 'lit';
import type { Notebook } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { presentAnimals } from '../src/notebook/present.ts';
import { animalsNamed } from '../src/treating/animals-named.ts';
import { treatmentsBetween, type CheckDays } from '../src/treating/check-pairs.ts';
import { leftOutWords } from '../src/treating/check-words.ts';
import { controlCheck } from '../src/treating/control-check.ts';
import type { CheckCounts } from './check-rows.ts';
import { say } from '../src/text/say.ts';

/** Tags of a treated and an untreated group, as typed. */
export interface ControlTexts {
  readonly treated: string;
  readonly control: string;
}

/** Both groups as the log has them: treated once with the product between the days, and not treated at all. */
export function groupsFromLog(notebook: Notebook, days: CheckDays): ControlTexts {
  const treated: string[] = [];
  const control: string[] = [];
  for (const { id, tag } of presentAnimals(notebook, days.after)) {
    const between = treatmentsBetween(notebook, days, id);
    if (between.length === 0) control.push(tag);
    else if (between.length === 1 && between[0]?.product === days.product) treated.push(tag);
  }
  return { treated: treated.join(', '), control: control.join(', ') };
}

/** The two groups to be typed, and what the second day's counts say by the form of 1992. */
export function controlGroups(
  notebook: Notebook,
  days: CheckDays,
  counts: CheckCounts,
  texts: ControlTexts,
  change: (texts: ControlTexts) => void,
): TemplateResult {
  const named = {
    treated: animalsNamed(notebook, texts.treated),
    control: animalsNamed(notebook, texts.control),
  };
  const field = (of: 'treated' | 'control', label: string): TemplateResult => html`
    <label class="field">
      ${label}
      <textarea
        rows="2"
        .value=${texts[of]}
        @change=${(event: Event) =>
          change({ ...texts, [of]: (event.target as HTMLTextAreaElement).value })}
      ></textarea>
      ${
        named[of].sentence === ''
          ? nothing
          : html`<span class="fault" role="alert">${named[of].sentence}</span>`
      }
    </label>
  `;
  const isBegun = named.treated.animals.length > 0 || named.control.animals.length > 0;
  return html`
    <p class="small soft">
      ${say("Needs only the second day's counts: a treated group against one left untreated, as in 1992 (Coles et al.). Its 95 % limits and classes are another frame than the verdict above.")}
    </p>
    <div class="own">
      ${field('treated', say('Treated animals, tags with commas between'))}
      ${field('control', say('Untreated control animals'))}
      <p>
        <button @click=${() => change(groupsFromLog(notebook, days))}>
          ${say('Take both from the log')}
        </button>
      </p>
    </div>
    ${isBegun ? controlAnswer(notebook, days, counts, named) : nothing}
  `;
}

function controlAnswer(
  notebook: Notebook,
  days: CheckDays,
  counts: CheckCounts,
  named: {
    readonly treated: { readonly animals: readonly string[] };
    readonly control: { readonly animals: readonly string[] };
  },
): TemplateResult {
  const check = controlCheck(notebook, {
    ...days,
    treated: named.treated.animals,
    control: named.control.animals,
    rowsAfter: counts.after,
  });
  if (isFault(check)) return html`<p class="fault small" role="alert">${check.sentence}</p>`;
  return html`
    <p class="control">${check.sentence}</p>
    ${
      check.leftOut.length === 0
        ? nothing
        : html`<p class="small soft">
            ${say('{n} left out: {names}.', { n: check.leftOut.length, names: leftOutWords(check.leftOut) })}
          </p>`
    }
  `;
}
