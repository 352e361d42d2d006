import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Decision, Notebook } from '../shared/notebook.ts';
import { groupOn } from '../src/notebook/present.ts';
import { aboutOf, animalOf, markOf } from '../src/notebook/read.ts';
import { CLEAR_DATE_CAUTIONS } from '../src/treating/cautions.ts';
import { readClear } from '../src/treating/clear-date.ts';
import { productName } from '../src/treating/product.ts';
import { AfterPaint } from './after-paint.ts';
import { animalWord } from './animal-words.ts';
import {
  animalHistory,
  type HistoryDay,
  type HistoryLine,
  type HistoryTreatment,
} from './animal-history.ts';
import { clearWords } from './clear-words.ts';
import { dayWords } from '../src/text/day-words.ts';
import { figureText } from './figure-text.ts';
import { theme } from './theme.ts';
import { epgWords, valueWords } from './treatment-row.ts';
import './sd-sheet.ts';
import type { SdSheet } from './sd-sheet.ts';
import { say, sayParts } from '../src/text/say.ts';

/** What is kept of one animal, as a dialog: its counts by day, what it was given, and what was decided. */
export class SdAnimalHistory extends LitElement {
  static override properties = { animalId: { state: true } };

  static override styles = [
    ...theme,
    css`
      ol {
        margin: 0 0 12px;
        padding: 0;
        list-style: none;
      }

      li {
        display: grid;
        grid-template-columns: minmax(7.5em, auto) minmax(0, 1fr);
        gap: 2px 14px;
        padding: 8px 0;
        border-top: 1px solid var(--line);
      }

      li.given {
        padding-left: 10px;
        border-left: 3px solid var(--accent);
      }

      p {
        margin: 0;
      }

      .cautions {
        color: var(--soft);
        font-size: var(--size-tiny);
      }

      @media (max-width: 31.25em) {
        li {
          grid-template-columns: 1fr;
        }
      }
    `,
  ];

  declare private animalId: string;
  private readonly lines = new AfterPaint<readonly HistoryLine[]>(this, (session, signal) =>
    this.animalId === '' || !this.sheet?.isOpen
      ? []
      : animalHistory(session, this.animalId, signal),
  );

  constructor() {
    super();
    this.animalId = '';
  }

  /** Says which animal it is about; call it before `open`. */
  show(animalId: string): void {
    this.animalId = animalId;
  }

  async open(): Promise<void> {
    await this.updateComplete;
    await this.sheet?.open();
    this.lines.again();
  }

  private get sheet(): SdSheet | null {
    return this.renderRoot?.querySelector('sd-sheet') ?? null;
  }

  private renderDay(day: HistoryDay, notebook: Notebook): TemplateResult {
    const { decision, daysAfter } = day;
    const about = aboutOf(notebook);
    const count =
      epgWords(day.epg, day.bound ?? undefined, about) ||
      (day.bound ? say('too many to count') : say('not counted'));
    const counted = html`<b>${count}</b>`;
    const when =
      daysAfter === undefined
        ? counted
        : sayParts('{count}, {n, plural, one {# day} other {# days}} after treatment', {
            count: counted,
            n: daysAfter,
          });
    return html`
      <li>
        <span>${dayWords({ date: day.date, ...(day.label ? { label: day.label } : {}) })}</span>
        <div>
          <p>${when}</p>
          <p class="small soft">
            ${day.typed.map(([label, text]) => `${label} ${text}`).join(', ')}
          </p>
          ${decision ? html`<p class="small">${decisionWords(notebook, decision)}</p>` : nothing}
        </div>
      </li>
    `;
  }

  private renderTreatment(
    { treatment, date }: HistoryTreatment,
    notebook: Notebook,
  ): TemplateResult {
    const { product, doseMl, weightKg, by, time, route, note, meatClear, milkClear, vet } =
      treatment;
    const mark = markOf(notebook);
    const facts = [
      doseMl === undefined
        ? say('no dose noted')
        : say('{ml} mL', { ml: figureText(doseMl, undefined, mark) }),
      weightKg === undefined
        ? ''
        : say('for {weight} kg', { weight: figureText(weightKg, undefined, mark) }),
      route ?? '',
      by ? say('by {by}', { by }) : '',
      vet ? say('by the dose of {vet}', { vet }) : '',
      note ?? '',
    ];
    return html`
      <li class="given">
        <span>${dayWords({ date })}${time ? `, ${time}` : ''}</span>
        <div>
          <p><b>${productName(notebook, product)}</b></p>
          <p class="small">${facts.filter(Boolean).join(', ')}</p>
          <p class="small soft">
            ${say('Meat {meat}; milk {milk}.', { meat: clearWords(readClear(meatClear)), milk: clearWords(readClear(milkClear)) })}
          </p>
        </div>
      </li>
    `;
  }

  private renderLines(notebook: Notebook): TemplateResult {
    const lines = this.lines.value;
    if (this.lines.error !== undefined)
      return html`<p class="fault" role="alert">
        ${say('The history could not be worked out. Nothing is lost; close it and open it again.')}
      </p>`;
    if (lines === undefined) return html`<p class="soft">${say('Working…')}</p>`;
    if (lines.length === 0) return html`<p class="soft">${say('Nothing is kept of it yet.')}</p>`;
    return html`
      <ol>
        ${lines.map((line) =>
          line.kind === 'day'
            ? this.renderDay(line, notebook)
            : this.renderTreatment(line, notebook),
        )}
      </ol>
      ${
        lines.some(({ kind }) => kind === 'treatment')
          ? html`<div class="cautions">
              ${CLEAR_DATE_CAUTIONS.map((one) => html`<p>${one}</p>`)}
            </div>`
          : nothing
      }
    `;
  }

  protected override render(): TemplateResult {
    const notebook = this.lines.session?.notebook;
    const animal = notebook && animalOf(notebook, this.animalId);
    const day = this.lines.session?.openDay?.slice(0, 10) ?? '';
    const group = notebook && groupOn(notebook, this.animalId, day);
    const about = [animal?.name, word(animal?.class), group, word(animal?.stage)]
      .filter(Boolean)
      .join(' · ');
    return html`
      <sd-sheet
        heading=${animal ? say('History of {tag}', { tag: animal.tag }) : say('History')}
        isWide
      >
        ${about === '' ? nothing : html`<p class="soft">${about}</p>`}
        ${notebook && animal ? this.renderLines(notebook) : nothing}
      </sd-sheet>
    `;
  }
}

function word(kept: string | undefined): string {
  return kept === undefined ? '' : animalWord(kept);
}

function decisionWords(notebook: Notebook, { treat, reason, values }: Decision): string {
  const filling = { reason, values: valueWords(notebook, values) };
  if (reason === '')
    return treat
      ? say('Decided: treat, no reason given. Decided on {values}.', filling)
      : say('Decided: leave untreated, no reason given. Decided on {values}.', filling);
  return treat
    ? say('Decided: treat ({reason}). Decided on {values}.', filling)
    : say('Decided: leave untreated ({reason}). Decided on {values}.', filling);
}

customElements.define('sd-animal-history', SdAnimalHistory);

declare global {
  interface HTMLElementTagNameMap {
    'sd-animal-history': SdAnimalHistory;
  }
}
