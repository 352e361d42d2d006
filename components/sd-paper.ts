import { LitElement, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import type { Value } from '../shared/value.ts';
import { dayOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { dayWords } from '../src/text/day-words.ts';
import { reportData, seasonEpg, type ReportData } from './paper-data.ts';
import { benchSheetPages, gridPages, labelPages } from './paper-pages.ts';
import { reportPages } from './paper-report.ts';
import { paperStyles } from './paper-styles.ts';
import { deepActive } from './sd-sheet.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-season-trend.ts';
import './sd-shedding-plot.ts';
import { say } from '../src/text/say.ts';

type Kind = 'report' | 'bench' | 'yard' | 'labels' | 'grid';
type Size = 'A4' | 'letter';

const kinds: readonly (readonly [Kind, string])[] = [
  ['report', say('Report for the vet')],
  ['bench', say('Bench sheet')],
  ['yard', say('Yard sheet')],
  ['labels', say('Cup labels')],
  ['grid', say('All counts by date')],
];

/**
 * The paper side of a notebook: what will be printed stands on the screen as it will come out, made of
 * static tables, and takes the place of the page while it is open.
 */
export class SdPaper extends LitElement {
  static override properties = {
    kind: { state: true },
    size: { state: true },
    rows: { state: true },
    columns: { state: true },
    report: { state: true },
    season: { state: true },
    trouble: { state: true },
  };

  static override styles = [...theme, paperStyles];

  declare private kind: Kind;
  declare private size: Size;
  declare private rows: number;
  declare private columns: number;
  declare private report: ReportData | null;
  declare private season: ReadonlyMap<string, ReadonlyMap<string, Value>> | null;
  declare private trouble: string;
  private readonly session = new Select<Session>(this, (session) => session, { when: () => false });
  private readonly pageRule = new CSSStyleSheet();
  private work: AbortController | null = null;
  private opener: HTMLElement | null = null;

  constructor() {
    super();
    this.kind = 'report';
    this.size = 'A4';
    this.rows = 8;
    this.columns = 3;
    this.report = null;
    this.season = null;
    this.trouble = '';
  }

  /** Puts the paper in the place of the page. */
  async open(): Promise<void> {
    const active = deepActive();
    this.opener = active instanceof HTMLElement ? active : null;
    this.hidden = false;
    this.page?.setAttribute('data-paper', '');
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, this.pageRule];
    this.fetch();
    this.requestUpdate();
    await this.updateComplete;
    this.renderRoot.querySelector('select')?.focus();
  }

  /** Puts the page back. */
  close(): void {
    this.work?.abort();
    this.hidden = true;
    this.page?.removeAttribute('data-paper');
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((s) => s !== this.pageRule);
    this.opener?.focus();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    if (!this.hidden) this.close();
  }

  private onKeydown(event: KeyboardEvent): void {
    if (event.key === 'Escape' && !event.defaultPrevented) this.close();
  }

  private get page(): Element | null {
    const root = this.getRootNode();
    return root instanceof ShadowRoot ? root.host : null;
  }

  /** Works out what this kind of sheet needs; a newer choice gives the older work up. */
  private fetch(): void {
    this.work?.abort();
    const work = new AbortController();
    this.work = work;
    this.report = null;
    this.season = null;
    this.trouble = '';
    void this.follow(work.signal);
  }

  private async follow(signal: AbortSignal): Promise<void> {
    const session = this.session.value;
    if (!session) return;
    try {
      if (this.kind === 'report') {
        const report = await reportData(session, signal);
        if (!signal.aborted) this.report = report;
      }
      if (this.kind === 'grid') {
        const season = await seasonEpg(session, signal);
        if (!signal.aborted) this.season = season;
      }
    } catch (error) {
      if (signal.aborted) return;
      this.trouble = say('The sheet could not be made: {reason}', {
        reason: error instanceof Error ? error.message : String(error),
      });
    }
  }

  protected override willUpdate(changed: PropertyValues): void {
    if (!changed.has('size')) return;
    this.dataset['size'] = this.size;
    this.pageRule.replaceSync(`@page { size: ${this.size}; margin: 12mm; }`);
  }

  private get isReady(): boolean {
    if (this.kind === 'report') return this.report !== null;
    return this.kind !== 'grid' || this.season !== null;
  }

  private number(
    label: string,
    value: number,
    set: (value: number) => void,
    max: number,
  ): TemplateResult {
    return html`<label class="field">
      ${label}
      <input
        type="text"
        inputmode="numeric"
        .value=${String(value)}
        @change=${(event: Event) => {
          const input = event.target as HTMLInputElement;
          const typed = Number(input.value);
          if (Number.isInteger(typed) && typed >= 1 && typed <= max) set(typed);
          else input.value = String(value);
        }}
      />
    </label>`;
  }

  private renderTools(): TemplateResult {
    return html`
      <div class="tools" role="group" aria-label=${say('What to print')}>
        <label class="field">
          ${say('Sheet')}
          <select
            @change=${(event: Event) => {
              this.kind = (event.target as HTMLSelectElement).value as Kind;
              this.fetch();
            }}
          >
            ${kinds.map(
              ([kind, words]) =>
                html`<option value=${kind} .selected=${kind === this.kind}>${words}</option>`,
            )}
          </select>
        </label>
        <label class="field">
          ${say('Paper')}
          <select
            @change=${(event: Event) => {
              this.size = (event.target as HTMLSelectElement).value as Size;
            }}
          >
            <option value="A4" .selected=${this.size === 'A4'}>A4</option>
            <option value="letter" .selected=${this.size === 'letter'}>${say('Letter')}</option>
          </select>
        </label>
        ${
          this.kind === 'labels'
            ? html`${this.number(say('Labels down'), this.rows, (rows) => (this.rows = rows), 20)}
              ${this.number(say('Labels across'), this.columns, (n) => (this.columns = n), 6)}`
            : nothing
        }
        <div class="end">
          <button @click=${this.close}>${say('Back to the page')}</button>
          <button class="main" ?disabled=${!this.isReady} @click=${() => window.print()}>
            ${say('Print')}
          </button>
        </div>
      </div>
    `;
  }

  private renderSheet(session: Session): TemplateResult {
    const { notebook, openDay } = session;
    if (this.trouble !== '') return html`<p class="fault" role="alert">${this.trouble}</p>`;
    if (this.kind === 'grid')
      return this.season
        ? gridPages(notebook, this.season)
        : html`<p role="status">${say('Working…')}</p>`;
    if (openDay === null)
      return html`<p>${say('Open a sampling day first; then its sheets are here.')}</p>`;
    switch (this.kind) {
      case 'labels':
        return labelPages(notebook, openDay, { rows: this.rows, columns: this.columns });
      case 'bench':
      case 'yard':
        return benchSheetPages(notebook, openDay, this.kind);
      case 'report':
        return this.report
          ? reportPages(notebook, openDay, this.report)
          : html`<p role="status">${say('Working…')}</p>`;
    }
  }

  protected override render(): TemplateResult | typeof nothing {
    const session = this.session.value;
    if (!session || this.hidden) return nothing;
    const day = session.openDay === null ? undefined : dayOf(session.notebook, session.openDay);
    return html`
      <main @keydown=${this.onKeydown}>
        ${this.renderTools()}
        <div
          class="sheet"
          role="region"
          aria-label=${day ? say('What will be printed, {day}', { day: dayWords(day) }) : say('What will be printed')}
        >
          ${this.renderSheet(session)}
        </div>
      </main>
    `;
  }
}

customElements.define('sd-paper', SdPaper);

declare global {
  interface HTMLElementTagNameMap {
    'sd-paper': SdPaper;
  }
}
