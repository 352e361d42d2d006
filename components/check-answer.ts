import { html, nothing, type TemplateResult } from 'lit';
import { isFault, type Fault } from '../shared/value.ts';
import type { DecimalMark } from '../src/text/decimal-text.ts';
import { LIMITS_CAUTION } from '../src/treating/cautions.ts';
import { leftOutWords, limitWords, reductionWords } from '../src/treating/check-words.ts';
import type { CheckFigures, ReductionCheck } from '../src/treating/reduction-check.ts';
import { figureText } from './figure-text.ts';
import { greyZone } from './grey-zone.ts';
import { say, sayParts } from '../src/text/say.ts';

/** Where more are left out, their names stand folded. */
const MOST_NAMED = 60;

/** One product's check: verdict, reduction, limits, eggs, days, who is in it and who is not, and the words for the vet. */
export function checkAnswer(
  check: ReductionCheck,
  mark: DecimalMark,
  copy: (sentence: string) => void,
): TemplateResult {
  const { figures, verdict, timing, sufficiency } = check;
  return html`
    <section class="answer" aria-label=${check.productName}>
      <h3>${check.productName}</h3>
      <p class="verdict">${verdict.sentence}</p>
      ${isFault(figures) ? nothing : checkFigure(figures, check, mark)}
      <p class="small">${timing.sentence}</p>
      <p class="small">${sufficiency.sentence}</p>
      ${
        verdict.questions.length > 0
          ? html`<div class="asks small">
              <b>${say('Ask first, before you believe it')}</b>
              <ul>
                ${verdict.questions.map((question) => html`<li>${question}</li>`)}
              </ul>
            </div>`
          : nothing
      }
      ${verdict.caution === '' ? nothing : html`<p class="small">${verdict.caution}</p>`}
      ${check.others.map(({ label, pairs, figures: apart }) => otherEggs(label, pairs, apart, mark))}
      <h4>${say('For the vet')}</h4>
      <blockquote>${check.vetSentence}</blockquote>
      <p>
        <button @click=${() => copy(check.vetSentence)}>
          ${say('Copy the words for the vet')}
        </button>
      </p>
      ${pairsTable(check, mark)} ${leftOut(check)} ${published(figures, mark)}
    </section>
  `;
}

function checkFigure(
  figures: CheckFigures,
  { threshold, expected, pairs }: ReductionCheck,
  mark: DecimalMark,
): TemplateResult {
  const { limits, reduction, eggsBefore, eggsAfter, meanBefore, meanAfter } = figures;
  const epg = (value: number): string => figureText(value, 0, mark);
  return html`
    <p class="figure">${countWords(figures, mark)}</p>
    ${
      isFault(limits)
        ? html`<p class="small">${limits.sentence}</p>`
        : greyZone({ low: limits.low, high: limits.high, reduction, threshold, expected, mark })
    }
    <p class="small">
      ${say('{pairs, plural, one {# pair} other {# pairs}}: mean {before} epg before, {after} after; {eggs, plural, one {# egg} other {# eggs}} seen before, {eggsAfter} after.', { pairs: pairs.length, before: epg(meanBefore), after: epg(meanAfter), eggs: eggsBefore, eggsAfter })}
    </p>
    ${isFault(limits) ? nothing : html`<p class="small soft">${LIMITS_CAUTION}</p>`}
  `;
}

/** The reduction, in bold, with its limits where there are any. */
function countWords(
  { limits, reduction }: CheckFigures,
  mark: DecimalMark,
): readonly (string | TemplateResult)[] {
  const change = html`<b>${reductionWords(reduction, mark)}</b>`;
  if (isFault(limits)) return sayParts<TemplateResult>('The count {change}.', { change });
  return sayParts<TemplateResult>('The count {change}, 90 % limits {limits}.', {
    change,
    limits: limitWords(limits.low, limits.high, mark),
  });
}

function otherEggs(
  label: string,
  pairs: number,
  figures: CheckFigures | Fault,
  mark: DecimalMark,
): TemplateResult {
  if (isFault(figures))
    return html`<p class="small">
      <b>${say('{label}, apart:', { label })}</b> ${figures.sentence}
    </p>`;
  const limits = isFault(figures.limits)
    ? figures.limits.sentence
    : say('90 % limits {limits}.', {
        limits: limitWords(figures.limits.low, figures.limits.high, mark),
      });
  return html`<p class="small">
    <b>${say('{label}, apart:', { label })}</b>
    ${say('{pairs, plural, one {# pair} other {# pairs}}, {eggs, plural, one {# egg} other {# eggs}} before and {eggsAfter} after; {reduction}; {limits}', { pairs, eggs: figures.eggsBefore, eggsAfter: figures.eggsAfter, reduction: reductionWords(figures.reduction, mark), limits })}
  </p>`;
}

function pairsTable({ pairs }: ReductionCheck, mark: DecimalMark): TemplateResult | typeof nothing {
  if (pairs.length === 0) return nothing;
  const epg = (eggs: number, factor: number): string => figureText(eggs * factor, 0, mark);
  return html`<details>
    <summary>${say('The {n, plural, one {# pair} other {# pairs}}', { n: pairs.length })}</summary>
    <div class="scroll" role="region" aria-label=${say('Pairs')} tabindex="0">
      <table>
        <thead>
          <tr>
            <th scope="col">${say('animal')}</th>
            <th scope="col">${say('eggs before')}</th>
            <th scope="col">${say('after')}</th>
            <th scope="col">${say('epg before')}</th>
            <th scope="col">${say('after')}</th>
            <th scope="col">${say('days')}</th>
          </tr>
        </thead>
        <tbody>
          ${pairs.map(
            (pair) =>
              html`<tr>
                <th scope="row">${pair.tag}</th>
                <td>${pair.before}</td>
                <td>${pair.after}</td>
                <td>${epg(pair.before, pair.factorBefore)}</td>
                <td>${epg(pair.after, pair.factorAfter)}</td>
                <td>${pair.days}</td>
              </tr>`,
          )}
        </tbody>
      </table>
    </div>
  </details>`;
}

function leftOut({ leftOut: out }: ReductionCheck): TemplateResult | typeof nothing {
  if (out.length === 0) return nothing;
  const words = html`<p class="small soft">
    ${say('{n} left out: {names}.', { n: out.length, names: leftOutWords(out) })}
  </p>`;
  if (out.length <= MOST_NAMED) return words;
  return html`<details>
    <summary>${say('{n} left out, and why', { n: out.length })}</summary>
    ${words}
  </details>`;
}

/** Two published forms for the report: folded, since three intervals side by side invite choosing one. */
function published(
  figures: CheckFigures | Fault,
  mark: DecimalMark,
): TemplateResult | typeof nothing {
  if (isFault(figures) || !figures.published) return nothing;
  const { gamma, logT } = figures.published;
  const words = (limits: typeof gamma): string =>
    isFault(limits) ? limits.sentence : limitWords(limits.low, limits.high, mark);
  return html`<details>
    <summary>${say('Two published forms, for the report')}</summary>
    <p class="small">
      ${say("Gamma form (Levecke et al. 2018, from memory): {gamma}. Log ratio with Student's t: {logT}. Decide by the limits above: these miss more often where counts are few.", { gamma: words(gamma), logT: words(logT) })}
    </p>
  </details>`;
}
