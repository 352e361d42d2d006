import { LitElement, html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { Block, Notebook } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { changeBlock } from '../src/notebook/edit-records.ts';
import { groupsOn } from '../src/notebook/present.ts';
import { blocksOf, dayOf, daysOf, markOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { checkChoice, productsBetween } from '../src/treating/check-choice.ts';
import { checkDaysFault, type CheckDays } from '../src/treating/check-pairs.ts';
import { productName, productOf, productsInUse } from '../src/treating/product.ts';
import { reductionChecks } from '../src/treating/reduction-check.ts';
import { AfterPaint } from './after-paint.ts';
import { checkAnswer } from './check-answer.ts';
import { checkCounts, type CheckCounts } from './check-rows.ts';
import { checkStyles } from './check-styles.ts';
import { controlGroups, type ControlTexts } from './control-groups.ts';
import { dayWords } from '../src/text/day-words.ts';
import { tell } from './page-message.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import { ruleOf } from './verdict-rule.ts';
import './sd-check-limits.ts';
import { say } from '../src/text/say.ts';

/** What a check is made of: chosen in the block, or what the log suggests while nothing was chosen. */
interface Chosen {
  readonly before: string;
  readonly after: string;
  readonly products: readonly string[];
  readonly group: string;
  readonly isOwn: boolean;
}

/** Counts, and the days they are of: a newer choice of days must not be shown with them. */
interface CountsOfDays {
  readonly before: string;
  readonly after: string;
  readonly counts: CheckCounts | null;
}

/**
 * Whether a dewormer works: two sampling days and the products given between them, each product's reduction
 * with its limits, its verdict and what stands against it, side by side, and the words for the vet. The
 * choices are kept with the block; what follows from them is worked out after paint and never stored.
 */
export class SdReductionCheck extends LitElement {
  static override properties = { blockId: { type: String } };

  static override styles = [...theme, checkStyles];

  declare blockId: string;
  private readonly block = new Select<Block | undefined>(this, (session) =>
    blocksOf(session.notebook).find(({ id }) => id === this.blockId),
  );
  private readonly counts = new AfterPaint<CountsOfDays>(
    this,
    async (session, signal) => {
      const { before, after } = this.chosen(session);
      const { notebook } = session;
      const areThere = [before, after].every((day) => dayOf(notebook, day)?.date);
      const counts = areThere ? await checkCounts(session, before, after, signal) : null;
      return { before, after, counts };
    },
    (notice, session) => {
      const { before, after } = this.chosen(session);
      return notice.isWide || notice.refs.some(({ day }) => day === before || day === after);
    },
  );

  constructor() {
    super();
    this.blockId = '';
  }

  private chosen({ notebook }: Session): Chosen {
    const choices = blocksOf(notebook).find(({ id }) => id === this.blockId)?.choices ?? {};
    const { before, after, products, group = '' } = choices;
    const start = before === undefined || after === undefined ? checkChoice(notebook) : undefined;
    const days = { before: before ?? start?.before ?? '', after: after ?? start?.after ?? '' };
    const given =
      products === undefined
        ? productsBetween(notebook, days.before, days.after)
        : products.split(/[\s,]+/).filter((id) => id !== '');
    return { ...days, products: given, group, isOwn: before !== undefined || after !== undefined };
  }

  private async choose(facts: Readonly<Record<string, string>>): Promise<void> {
    const { session, value: block } = this.block;
    // Refused, a choice stands again as it was.
    if (!session?.mayWrite()) return this.requestUpdate();
    if (!block) return;
    const { before, after } = this.chosen(session);
    const days = { ...(before ? { before } : {}), ...(after ? { after } : {}) };
    const choices = { ...days, ...block.choices, ...facts };
    await session.dispatch(
      changeBlock(block.id, { choices }, say('what the dewormer check compares')),
    );
  }

  private copy(sentence: string): void {
    navigator.clipboard.writeText(sentence).then(
      () => tell(this, say('The words for the vet are copied.')),
      () =>
        tell(
          this,
          say('This browser does not let a page copy. Select the words and copy them by hand.'),
        ),
    );
  }

  private renderDay(
    name: 'before' | 'after',
    label: string,
    chosen: Chosen,
    notebook: Notebook,
  ): TemplateResult {
    return html`<label class="field">
      ${label}
      <select
        name=${name}
        @change=${(event: Event) =>
          this.choose({ [name]: (event.target as HTMLSelectElement).value })}
      >
        <option value="" .selected=${chosen[name] === ''}>${say('choose a day')}</option>
        ${daysOf(notebook).map(
          (day) =>
            html`<option value=${day.id} .selected=${day.id === chosen[name]}>
              ${dayWords(day)}
            </option>`,
        )}
      </select>
    </label>`;
  }

  private renderProducts(chosen: Chosen, notebook: Notebook): TemplateResult {
    const offered = new Set([
      ...productsInUse(notebook).map(({ id }) => id),
      ...chosen.products.filter((id) => productOf(notebook, id)?.name),
    ]);
    const pick = (id: string, isPicked: boolean): void => {
      const others = chosen.products.filter((other) => other !== id);
      void this.choose({ products: (isPicked ? [...others, id] : others).join(' ') });
    };
    return html`<fieldset>
      <legend>${say('Given between them')}</legend>
      ${offered.size === 0 ? html`<p class="small">${say('No product yet.')}</p>` : nothing}
      ${[...offered].map(
        (id) =>
          html`<label class="tick">
            <input
              type="checkbox"
              .checked=${live(chosen.products.includes(id))}
              @change=${(event: Event) => pick(id, (event.target as HTMLInputElement).checked)}
            />
            ${productName(notebook, id)}
          </label>`,
      )}
    </fieldset>`;
  }

  private renderChoices(chosen: Chosen, notebook: Notebook): TemplateResult {
    const groups = chosen.before === '' ? [] : groupsOn(notebook, chosen.before);
    return html`
      <div class="choices">
        ${this.renderDay('before', say('Count before treatment'), chosen, notebook)}
        ${this.renderDay('after', say('Count after treatment'), chosen, notebook)}
        ${this.renderProducts(chosen, notebook)}
        ${
          groups.length > 1
            ? html`<label class="field">
                ${say('Group')}
                <select
                  name="group"
                  @change=${(event: Event) =>
                    this.choose({ group: (event.target as HTMLSelectElement).value })}
                >
                  <option value="" .selected=${chosen.group === ''}>${say('all of them')}</option>
                  ${groups.map(
                    (group) =>
                      html`<option value=${group} .selected=${group === chosen.group}>
                        ${group}
                      </option>`,
                  )}
                </select>
              </label>`
            : nothing
        }
      </div>
      ${
        chosen.isOwn || chosen.before === ''
          ? nothing
          : html`<p class="small soft">
              ${say('The newest treatment in the log, with the counts before and after it.')}
            </p>`
      }
    `;
  }

  private renderAnswers(chosen: Chosen, session: Session, counts: CheckCounts): TemplateResult {
    const { notebook } = session;
    const { before, after, products, group } = chosen;
    const mark = markOf(notebook);
    const days = { before, after, ...(group === '' ? {} : { group }) };
    const rule = ruleOf(this.block.value?.choices);
    const rows = { rowsBefore: counts.before, rowsAfter: counts.after, others: counts.others };
    const checks = reductionChecks(notebook, { ...days, ...rows, rule }, products);
    return html`<div class="answers">
      ${checks.map((check) =>
        isFault(check)
          ? html`<p class="fault" role="alert">${check.sentence}</p>`
          : checkAnswer(check, mark, (sentence) => this.copy(sentence)),
      )}
    </div>`;
  }

  private renderControl(
    chosen: Chosen,
    notebook: Notebook,
    counts: CheckCounts,
  ): TemplateResult | typeof nothing {
    const [product] = chosen.products;
    if (product === undefined) return nothing;
    const choices = this.block.value?.choices ?? {};
    const texts: ControlTexts = {
      treated: choices['treated'] ?? '',
      control: choices['control'] ?? '',
    };
    const days: CheckDays = { before: chosen.before, after: chosen.after, product };
    return html`<details ?open=${texts.treated !== '' || texts.control !== ''}>
      <summary>${say('Against an untreated control group')}</summary>
      ${controlGroups(notebook, days, counts, texts, (typed) => void this.choose({ ...typed }))}
    </details>`;
  }

  /** What follows from the choices: the answers, or why there are none. */
  private renderBelow(chosen: Chosen, session: Session): TemplateResult {
    const { notebook } = session;
    const { before, after, products } = chosen;
    const [first] = products;
    const wrong = checkDaysFault(notebook, { before, after, product: first ?? '' });
    if (wrong)
      return html`<p class=${before === '' || after === '' ? 'soft' : 'fault'} role="status">
        ${wrong.sentence}
      </p>`;
    const { value: found, error } = this.counts;
    if (error !== undefined && !found)
      return html`<p class="fault" role="alert">
        ${say('The check could not be worked out. The counts are safe; change any cell to try again.')}
      </p>`;
    if (found?.before !== before || found.after !== after)
      return html`<p class="soft">${say('Working…')}</p>`;
    const { counts } = found;
    if (counts === null)
      return html`<p class="fault" role="alert">
        ${say('A check needs the columns eggs, factor and epg. Add them, or start from a template.')}
      </p>`;
    return html`
      ${this.renderAnswers(chosen, session, counts)} ${this.renderControl(chosen, notebook, counts)}
      <details>
        <summary>${say('Limits, days and conditions')}</summary>
        <sd-check-limits
          .blockId=${this.blockId}
          .day=${after}
          .products=${products}
        ></sd-check-limits>
      </details>
    `;
  }

  protected override render(): TemplateResult {
    const { session } = this.block;
    if (!session) return html`<p class="soft">${say('Working…')}</p>`;
    const chosen = this.chosen(session);
    // One template for all of them, so that the field in which a person chooses stays and keeps the focus.
    return html`
      ${this.renderChoices(chosen, session.notebook)} ${this.renderBelow(chosen, session)}
    `;
  }
}

customElements.define('sd-reduction-check', SdReductionCheck);

declare global {
  interface HTMLElementTagNameMap {
    'sd-reduction-check': SdReductionCheck;
  }
}
