import { LitElement, html, nothing, type TemplateResult } from 'lit';
import type { Block, Protocol } from '../shared/notebook.ts';
import { isFault, type Fault } from '../shared/value.ts';
import type { PlanAsked, PlanStand } from '../shared/worker-messages.ts';
import { changeBlock } from '../src/notebook/edit-records.ts';
import { blocksOf, dayOf, defaultsOf, herdWordOf, markOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { herdForPlan, type HerdForPlan } from '../src/simulation/herd-for-plan.ts';
import { readPlan, type PlanField, type PlanRead } from '../src/simulation/read-plan.ts';
import { limitByKey } from '../src/treating/limit-by-key.ts';
import {
  CHECK_LEVEL,
  EXPECTED_PERCENT,
  THRESHOLD_PERCENT,
} from '../src/treating/reduction-check.ts';
import { AfterPaint } from './after-paint.ts';
import { Announcer } from './announcer.ts';
import { figureText } from './figure-text.ts';
import { herdLists, herdReady } from './herd-lists.ts';
import { FIELD_WORDS, planStart, typedOver, type PlanStart } from './plan-fields.ts';
import { planNotes } from './plan-notes.ts';
import { planStyles } from './plan-styles.ts';
import { PlanWorker } from './plan-worker.ts';
import { planSentence, plansByDrug } from './plan-words.ts';
import { meanTable } from './plan-table.ts';
import { plotBlockStyles } from './plot-block-styles.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-plan-answer.ts';
import { say } from '../src/text/say.ts';

/** What was tried, for which numbers, and how it ended; the lines so far while it is under way. */
interface Tried {
  readonly plan: PlanAsked;
  readonly areas: readonly number[];
  readonly stand: PlanStand;
  readonly is: 'under way' | 'done' | 'stopped';
}

const HERD_FIELDS = ['mean', 'k', 'factor'] as const;
const CHECK_FIELDS = ['works', 'fails', 'animals', 'areas'] as const;
const FURTHER_FIELDS = ['expected', 'threshold', 'runs', 'seed'] as const;

/**
 * How many animals and areas a dewormer check would take in this herd, tried out many times beside the page; and
 * how many animals a mean takes. Numbers start from the open day's counts, and can be typed over.
 */
export class SdPlanCheck extends LitElement {
  static override properties = {
    blockId: { type: String },
    tried: { state: true },
    trouble: { state: true },
  };

  static override styles = [...theme, plotBlockStyles, planStyles];

  declare blockId: string;
  declare private tried: Tried | undefined;
  declare private trouble: string;
  private readonly worker = new PlanWorker();
  private readonly announcer = new Announcer(this);
  private readonly block = new Select<Block | undefined>(this, (session) =>
    blocksOf(session.notebook).find(({ id }) => id === this.blockId),
  );
  private readonly herd = new AfterPaint<HerdForPlan | Fault | null>(
    this,
    async (session, signal) => {
      await herdReady(session, signal);
      const lists = herdLists(session);
      return lists && herdForPlan(lists.eggs, lists.factors);
    },
  );

  constructor() {
    super();
    this.blockId = '';
    this.trouble = '';
  }

  override disconnectedCallback(): void {
    this.worker.close();
    super.disconnectedCallback();
  }

  private mark(session: Session): '.' | ',' {
    return markOf(session.notebook);
  }

  private start(session: Session): PlanStart {
    const { notebook, openDay } = session;
    const ofDay: Partial<Protocol> = openDay === null ? {} : (dayOf(notebook, openDay) ?? {});
    const protocol = { ...defaultsOf(notebook), ...ofDay };
    const limits = {
      expected: limitByKey(notebook, openDay ?? '', 'expected_efficacy') ?? EXPECTED_PERCENT,
      threshold: limitByKey(notebook, openDay ?? '', 'efficacy_threshold') ?? THRESHOLD_PERCENT,
    };
    return planStart(this.herd.value ?? null, protocol, limits, this.mark(session));
  }

  private async type(field: PlanField, start: PlanStart, event: Event): Promise<void> {
    const text = (event.target as HTMLInputElement).value;
    const isOwn = text.trim() === '' || text.trim() === start.texts[field];
    await this.keep(field, isOwn ? null : text);
  }

  /** Keeps what was typed in the block's choices; null goes back to the notebook's own figure. */
  private async keep(field: PlanField, text: string | null): Promise<void> {
    const { session, value: block } = this.block;
    if (!session || !block) return;
    const { [field]: _, ...others } = block.choices ?? {};
    const choices = text === null ? others : { ...others, [field]: text };
    const label = say('{field} of the plan', {
      field: FIELD_WORDS[field].label.toLowerCase(),
    });
    await session.dispatch(changeBlock(block.id, { choices }, label));
    this.requestUpdate();
  }

  /** What stands in the fields now, also while a change of them is still on its way to the screen. */
  private read(session: Session, start: PlanStart): PlanRead {
    const block = blocksOf(session.notebook).find(({ id }) => id === this.blockId);
    const texts = typedOver(start.texts, block?.choices ?? {});
    return readPlan(texts, this.mark(session), CHECK_LEVEL);
  }

  private async try(session: Session, start: PlanStart): Promise<void> {
    const { plan, areas } = this.read(session, start);
    if (!plan) return;
    this.trouble = '';
    const show = (stand: PlanStand, is: Tried['is']): void => {
      this.tried = { plan, areas, stand, is };
    };
    show({ done: 0, runs: 1, rows: [] }, 'under way');
    this.announcer.say(say('Trying the plan out.'));
    const end = await this.worker.try(plan, (stand) => show(stand, 'under way'));
    if (isFault(end)) {
      this.tried = undefined;
      this.trouble = end.sentence;
      return;
    }
    show(end.stand, end.is);
    this.announcer.say(
      end.is === 'done' ? planSentence(plansByDrug(plan, areas, end.stand.rows)) : say('Stopped.'),
    );
  }

  private renderField(
    field: PlanField,
    start: PlanStart,
    faults: PlanRead['faults'],
  ): TemplateResult {
    const { label, unit, hint } = FIELD_WORDS[field];
    const typed = this.block.value?.choices?.[field];
    const fault = faults[field];
    const isTyped = typed !== undefined;
    const own = start.from[field] ?? '';
    // As long as what stood there: a field that is left must not move the button about to be pressed.
    const from = isTyped && own !== '' ? say('typed, for this plan alone') : own;
    const hints = [from, hint].filter((words) => words !== '').join('; ');
    return html`
      <div class="field">
        <label for=${field}>${label}${unit === '' ? '' : `, ${unit}`}</label>
        <span class="typed">
          <input
            id=${field}
            inputmode=${field === 'animals' || field === 'areas' ? 'text' : 'decimal'}
            autocomplete="off"
            .value=${typed ?? start.texts[field]}
            aria-invalid=${fault === undefined ? 'false' : 'true'}
            aria-describedby=${`${field}-hint`}
            @change=${(event: Event) => this.type(field, start, event)}
          />
          ${
            isTyped
              ? html`<button
                  type="button"
                  class="quiet back"
                  aria-label=${say('{label}: back to {value}', { label, value: start.texts[field] })}
                  title=${say('Back to {value}', { value: start.texts[field] })}
                  @click=${() => this.keep(field, null)}
                >
                  ${say('Back')}
                </button>`
              : nothing
          }
        </span>
        <span id=${`${field}-hint`}>
          ${fault === undefined ? nothing : html`<span class="fault">${fault}</span>`}
          <span class="hint">${hints}</span>
        </span>
      </div>
    `;
  }

  private renderAct(session: Session, start: PlanStart, read: PlanRead): TemplateResult {
    const { tried } = this;
    if (tried?.is === 'under way') {
      const { done, runs } = tried.stand;
      return html`<div class="act">
        <button type="button" @click=${() => this.worker.stop()}>${say('Stop')}</button>
        <progress aria-label=${say('Checks tried')} .value=${done} max=${runs}></progress>
        <span class="small soft">
          ${say('{done} of {all} checks tried', { done: figureText(done, 0, this.mark(session)), all: figureText(runs, 0, this.mark(session)) })}
        </span>
      </div>`;
    }
    const words = tried ? say('Try it out again') : say('Try it out');
    return html`<div class="act">
      <button
        type="button"
        class="main"
        ?disabled=${!read.plan}
        @click=${() => this.try(session, start)}
      >
        ${words}
      </button>
      ${read.plan ? nothing : html`<span class="small">${say('Mend what is marked above first.')}</span>`}
    </div>`;
  }

  private renderAnswer(session: Session, read: PlanRead): TemplateResult | typeof nothing {
    const { tried } = this;
    if (!tried || tried.stand.rows.length === 0) return nothing;
    const isOlder = JSON.stringify(tried.plan) !== JSON.stringify(read.plan);
    return html`
      ${isOlder ? html`<p class="fault">${say('These answers are for the numbers before: try it out again.')}</p>` : nothing}
      ${tried.is === 'stopped' ? html`<p>${say('Stopped: the lines that were complete stand below.')}</p>` : nothing}
      <sd-plan-answer
        class=${isOlder ? 'older' : ''}
        .plan=${tried.plan}
        .areas=${tried.areas}
        .rows=${tried.stand.rows}
        .isWhole=${tried.is === 'done'}
        .mark=${this.mark(session)}
      ></sd-plan-answer>
    `;
  }

  private renderMean(session: Session, start: PlanStart, read: PlanRead): TemplateResult {
    const { plan, areas, precision, faults } = read;
    return html`
      <h3>${say('How many animals for a mean')}</h3>
      <p class="small">
        ${say("The standard error of the mean, as a share of the mean: about two samplings in three come out nearer to the {herd, select, flock {flock's} mob {mob's} other {herd's}} own mean than that. From the mean, k and factor above.", { herd: herdWordOf(session.notebook) })}
      </p>
      <form @submit=${stay}>${this.renderField('precision', start, faults)}</form>
      ${plan && precision !== null ? meanTable(plan, areas, precision, this.mark(session)) : nothing}
    `;
  }

  protected override render(): TemplateResult {
    const { session } = this.block;
    // What is typed is held against the herd's own numbers: until they are known there is nothing to type in.
    if (!session || (this.herd.value === undefined && this.herd.error === undefined))
      return html`<p class="soft">${say('Working…')}</p>`;
    const start = this.start(session);
    const read = this.read(session, start);
    const field = (name: PlanField): TemplateResult => this.renderField(name, start, read.faults);
    return html`
      <p class="visually-hidden" role="status">${this.announcer.text}</p>
      <p class="small">
        ${say('Before a dewormer check: would it tell? Herds like this one are made up by chance, treated and counted again and again, and each check is judged as this notebook would judge it.')}
      </p>
      <form @submit=${stay}>${HERD_FIELDS.map(field)}${CHECK_FIELDS.map(field)}</form>
      <details class="more" ?open=${FURTHER_FIELDS.some((name) => read.faults[name] !== undefined)}>
        <summary>${say('Expected reduction, threshold, trials and seed')}</summary>
        <form @submit=${stay}>${FURTHER_FIELDS.map(field)}</form>
      </details>
      ${this.renderAct(session, start, read)}
      ${this.trouble === '' ? nothing : html`<p class="fault" role="alert">${this.trouble}</p>`}
      ${this.renderAnswer(session, read)} ${planNotes(read.plan, this.mark(session))}
      ${this.renderMean(session, start, read)}
    `;
  }
}

/** Enter in a field keeps what was typed; there is nothing to send. */
function stay(event: Event): void {
  event.preventDefault();
}

customElements.define('sd-plan-check', SdPlanCheck);

declare global {
  interface HTMLElementTagNameMap {
    'sd-plan-check': SdPlanCheck;
  }
}
