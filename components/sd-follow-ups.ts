import { ContextConsumer } from '@lit/context';
import { LitElement, html, nothing, type TemplateResult } from 'lit';
import { isFault } from '../shared/value.ts';
import { changeBlock } from '../src/notebook/edit-records.ts';
import { aboutOf, blocksOf } from '../src/notebook/read.ts';
import { calendarFile } from '../src/treating/calendar.ts';
import {
  followUpEntries,
  followUps,
  followUpSentence,
  RECHECK_DAYS,
} from '../src/treating/follow-up.ts';
import { downloadText } from './download.ts';
import { logStyles } from './log-styles.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/**
 * What follows the treatments of the log from today on: looking at the animals again, and second samples. On
 * the page, on paper, and as a calendar file. The days until looking again are kept with the block.
 */
export class SdFollowUps extends LitElement {
  static override properties = { blockId: { type: String }, fault: { state: true } };

  static override styles = [...theme, logStyles];

  declare blockId: string;
  declare private fault: string;
  private readonly block = new Select(this, (session) =>
    blocksOf(session.notebook).find(({ id }) => id === this.blockId),
  );
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.blockId = '';
    this.fault = '';
    new Select(this, (session) => session.notebook.treatments);
    new Select(this, (session) => session.notebook.products);
  }

  private get days(): number {
    const kept = Number(this.block.value?.choices?.['recheck'] ?? RECHECK_DAYS);
    return Number.isInteger(kept) && kept >= 1 ? kept : RECHECK_DAYS;
  }

  private async keepDays(event: Event): Promise<void> {
    const { session, value: block } = this.block;
    const text = (event.target as HTMLInputElement).value.trim();
    if (!/^\d{1,2}$/.test(text) || Number(text) < 1) {
      this.fault = say('"{text}" is not a number of days from 1 to 99.', { text });
      return;
    }
    this.fault = '';
    if (!session || !block) return;
    const choices = { ...block.choices, recheck: text };
    await session.dispatch(changeBlock(block.id, { choices }, say('the days until looking again')));
  }

  private save(): void {
    const { session } = this.block;
    const services = this.services.value;
    if (!session || !services) return;
    const { notebook } = session;
    const list = followUps(notebook, services.today(), this.days);
    const made = `${new Date(services.now()).toISOString().slice(0, 19).replace(/[-:]/g, '')}Z`;
    const file = calendarFile(followUpEntries(notebook, list), made);
    if (isFault(file)) {
      this.fault = file.sentence;
      return;
    }
    const title = aboutOf(notebook).title ?? say('notebook');
    downloadText(say('{title} dates.ics', { title }), file, 'text/calendar');
  }

  protected override render(): TemplateResult | typeof nothing {
    const { session } = this.block;
    const services = this.services.value;
    if (!session || !services) return nothing;
    const list = followUps(session.notebook, services.today(), this.days);
    return html`
      <h3>${say('What follows')}</h3>
      ${
        list.length === 0
          ? html`<p class="small soft">${say('Nothing from today on.')}</p>`
          : html`<ul aria-label=${say('Dates to come')}>
              ${list.map((one) => html`<li class="small">${followUpSentence(one)}</li>`)}
            </ul>`
      }
      <div class="tools">
        <label class="field">
          ${say('Look again after, days')}
          <input
            inputmode="numeric"
            autocomplete="off"
            .value=${String(this.days)}
            @change=${this.keepDays}
          />
          <span class="hint">${say('7 to 10 from memory: check with your vet')}</span>
        </label>
        <button ?disabled=${list.length === 0} @click=${this.save}>
          ${say('Save the dates as a calendar file')}
        </button>
      </div>
      ${this.fault ? html`<p class="fault small" role="alert">${this.fault}</p>` : nothing}
    `;
  }
}

customElements.define('sd-follow-ups', SdFollowUps);

declare global {
  interface HTMLElementTagNameMap {
    'sd-follow-ups': SdFollowUps;
  }
}
