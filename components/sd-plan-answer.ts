import { LitElement, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import type { PlanAsked, PlannedRow } from '../shared/worker-messages.ts';
import { eggsNeeded } from '../src/treating/egg-sufficiency.ts';
import { planStyles } from './plan-styles.ts';
import { planTable } from './plan-table.ts';
import { plansByDrug, planSentence, type PlanOfDrug } from './plan-words.ts';
import { plotBlockStyles } from './plot-block-styles.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/**
 * The answers of a plan: the least work that tells, a drawing of how often the right thing is said, and the same as
 * tables. While lines are still missing there are only the tables.
 */
export class SdPlanAnswer extends LitElement {
  static override properties = {
    plan: { attribute: false },
    areas: { attribute: false },
    rows: { attribute: false },
    isWhole: { attribute: false },
    mark: { attribute: false },
    chart: { state: true },
    trouble: { state: true },
  };

  static override styles = [...theme, plotBlockStyles, planStyles];

  declare plan: PlanAsked | undefined;
  declare areas: readonly number[];
  declare rows: readonly PlannedRow[];
  declare isWhole: boolean;
  declare mark: '.' | ',';
  declare private chart: Element | null;
  declare private trouble: string;
  private width = 0;
  private drawn: { readonly rows: readonly PlannedRow[]; readonly width: number } | null = null;
  private readonly size = new ResizeObserver(([entry]) => {
    this.width = Math.floor(entry?.contentRect.width ?? 0);
    // Drawing changes the height that is being observed; in the next frame that starts no loop.
    requestAnimationFrame(() => void this.draw());
  });

  constructor() {
    super();
    this.areas = [];
    this.rows = [];
    this.isWhole = false;
    this.mark = '.';
    this.chart = null;
    this.trouble = '';
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.size.observe(this);
  }

  override disconnectedCallback(): void {
    this.size.disconnect();
    super.disconnectedCallback();
  }

  private get drugs(): readonly PlanOfDrug[] {
    return this.plan ? plansByDrug(this.plan, this.areas, this.rows) : [];
  }

  protected override updated(_changed: PropertyValues): void {
    void this.draw();
  }

  /** Draws anew when the lines or the width are other than those drawn; the library comes when first needed. */
  private async draw(): Promise<void> {
    const { rows, width, isWhole } = this;
    if (!isWhole || width < 120) return;
    if (this.drawn?.rows === rows && this.drawn.width === width) return;
    this.drawn = { rows, width };
    try {
      const { planPlot } = await import('./plot-plan.ts');
      if (this.drawn.rows !== rows || this.drawn.width !== width) return;
      const { drugs } = this;
      this.chart = planPlot({ drugs, sentence: planSentence(drugs) }, width);
      this.trouble = '';
    } catch {
      this.trouble = say('The chart could not be drawn; its figures stand in the tables below.');
    }
  }

  protected override render(): TemplateResult | typeof nothing {
    const { plan, drugs } = this;
    if (!plan) return nothing;
    const needed = eggsNeeded(plan.threshold, plan.level);
    return html`
      ${
        this.isWhole
          ? html`<p class="headline">${planSentence(drugs)}</p>
              <div class="chart">${this.chart}</div>`
          : nothing
      }
      ${this.trouble === '' ? nothing : html`<p class="fault" role="alert">${this.trouble}</p>`}
      ${drugs
        .filter(({ lines }) => lines.length > 0)
        .map((drug) => planTable(drug, needed, this.mark))}
    `;
  }
}

customElements.define('sd-plan-answer', SdPlanAnswer);

declare global {
  interface HTMLElementTagNameMap {
    'sd-plan-answer': SdPlanAnswer;
  }
}
