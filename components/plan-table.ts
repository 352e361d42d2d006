import { html, type TemplateResult } from 'lit';
import { isFault } from '../shared/value.ts';
import type { PlanAsked } from '../shared/worker-messages.ts';
import { animalsNeeded, meanPrecision } from '../src/stats/mean-precision.ts';
import { figureText } from './figure-text.ts';
import { ANSWERS, areaWords, shareWords, type PlanOfDrug } from './plan-words.ts';
import { answerWords } from './code-words.ts';
import { say, sayParts } from '../src/text/say.ts';

/** One drug's lines: how often each answer would come, the right one first to be seen. */
export function planTable(
  { efficacy, is, rightAnswer, lines }: PlanOfDrug,
  eggsNeeded: number,
  mark: '.' | ',',
): TemplateResult {
  const title = say(
    'A drug that {is, select, works {works} other {fails}}: true reduction {percent} %',
    {
      is,
      percent: figureText(efficacy, undefined, mark),
    },
  );
  return html`
    <div class="scroll" role="region" tabindex="0" aria-label=${title}>
      <table>
        <caption>
          ${sayParts<TemplateResult>('{title}. The right answer is {answer}.', { title, answer: html`<b>${answerWords(rightAnswer)}</b>` })}
        </caption>
        <thead>
          <tr>
            <th scope="col">${say('animals')}</th>
            <th scope="col">${say('areas each')}</th>
            <th scope="col">${say('factor')}</th>
            <th scope="col">${say('eggs before, about')}</th>
            ${ANSWERS.map(
              ({ answer, words }) =>
                html`<th scope="col" class=${answer === rightAnswer ? 'right' : ''}>
                  ${answerWords(answer)}<small
                    >${answer === rightAnswer ? say('right: {words}', { words }) : words}</small
                  >
                </th>`,
            )}
          </tr>
        </thead>
        <tbody>
          ${lines.map(
            (line) => html`
              <tr>
                <th scope="row">${line.animals}</th>
                <td>${line.areas}</td>
                <td>${figureText(line.factor, undefined, mark)}</td>
                <td>
                  ${figureText(line.eggsExpected, 0, mark)}
                  ${line.eggsExpected < eggsNeeded ? html`<small>${say('too few')}</small>` : ''}
                </td>
                ${ANSWERS.map(
                  ({ answer }) =>
                    html`<td class=${answer === rightAnswer ? 'right' : ''}>
                      ${shareWords(line.counts[answer] / line.runs)}
                    </td>`,
                )}
              </tr>
            `,
          )}
        </tbody>
      </table>
    </div>
  `;
}

/** How many animals a mean takes, for each number of areas: closed form, nothing simulated. */
export function meanTable(
  plan: PlanAsked,
  areas: readonly number[],
  precision: number,
  mark: '.' | ',',
): TemplateResult {
  const percent = figureText(100 * precision, undefined, mark);
  return html`
    <div class="scroll" role="region" tabindex="0" aria-label=${say('How many animals for a mean')}>
      <table>
        <thead>
          <tr>
            <th scope="col">${say('areas each')}</th>
            <th scope="col">${say('eggs seen per animal')}</th>
            <th scope="col">${say('animals for {percent} %', { percent })}</th>
            ${plan.animals.map((n) => html`<th scope="col">${say('{n} animals give', { n })}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${plan.factors.map((factor, at) => {
            const eggs = plan.meanEpg / factor;
            const needed = animalsNeeded(eggs, plan.k, precision);
            return html`
              <tr>
                <th scope="row">${areaWords(areas[at] ?? 1)}</th>
                <td>${figureText(eggs, eggs < 10 ? 1 : 0, mark)}</td>
                <td class="right">${isFault(needed) ? '–' : figureText(needed, 0, mark)}</td>
                ${plan.animals.map((n) => {
                  const error = meanPrecision(eggs, plan.k, n);
                  return html`<td>
                    ${isFault(error) ? '–' : `± ${figureText(100 * error, 0, mark)} %`}
                  </td>`;
                })}
              </tr>
            `;
          })}
        </tbody>
      </table>
    </div>
  `;
}
