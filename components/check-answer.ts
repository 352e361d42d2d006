import { html, nothing, type TemplateResult } from 'lit';
import { isFault, type Fault } from '../shared/value.ts';
import type { DecimalMark } from '../src/text/decimal-text.ts';
import { LIMITS_CAUTION } from '../src/treating/cautions.ts';
import { leftOutWords, limitWords, reductionWords } from '../src/treating/check-words.ts';
import type { CheckFigures, ReductionCheck } from '../src/treating/reduction-check.ts';
import { counted } from '../src/treating/short-number.ts';
import { figureText } from './figure-text.ts';
import { greyZone } from './grey-zone.ts';

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
      ${
        // The verdict already says so where there is nothing to work out.
        isFault(figures) ? nothing : checkFigure(figures, check, mark)
      }
      <p class="small">${timing.sentence}</p>
      <p class="small">${sufficiency.sentence}</p>
      ${
        verdict.questions.length > 0
          ? html`<div class="asks small">
              <b>Ask first, before you believe it</b>
              <ul>
                ${verdict.questions.map((question) => html`<li>${question}</li>`)}
              </ul>
            </div>`
          : nothing
      }
      ${verdict.caution === '' ? nothing : html`<p class="small">${verdict.caution}</p>`}
      ${check.others.map(({ label, pairs, figures: apart }) => otherEggs(label, pairs, apart))}
      <h4>For the vet</h4>
      <blockquote>${check.vetSentence}</blockquote>
      <p>
        <button @click=${() => copy(check.vetSentence)}>Copy the words for the vet</button>
      </p>
      ${pairsTable(check, mark)} ${leftOut(check)} ${published(figures)}
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
    <p class="figure">
      The count <b>${reductionWords(reduction)}</b>${
        isFault(limits) ? '.' : `, 90 % limits ${limitWords(limits.low, limits.high)}.`
      }
    </p>
    ${
      isFault(limits)
        ? html`<p class="small">${limits.sentence}</p>`
        : greyZone({ low: limits.low, high: limits.high, reduction, threshold, expected })
    }
    <p class="small">
      ${counted(pairs.length, 'pair')}: mean ${epg(meanBefore)} epg before, ${epg(meanAfter)} after;
      ${counted(eggsBefore, 'egg')} seen before, ${eggsAfter} after.
    </p>
    ${isFault(limits) ? nothing : html`<p class="small soft">${LIMITS_CAUTION}</p>`}
  `;
}

function otherEggs(label: string, pairs: number, figures: CheckFigures | Fault): TemplateResult {
  if (isFault(figures))
    return html`<p class="small"><b>${label}, apart:</b> ${figures.sentence}</p>`;
  const limits = isFault(figures.limits)
    ? figures.limits.sentence
    : `90 % limits ${limitWords(figures.limits.low, figures.limits.high)}.`;
  return html`<p class="small">
    <b>${label}, apart:</b> ${counted(pairs, 'pair')}, ${counted(figures.eggsBefore, 'egg')} before
    and ${figures.eggsAfter} after; ${reductionWords(figures.reduction)}; ${limits}
  </p>`;
}

function pairsTable({ pairs }: ReductionCheck, mark: DecimalMark): TemplateResult | typeof nothing {
  if (pairs.length === 0) return nothing;
  const epg = (eggs: number, factor: number): string => figureText(eggs * factor, 0, mark);
  return html`<details>
    <summary>The ${counted(pairs.length, 'pair')}</summary>
    <div class="scroll" role="region" aria-label="Pairs" tabindex="0">
      <table>
        <thead>
          <tr>
            <th scope="col">animal</th>
            <th scope="col">eggs before</th>
            <th scope="col">after</th>
            <th scope="col">epg before</th>
            <th scope="col">after</th>
            <th scope="col">days</th>
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
  const words = html`<p class="small soft">${out.length} left out: ${leftOutWords(out)}.</p>`;
  if (out.length <= MOST_NAMED) return words;
  return html`<details>
    <summary>${out.length} left out, and why</summary>
    ${words}
  </details>`;
}

/** Two published forms for the report: folded, since three intervals side by side invite choosing one. */
function published(figures: CheckFigures | Fault): TemplateResult | typeof nothing {
  if (isFault(figures) || !figures.published) return nothing;
  const { gamma, logT } = figures.published;
  const words = (limits: typeof gamma): string =>
    isFault(limits) ? limits.sentence : limitWords(limits.low, limits.high);
  return html`<details>
    <summary>Two published forms, for the report</summary>
    <p class="small">
      Gamma form (Levecke et al. 2018, from memory): ${words(gamma)}. Log ratio with Student's t:
      ${words(logT)}. Decide by the limits above: these miss more often where counts are few.
    </p>
  </details>`;
}
