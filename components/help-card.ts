import { css, html, nothing, type CSSResult, type TemplateResult } from 'lit';
import { formText, functionForm, type FunctionForm } from '../src/engine/function-form.ts';
import { helpCard } from '../src/engine/help-cards/all-help-cards.ts';
import type { CardSource, FullHelpCard, SourceStatus } from '../src/engine/help-cards/help-card.ts';
import { say } from '../src/text/say.ts';

/** How a function's card looks; an element that shows cards takes this in. */
export const helpCardStyles: CSSResult = css`
  .card {
    display: grid;
    gap: 6px;
  }

  .card p {
    margin: 0;
  }

  .card .form {
    font-weight: 600;
    overflow-wrap: anywhere;
  }

  .card dl {
    display: grid;
    grid-template-columns: minmax(5.5em, max-content) 1fr;
    gap: 3px 14px;
    margin: 0;
    font-size: var(--size-small);
  }

  .card dt {
    color: var(--soft);
  }

  .card dd {
    margin: 0;
    overflow-wrap: anywhere;
  }

  .card dd > span {
    display: block;
  }
`;

const statusWords: Readonly<Record<SourceStatus, string>> = {
  read: say('read in the source'),
  'second-hand': say('second-hand, from a text that quotes it'),
  'from memory': say('from memory, not read again'),
  computed: say('computed'),
  'own work': say('own work'),
};

/** The card of a function by its name: what it gives, how it is written, and on whose word. */
export function functionCard(name: string): TemplateResult | typeof nothing {
  const form = functionForm(name);
  if (!form) return nothing;
  const card = helpCard(form.name);
  return html`<div class="card">
    <p class="form code">${formText(form)}</p>
    <p>${form.help}</p>
    ${card ? tradeFacts(form, card) : nothing}
  </div>`;
}

function tradeFacts(form: FunctionForm, card: FullHelpCard): TemplateResult {
  const { formula, answer } = card.example;
  const gives = typeof answer === 'number' ? exampleText(answer) : `"${answer}"`;
  return html`<dl>
    ${row(
      say('takes'),
      html`${form.args.map(
        ({ name, unit, isOptional }) =>
          html`<span
            ><code>${name}</code>
            ${isOptional ? say('{unit}, may be left out', { unit }) : unit}</span
          >`,
      )}${form.rest.length > 0 ? html`<span>${say('and so on')}</span>` : nothing}`,
    )}
    ${row(say('missing'), card.missing)} ${row(say('worked out'), card.inWords)}
    ${row(say('example'), html`<code>${formula}</code> ${say('gives {answer}', { answer: gives })}`)}
    ${card.caution === undefined ? nothing : row(say('mind'), card.caution)}
    ${row(say('source'), html`${card.sources.map(sourceLine)}`)}
  </dl>`;
}

function row(name: string, words: TemplateResult | string): TemplateResult {
  return html`<dt>${name}</dt>
    <dd>${words}</dd>`;
}

function sourceLine({ text, status }: CardSource): TemplateResult {
  const words = statusWords[status];
  return html`<span>${text.replace(/\.$/, '')} <i class="soft">(${words})</i></span>`;
}

/** As a formula's own language writes it, with a point; long ones to four decimals. */
function exampleText(answer: number): string {
  return String(Number(answer.toFixed(4)));
}
