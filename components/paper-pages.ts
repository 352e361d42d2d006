import { html, nothing, type TemplateResult } from 'lit';
import type { Animal, Notebook } from '../shared/notebook.ts';
import type { Value } from '../shared/value.ts';
import { benchSheet, pagesOf } from '../src/notebook/bench-sheet.ts';
import { cupLabels } from '../src/notebook/cup-labels.ts';
import type { LineKind } from '../src/notebook/line.ts';
import {
  aboutOf,
  animalsOf,
  columnByKey,
  dayOf,
  daysOf,
  markOf,
  readingOf,
} from '../src/notebook/read.ts';
import { isPresent } from '../src/notebook/present.ts';
import { boundEpg } from './bound-epg.ts';
import { dayWords } from '../src/text/day-words.ts';
import { figureText } from './figure-text.ts';
import { styleMap } from './style-map.ts';
import { statusLabel } from '../src/text/typed-words.ts';
import { boundWords } from './code-words.ts';
import { say } from '../src/text/say.ts';

/** How labels lie on their sheet; one column and one row is a strip, a label to a page. */
export interface LabelSheet {
  readonly rows: number;
  readonly columns: number;
}

/** Dates side by side in the whole grid: as many as an upright page holds with tags in full. */
export const datesAcross = 7;

/** Cup labels, sheet by sheet: tag, cup number, date. */
export function labelPages(notebook: Notebook, day: string, sheet: LabelSheet): TemplateResult {
  const pages = pagesOf(cupLabels(notebook, day), sheet.rows * sheet.columns);
  return html`${pages.map(
    (labels) => html`
      <div
        class="labels"
        style=${styleMap({
          'grid-template-columns': `repeat(${sheet.columns}, minmax(0, 1fr))`,
          'grid-template-rows': `repeat(${sheet.rows}, minmax(0, 1fr))`,
        })}
      >
        ${labels.map(
          (label) => html`
            <div class="label">
              <strong>${label.tag}</strong>
              <span class="cup">${say('cup {number}', { number: label.number })}</span>
              <span>${label.date}</span>
              <small>${label.title}</small>
            </div>
          `,
        )}
      </div>
    `,
  )}`;
}

/** A sheet to write on with a pencil, in bench or yard order. */
export function benchSheetPages(notebook: Notebook, dayId: string, kind: LineKind): TemplateResult {
  const { columns, rows } = benchSheet(notebook, dayId, kind);
  const day = dayOf(notebook, dayId);
  const place = kind === 'bench' ? say('Bench sheet') : say('Yard sheet');
  return html`
    ${heading(notebook, place, day ? dayWords(day) : dayId)}
    <table class="write">
      <thead>
        <tr>
          <th scope="col">${kind === 'bench' ? say('cup') : say('no.')}</th>
          <th scope="col">${say('tag')}</th>
          <th scope="col">${say('group')}</th>
          ${columns.map(
            (column) =>
              html`<th scope="col">
                ${column.label ?? column.key}${column.unit ? html`<small>${column.unit}</small>` : nothing}
              </th>`,
          )}
        </tr>
      </thead>
      <tbody>
        ${rows.map(
          (row) => html`
            <tr>
              <td class="number">${row.number}</td>
              <th scope="row">${row.tag} <small>${row.name}</small></th>
              <td>${row.group}</td>
              ${columns.map(() => html`<td class="blank"></td>`)}
            </tr>
          `,
        )}
      </tbody>
    </table>
    <p>
      ${say('Not sampled, lost, spoiled and 0 are four different things: write the word, or the 0. Gloves on, hands washed.')}
    </p>
  `;
}

/** Every animal by every date, dates cut into blocks so that each tag stands once in each block. */
export function gridPages(
  notebook: Notebook,
  byDay: ReadonlyMap<string, ReadonlyMap<string, Value>>,
): TemplateResult {
  const blocks = pagesOf(daysOf(notebook), datesAcross);
  return html`
    ${heading(notebook, say('Eggs per gram by date'), '')}
    ${blocks.map(
      (days) => html`
        <table class="grid">
          <thead>
            <tr>
              <th scope="col">${say('animal')}</th>
              ${days.map((day) => html`<th scope="col">${dayWords(day, 'short')}</th>`)}
            </tr>
          </thead>
          <tbody>
            ${animalsOf(notebook).map(
              (animal) => html`
                <tr>
                  <th scope="row">${animal.tag}</th>
                  ${days.map(
                    (day) =>
                      html`<td class="number">
                        ${epgOnPaper(notebook, day.id, animal, byDay.get(day.id)?.get(animal.id))}
                      </td>`,
                  )}
                </tr>
              `,
            )}
          </tbody>
        </table>
      `,
    )}
    <p>${say('– not counted. Figures are strongyle-type eggs per gram of dung.')}</p>
  `;
}

/** One animal's epg of a day: the figure, what its bound says, its status, or why there is none. */
function epgOnPaper(
  notebook: Notebook,
  day: string,
  animal: Animal,
  value: Value | undefined,
): TemplateResult | string {
  const mark = markOf(notebook);
  if (typeof value === 'number') return figureText(value, 0, mark);
  const status = columnByKey(notebook, 'status');
  const said = status && readingOf(notebook, day, animal.id, status.id)?.text;
  const bound = boundEpg(notebook, day, animal.id, () => null);
  if (said !== undefined) return html`<small>${statusLabel(said)}</small>`;
  if (bound) {
    const figure = bound.epg === null ? '' : ` ${figureText(bound.epg, 0, mark)}`;
    return html`<small>${boundWords(bound)}${figure}</small>`;
  }
  return isPresent(notebook, day, animal) ? '–' : html`<small>${say('not here')}</small>`;
}

/** What a printed page is of: notebook, place, kind of sheet, day. */
export function heading(notebook: Notebook, what: string, day: string): TemplateResult {
  const { title = '', place = '' } = aboutOf(notebook);
  return html`
    <header>
      <h1>${what}${day === '' ? nothing : html` · ${day}`}</h1>
      <p>${[title, place].filter((words) => words !== '').join(', ')}</p>
    </header>
  `;
}
