import { html, nothing, type TemplateResult } from 'lit';
import type { Notebook } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { blocksOf, dayOf, markOf } from '../src/notebook/read.ts';
import { limitWords, reductionWords, leftOutWords } from '../src/treating/check-words.ts';
import type { ReductionCheck } from '../src/treating/reduction-check.ts';
import type { ListEntry } from '../src/treating/treatment-list.ts';
import { dayWords } from '../src/text/day-words.ts';
import type { FigureTable } from './figure-table.ts';
import { figureText } from './figure-text.ts';
import { figureWords } from './figure-words.ts';
import type { ReportData } from './paper-data.ts';
import { heading } from './paper-pages.ts';
import { say } from '../src/text/say.ts';

type Mark = '.' | ',';

/** The report for the vet: figures, whom to treat and why, the dewormer check, method, cautions. */
export function reportPages(notebook: Notebook, dayId: string, data: ReportData): TemplateResult {
  const day = dayOf(notebook, dayId);
  const mark = markOf(notebook);
  const hasPlot = blocksOf(notebook).find(({ kind }) => kind === 'shedding plot');
  const hasTrend = blocksOf(notebook).find(({ kind }) => kind === 'season trend');
  return html`
    ${heading(notebook, say('Worm egg counts, for the vet'), day ? dayWords(day) : dayId)}
    ${day?.countedBy ? html`<p>${say('Counted by {person}.', { person: day.countedBy })}</p>` : nothing}
    ${data.table ? figures(data.table, mark) : nothing} ${data.list ? list(data, mark) : nothing}
    ${data.checks.map((check) => checkPart(check, mark))}
    ${
      hasPlot
        ? html`<section>
            <h2>${say('Who sheds most')}</h2>
            <sd-shedding-plot .blockId=${hasPlot.id}></sd-shedding-plot>
          </section>`
        : nothing
    }
    ${
      hasTrend
        ? html`<section>
            <h2>${say('The season so far')}</h2>
            <sd-season-trend .blockId=${hasTrend.id}></sd-season-trend>
          </section>`
        : nothing
    }
    <section>
      <h2>${say('Method, and what the figures rest on')}</h2>
      <table class="method">
        <tbody>
          ${data.method.map(
            ([what, says]) =>
              html`<tr>
                <th scope="row">${what}</th>
                <td>${says}</td>
              </tr>`,
          )}
          <tr>
            <th scope="row">${say('limits of one count')}</th>
            <td>${say('exact Poisson limits, 95 % (Garwood 1936, Biometrika 28:437–442)')}</td>
          </tr>
          <tr>
            <th scope="row">${say('limits of a reduction')}</th>
            <td>
              ${say('90 %, leverage-adjusted log ratio of arithmetic means; the published gamma and log-t forms (Levecke et al. 2018, from memory) beside them')}
            </td>
          </tr>
        </tbody>
      </table>
    </section>
    <section>
      <h2>${say('Cautions')}</h2>
      <ul>
        ${data.cautions.map((caution) => html`<li>${caution}</li>`)}
      </ul>
    </section>
  `;
}

function figures(table: FigureTable, mark: Mark): TemplateResult {
  return html`
    <section>
      <h2>${say('Figures of the day')}</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">${say('group')}</th>
            <th scope="col">${say('counted of present')}</th>
            ${table.figures.map(
              (figure) =>
                html`<th scope="col">
                  ${figure.label ?? figure.key}${figure.unit ? html`<small>${figure.unit}</small>` : nothing}
                </th>`,
            )}
          </tr>
        </thead>
        <tbody>
          ${table.lines.map(
            (line) => html`
              <tr>
                <th scope="row">${line.group ?? say('all')}</th>
                <td class="number">
                  ${say('{counted} of {present}', { counted: line.counted, present: line.present })}
                </td>
                ${table.figures.map((figure, i) => {
                  const answer = line.answers[i];
                  if (!answer) return html`<td></td>`;
                  const words = figureWords(figure, answer, line.whose[i] ?? [], mark);
                  return html`<td class="number">
                    ${words.text}${words.under ? html`<small>${words.under}</small>` : nothing}
                    ${words.fault ? html`<small>${words.fault}</small>` : nothing}
                  </td>`;
                })}
              </tr>
            `,
          )}
        </tbody>
      </table>
    </section>
  `;
}

function list({ list: day }: ReportData, mark: Mark): TemplateResult {
  if (!day) return html``;
  const { list: entries } = day;
  return html`
    <section>
      <h2>${say('Whom to treat')}</h2>
      <p>${entries.summary}.</p>
      ${rows(say('Over the criteria'), entries.over, mark)}
      ${rows(say('Not enough known'), entries.notEnoughKnown, mark)}
    </section>
  `;
}

function rows(title: string, entries: readonly ListEntry[], mark: Mark): TemplateResult {
  if (entries.length === 0) return html``;
  return html`
    <table>
      <thead>
        <tr>
          <th scope="col">${title}</th>
          <th scope="col">${say('why')}</th>
          <th scope="col">${say('epg')}</th>
          <th scope="col">${say('kg')}</th>
          <th scope="col">${say('ticked for treatment')}</th>
        </tr>
      </thead>
      <tbody>
        ${entries.map(
          (entry) => html`
            <tr>
              <th scope="row">${entry.animal.tag}</th>
              <td>${entry.sentence}</td>
              <td class="number">${entry.epg === null ? '–' : figureText(entry.epg, 0, mark)}</td>
              <td class="number">
                ${entry.weightKg === null ? '–' : figureText(entry.weightKg, 1, mark)}
              </td>
              <td>
                ${entry.decision === undefined ? '' : entry.decision.treat ? say('yes') : say('no')}
                ${entry.decision?.reason ? html`<small>${entry.decision.reason}</small>` : nothing}
              </td>
            </tr>
          `,
        )}
      </tbody>
    </table>
  `;
}

function checkPart(check: ReductionCheck, mark: Mark): TemplateResult {
  const { figures: found } = check;
  const published = isFault(found) ? null : found.published;
  const words = (limits: { readonly low: number; readonly high: number }): string =>
    limitWords(limits.low, limits.high, mark);
  const reduction = (of: number): string => reductionWords(of, mark);
  return html`
    <section>
      <h2>${say('Does the dewormer work? {product}', { product: check.productName })}</h2>
      <p>${check.vetSentence}</p>
      ${
        isFault(found)
          ? html`<p>${found.sentence}</p>`
          : html`<p>
              ${say('Reduction {reduction}; 90 % limits {limits}.', { reduction: reduction(found.reduction), limits: isFault(found.limits) ? found.limits.sentence : words(found.limits) })}
              ${
                published
                  ? html`${say('Published forms for comparison, 90 %: gamma {gamma}, log-t {logT} (Levecke et al. 2018, from memory).', { gamma: isFault(published.gamma) ? published.gamma.sentence : words(published.gamma), logT: isFault(published.logT) ? published.logT.sentence : words(published.logT) })}`
                  : nothing
              }
            </p>`
      }
      <p>${check.verdict.sentence} ${check.verdict.caution}</p>
      ${check.leftOut.length > 0 ? html`<p>${leftOutWords(check.leftOut)}</p>` : nothing}
    </section>
  `;
}
