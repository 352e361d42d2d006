import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { RowId } from '../shared/ref.ts';
import { isFault } from '../shared/value.ts';
import { limitsOf, limitValue, markOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { cupSureness } from '../src/stats/cup-sureness.ts';
import { herdPrior, type PriorFound } from '../src/stats/herd-prior.ts';
import { AfterPaint } from './after-paint.ts';
import { boundEpg } from './bound-epg.ts';
import { herdLists, herdReady, isAboutCounts } from './herd-lists.ts';
import { settled } from './next-frame.ts';
import { chambersOf, rowMethod } from './row-method.ts';
import { valueByKey } from './row-values.ts';
import { Select } from './selector-controller.ts';
import { boundStatements, cupStatements, wordingOf, type Statement } from './sureness-words.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/** The name of the limit that a chance is given for. */
const LIMIT_KEY = 'treat_from';

/**
 * How sure the epg of one animal on the open day is: limits, the chance to be at the treat-from limit or
 * more, whether the chambers agree, and what one egg stands for with the sum behind it. For a count that is
 * only a bound, what that means; empty for an animal that was not counted.
 *
 *     <sd-sureness .row=${rowId}></sd-sureness>
 *
 * `compact`: on one line, without the limits, for a place that gives those already.
 */
export class SdSureness extends LitElement {
  static override properties = {
    row: { type: String },
    isCompact: { type: Boolean, attribute: 'compact', reflect: true },
  };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
      }

      ul {
        display: flex;
        flex-wrap: wrap;
        gap: 2px 20px;
        margin: 0;
        padding: 0;
        font-size: var(--size-small);
        list-style: none;
      }

      li {
        color: var(--soft);
      }

      :host([compact]) {
        min-width: 0;
      }

      :host([compact]) ul {
        display: block;
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }

      :host([compact]) li {
        display: inline;
      }

      :host([compact]) li:not(:last-child)::after {
        content: ' · ';
      }

      b {
        color: var(--ink);
        font-weight: 600;
      }

      .warning,
      .warning b {
        color: var(--warm);
      }
    `,
  ];

  declare row: RowId | undefined;
  declare isCompact: boolean;
  private readonly seen = new Select(this, countNotices(), {
    when: ({ refs, isWide }) => isWide || refs.some(({ row }) => row === this.row),
  });
  private readonly prior = new AfterPaint<PriorFound | undefined>(
    this,
    async (session, signal): Promise<PriorFound | undefined> => {
      // Of a row without a count nothing is said: the herd is looked at when a counted one comes.
      this.isPriorDue = !this.isCounted(session);
      if (this.isPriorDue) return this.prior.value;
      await herdReady(session, signal);
      const lists = herdLists(session);
      return herdPrior(lists?.eggs ?? [], lists?.factors ?? []);
    },
    isAboutCounts,
  );
  private isPriorDue = false;

  constructor() {
    super();
    this.isCompact = false;
  }

  /** With the line around it: nothing is said of a row that is left as its count is typed. */
  protected override async scheduleUpdate(): Promise<void> {
    if (this.hasUpdated) await settled(this.seen.session);
    await super.scheduleUpdate();
  }

  protected override updated(): void {
    const { session } = this.seen;
    if (!this.isPriorDue || !session || !this.isCounted(session)) return;
    this.isPriorDue = false;
    this.prior.again();
  }

  private isCounted(session: Session): boolean {
    return this.row !== undefined && typeof valueByKey(session, this.row)('epg') === 'number';
  }

  private statements(session: Session, row: RowId): readonly Statement[] {
    const { notebook, openDay } = session;
    const value = valueByKey(session, row);
    const [epg, eggs, factor] = [value('epg'), value('eggs'), value('factor')];
    if (openDay === null) return [];
    if (typeof epg !== 'number')
      return boundStatements(boundEpg(notebook, openDay, row, value), markOf(notebook));
    if (typeof eggs !== 'number' || typeof factor !== 'number') return [];
    const limit = limitsOf(notebook).find(({ key }) => key === LIMIT_KEY);
    const from = limit && limitValue(notebook, openDay, limit.id);
    const { value: prior } = this.prior;
    const flat: PriorFound = { is: 'flat', counted: 0, because: 'few counted' };
    const cup = { eggs, factor, chambers: chambersOf(session, row) };
    const sure = cupSureness(cup, from, prior ?? flat);
    if (isFault(sure)) return [{ about: '', figure: '', rest: sure.sentence, isWarning: true }];
    return cupStatements(sure, prior, rowMethod(session, row), wordingOf(notebook));
  }

  protected override render(): TemplateResult | typeof nothing {
    const { session } = this.seen;
    const found = session && this.row !== undefined ? this.statements(session, this.row) : [];
    const shown = this.isCompact ? found.filter((one) => !one.isLimits).sort(inShort) : found;
    if (shown.length === 0) return nothing;
    return html`<ul aria-label=${say('How sure this count is')}>
      ${shown.map((statement) => this.renderStatement(statement))}
    </ul>`;
  }

  private renderStatement({ about, figure, isWarning, ...words }: Statement): TemplateResult {
    const rest = this.isCompact ? (words.short ?? words.rest) : words.rest;
    const lead = figure === '' ? html`${about} ` : html`${about} <b>${figure}</b>`;
    const joined = rest === '' || figure === '' ? rest : `, ${rest}`;
    return html`<li class=${isWarning ? 'warning' : nothing}>${lead}${joined}</li>`;
  }
}

/** On one line, whose end may be cut off: warnings first, then the chambers, which are short. */
function inShort(a: Statement, b: Statement): number {
  const rank = ({ isWarning, isChambers }: Statement): number =>
    isWarning ? 0 : isChambers ? 1 : 2;
  return rank(a) - rank(b);
}

/** A new value at every notice looked at: whatever is typed in the row may change what is said here. */
function countNotices(): (session: Session) => number {
  let count = 0;
  return () => ++count;
}

customElements.define('sd-sureness', SdSureness);

declare global {
  interface HTMLElementTagNameMap {
    'sd-sureness': SdSureness;
  }
}
