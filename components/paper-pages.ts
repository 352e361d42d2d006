import { html, nothing, type TemplateResult } from 'lit';
import type { Notebook } from '../shared/notebook.ts';
import { isFault, type Value } from '../shared/value.ts';
import { benchSheet, pagesOf } from '../src/notebook/bench-sheet.ts';
import { cupLabels } from '../src/notebook/cup-labels.ts';
import type { LineKind } from '../src/notebook/line.ts';
import { aboutOf, animalsOf, dayOf, daysOf, readingOf, columnByKey } from '../src/notebook/read.ts';
import { isPresent } from '../src/notebook/present.ts';
import { dayWords } from './day-words.ts';
import { figureText } from './figure-text.ts';
import { styleMap } from './style-map.ts';

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
              <span class="cup">cup ${label.number}</span>
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
  const place = kind === 'bench' ? 'Bench sheet' : 'Yard sheet';
  return html`
    ${heading(notebook, place, day ? dayWords(day) : dayId)}
    <table class="write">
      <thead>
        <tr>
          <th scope="col">${kind === 'bench' ? 'cup' : 'no.'}</th>
          <th scope="col">tag</th>
          <th scope="col">group</th>
          ${columns.map(
            (column) =>
              html`<th scope="col">
                ${column.label ?? column.key}${
                  column.unit ? html`<small>${column.unit}</small>` : nothing
                }
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
      Not sampled, lost, spoiled and 0 are four different things: write the word, or the 0. Gloves
      on, hands washed.
    </p>
  `;
}

/** Every animal by every date, dates cut into blocks so that each tag stands once in each block. */
export function gridPages(
  notebook: Notebook,
  byDay: ReadonlyMap<string, ReadonlyMap<string, Value>>,
): TemplateResult {
  const mark = aboutOf(notebook).decimalMark ?? '.';
  const status = columnByKey(notebook, 'status');
  const blocks = pagesOf(daysOf(notebook), datesAcross);
  return html`
    ${heading(notebook, 'Eggs per gram by date', '')}
    ${blocks.map(
      (days) => html`
        <table class="grid">
          <thead>
            <tr>
              <th scope="col">animal</th>
              ${days.map((day) => html`<th scope="col">${dayWords(day, 'short')}</th>`)}
            </tr>
          </thead>
          <tbody>
            ${animalsOf(notebook).map(
              (animal) => html`
                <tr>
                  <th scope="row">${animal.tag}</th>
                  ${days.map((day) => {
                    const value = byDay.get(day.id)?.get(animal.id) ?? null;
                    const said = status && readingOf(notebook, day.id, animal.id, status.id)?.text;
                    const away = isPresent(notebook, day.id, animal) ? '–' : 'not here';
                    return html`<td class="number">
                      ${
                        typeof value === 'number'
                          ? figureText(value, 0, mark)
                          : html`<small>${said ?? away}</small>`
                      }
                    </td>`;
                  })}
                </tr>
              `,
            )}
          </tbody>
        </table>
      `,
    )}
    <p>– not counted. Figures are strongyle-type eggs per gram of dung.</p>
  `;
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

/** A derived value on paper: figures rounded for reading, a dash for missing, a fault's sentence. */
export function valueWords(value: Value, mark: '.' | ','): string {
  if (isFault(value)) return value.sentence;
  if (value === null || value === '') return '–';
  return typeof value === 'number' ? figureText(value, undefined, mark) : String(value);
}
