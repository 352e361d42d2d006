import { LitElement, css, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { isFault, type Fault } from '../shared/value.ts';
import { changeBlock } from '../src/notebook/edit-records.ts';
import { groupsOn } from '../src/notebook/present.ts';
import { aboutOf, blocksOf, dayOf } from '../src/notebook/read.ts';
import { AfterPaint } from './after-paint.ts';
import { isAboutCounts } from './herd-lists.ts';
import { dayWords } from '../src/text/day-words.ts';
import { figureText } from './figure-text.ts';
import type { SheddingBar } from './plot-shedding.ts';
import { sheddingOf, type SheddingOfDay } from './shedding.ts';
import { sheddingSentences } from './shedding-words.ts';
import { Select } from './selector-controller.ts';
import { plotBlockStyles } from './plot-block-styles.ts';
import { theme } from './theme.ts';
import { BeforePrint } from './before-print.ts';
import { say } from '../src/text/say.ts';

/** Rows of the table before "all of them". */
const MOST_ROWS = 200;

/**
 * Who sheds: the open day's animals by epg with the running total of their eggs, beside it what luck alone
 * would show, all of it also in words and as a table.
 */
export class SdSheddingPlot extends LitElement {
  static override properties = {
    blockId: { type: String },
    chart: { state: true },
    trouble: { state: true },
    isOpen: { state: true },
  };

  static override styles = [
    ...theme,
    plotBlockStyles,
    css`
      .among th {
        color: var(--ink);
        font-weight: 650;
      }
    `,
  ];

  declare blockId: string;
  declare private chart: Element | null;
  declare private trouble: string;
  declare private isOpen: boolean;
  private width = 0;
  private drawn: { readonly of: SheddingOfDay; readonly width: number } | null = null;
  private readonly shedding = new AfterPaint<SheddingOfDay | Fault | null>(
    this,
    (session, signal) => sheddingOf(session, this.group, signal),
    isAboutCounts,
  );
  private readonly notebook = new Select(this, ({ notebook }) => notebook, {
    same: (a, b) => a.blocks === b.blocks && a.groups === b.groups && a.about === b.about,
  });
  private readonly size = new ResizeObserver(([entry]) => {
    this.width = Math.floor(entry?.contentRect.width ?? 0);
    void this.draw();
  });

  constructor() {
    super();
    this.blockId = '';
    this.chart = null;
    this.trouble = '';
    this.isOpen = false;
    new BeforePrint(this, () => {
      this.isOpen = true;
      this.performUpdate();
    });
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.size.observe(this);
  }

  override disconnectedCallback(): void {
    this.size.disconnect();
    super.disconnectedCallback();
  }

  /** The group chosen for this block; null for all animals present. */
  private get group(): string | null {
    const { session } = this.shedding;
    const block = session && blocksOf(session.notebook).find(({ id }) => id === this.blockId);
    const group = block?.choices?.['group'] ?? '';
    return group === '' ? null : group;
  }

  private async choose(event: Event): Promise<void> {
    const group = (event.target as HTMLSelectElement).value;
    const label = say('the group shown by who sheds');
    await this.notebook.session?.dispatch(
      changeBlock(this.blockId, { choices: { ...this.choices, group } }, label),
    );
  }

  private get choices(): Readonly<Record<string, string>> {
    const { session } = this.notebook;
    const block = session && blocksOf(session.notebook).find(({ id }) => id === this.blockId);
    return block?.choices ?? {};
  }

  protected override updated(_changed: PropertyValues): void {
    void this.draw();
  }

  /** Draws anew when the figures or the width are other than those drawn; the library comes when first needed. */
  private async draw(): Promise<void> {
    const of = this.shedding.value;
    const { width } = this;
    if (!of || isFault(of) || width < 120) return;
    if (this.drawn?.of === of && this.drawn.width === width) return;
    this.drawn = { of, width };
    try {
      const { sheddingPlot } = await import('./plot-shedding.ts');
      if (this.drawn.of !== of || this.drawn.width !== width) return;
      const { share, luckLine: luck } = of;
      const sentence = sheddingSentences(of).join(' ');
      this.chart = sheddingPlot({ bars: this.bars(of), share: share * 100, luck, sentence }, width);
      this.trouble = '';
    } catch {
      this.trouble = say('The chart could not be drawn; its figures stand in the table below.');
    }
  }

  private get mark(): '.' | ',' {
    const { session } = this.notebook;
    return (session && aboutOf(session.notebook).decimalMark) ?? '.';
  }

  private bars({ order, lists, reached }: SheddingOfDay): readonly SheddingBar[] {
    return order.shedders.map(({ row, epg, running }, i) => ({
      tag: lists.animals[row]?.tag ?? '',
      epg: figureText(epg, 0, this.mark),
      from: (order.shedders[i - 1]?.running ?? 0) * 100,
      to: running * 100,
      isAmong: i < reached.animals,
    }));
  }

  private renderGroups(): TemplateResult | typeof nothing {
    const { session } = this.notebook;
    if (!session || session.openDay === null) return nothing;
    const groups = groupsOn(session.notebook, session.openDay);
    const { group } = this;
    if (groups.length < 2 && group === null) return nothing;
    const all = group !== null && !groups.includes(group) ? [...groups, group] : groups;
    return html`<label class="choice">
      ${say('Group')}
      <select @change=${this.choose}>
        <option value="" .selected=${group === null}>${say('all animals')}</option>
        ${all.map(
          (name) => html`<option value=${name} .selected=${name === group}>${name}</option>`,
        )}
      </select>
    </label>`;
  }

  private renderTable(of: SheddingOfDay): TemplateResult {
    const bars = this.bars(of);
    return html`<div
      class="scroll"
      role="region"
      aria-label=${say('The animals by epg')}
      tabindex="0"
    >
      <table>
        <thead>
          <tr>
            <th scope="col">${say('animal, highest first')}</th>
            <th scope="col">${say('epg')}</th>
            <th scope="col">${say('running total of eggs')}</th>
          </tr>
        </thead>
        <tbody>
          ${bars.slice(0, MOST_ROWS).map(
            ({ tag, epg, to, isAmong }) =>
              html`<tr class=${isAmong ? 'among' : nothing}>
                <th scope="row">${tag}</th>
                <td>${epg}</td>
                <td>${figureText(to, 1, this.mark)} %</td>
              </tr>`,
          )}
        </tbody>
      </table>
      ${
        bars.length > MOST_ROWS
          ? html`<p class="small soft">
              ${say('The first {most} of {n}; the rest shed {percent} % of the eggs.', { most: MOST_ROWS, n: bars.length, percent: figureText(100 - (bars[MOST_ROWS - 1]?.to ?? 100), 1, this.mark) })}
            </p>`
          : nothing
      }
    </div>`;
  }

  private renderShedding(of: SheddingOfDay): TemplateResult {
    const [headline, ...others] = sheddingSentences(of);
    const { session } = this.shedding;
    const day = session && dayOf(session.notebook, of.day);
    return html`
      <p class="headline">${headline}</p>
      ${others.map((sentence) => html`<p class="beside">${sentence}</p>`)}
      <div class="chart">${this.chart}</div>
      ${this.trouble === '' ? nothing : html`<p class="fault" role="alert">${this.trouble}</p>`}
      <details .open=${this.isOpen} @toggle=${this.onToggle}>
        <summary>
          ${day ? say('As a table, {day}', { day: dayWords(day) }) : say('As a table')}
        </summary>
        ${this.isOpen ? this.renderTable(of) : nothing}
      </details>
    `;
  }

  private onToggle(event: Event): void {
    this.isOpen = (event.target as HTMLDetailsElement).open;
  }

  protected override render(): TemplateResult {
    const { value } = this.shedding;
    if (value === undefined) return html`<p class="soft">${say('Working…')}</p>`;
    if (value === null) return html`<p class="soft">${say('No sampling day is open.')}</p>`;
    return html`${this.renderGroups()}
    ${isFault(value) ? html`<p class="soft">${value.sentence}</p>` : this.renderShedding(value)}`;
  }
}

customElements.define('sd-shedding-plot', SdSheddingPlot);

declare global {
  interface HTMLElementTagNameMap {
    'sd-shedding-plot': SdSheddingPlot;
  }
}
