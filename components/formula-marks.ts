import { html, nothing, type TemplateResult } from 'lit';
import type { Fault } from '../shared/value.ts';
import { callAt } from '../src/engine/formula-completion.ts';
import { placeIn } from '../src/engine/formula-problem.ts';
import { argumentAt, functionForm, type ArgumentForm } from '../src/engine/function-form.ts';
import { say } from '../src/text/say.ts';

/** The part of a formula that a fault speaks of: from, to (not included). */
export interface FaultPlace {
  readonly from: number;
  readonly to: number;
}

/**
 * Where in the formula a fault lies: at the character its sentence names, else at the word it quotes.
 * Null when the sentence tells neither.
 */
export function faultPlace(formula: string, { sentence }: Fault): FaultPlace | null {
  const quoted = /“([^”]+)”/.exec(sentence)?.[1] ?? '';
  const said = placeIn(sentence, formula.length);
  const from = said ?? formula.toLowerCase().indexOf(quoted.toLowerCase());
  if (from < 0 || (said === null && quoted === '')) return null;
  const isQuoted = formula.slice(from, from + quoted.length).toLowerCase() === quoted.toLowerCase();
  return { from, to: from + Math.max(1, isQuoted ? quoted.length : 1) };
}

/** The formula with the place of a fault marked; nothing where the place is not known. */
export function markedFormula(formula: string, fault: Fault): TemplateResult | typeof nothing {
  const place = faultPlace(formula, fault);
  if (!place) return nothing;
  const wrong = formula.slice(place.from, place.to) || ' ';
  return html`<code class="marked" aria-hidden="true"
    >${formula.slice(0, place.from)}<mark>${wrong}</mark>${formula.slice(place.to)}</code
  >`;
}

/** How the function around the caret is written, the argument being typed in bold, with its unit. */
export function argumentHint(formula: string, caret: number): TemplateResult | null {
  const call = callAt(formula, caret);
  const form = call && functionForm(call.name);
  if (!call || !form) return null;
  const current = argumentAt(form, call.argument);
  const shown = form.args.includes(current as ArgumentForm)
    ? form.args
    : [...form.args, ...form.rest];
  const parts = shown.map(
    (arg, i) =>
      html`${i > 0 ? ', ' : ''}${arg === current ? html`<b>${nameOf(arg)}</b>` : html`<span>${nameOf(arg)}</span>`}`,
  );
  return html`<code>${form.name}(${parts}${form.rest.length > 0 ? ', …' : ''})</code> ${
      current
        ? html`<span class="unit">${current.name}${current.unit ? `: ${current.unit}` : ''}</span>`
        : call.argument > 0
          ? html`<span class="unit">${say('takes no more than this')}</span>`
          : nothing
    }`;
}

function nameOf({ name, isOptional }: ArgumentForm): string {
  return isOptional ? `[${name}]` : name;
}
