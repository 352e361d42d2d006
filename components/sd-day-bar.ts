import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { isFault } from '../shared/value.ts';
import { addDay, removeDay } from '../src/notebook/edit-days.ts';
import { dayOf, daysOf } from '../src/notebook/read.ts';
import { dayWords } from '../src/text/day-words.ts';
import { tell } from './page-message.ts';
import { servicesContext } from './services.ts';
import { formStyles } from './form-styles.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-menu.ts';
import './sd-sheet.ts';
import type { SdSheet } from './sd-sheet.ts';
import { askForWholeDate } from './whole-date.ts';
import { say } from '../src/text/say.ts';

/** The sampling days: opens another one, adds one (today unless said otherwise), takes one off. */
export class SdDayBar extends LitElement {
  static override properties = { fault: { state: true } };

  static override styles = [
    ...theme,
    formStyles,
    css`
      :host {
        display: block;
      }

      .bar {
        display: flex;
        align-items: center;
        gap: 6px;
        min-width: 0;
      }

      .days {
        position: relative;
        display: flex;
        gap: 2px;
        min-width: 0;
        overflow-x: auto;
        scrollbar-width: thin;
      }

      .days button {
        flex: none;
        min-height: 44px;
        padding-inline: 14px;
        border: 0;
        border-bottom: 3px solid transparent;
        border-radius: 0;
        background: none;
        color: var(--soft);
        white-space: nowrap;
      }

      .days button[aria-current] {
        border-bottom-color: var(--accent);
        color: var(--accent);
        font-weight: 650;
      }

      .days button:focus-visible {
        outline-offset: -3px;
      }

      .add {
        flex: none;
        min-height: 44px;
        color: var(--accent);
      }

      sd-menu {
        flex: none;
      }

      .fault {
        margin: 0;
      }

      .paper {
        display: none;
      }

      @media (max-width: 43.75em) {
        .word {
          position: absolute;
          width: 1px;
          height: 1px;
          overflow: hidden;
          clip-path: inset(50%);
          white-space: nowrap;
        }

        .add {
          min-width: 44px;
          font-size: 1.25rem;
        }
      }

      @media (forced-colors: active) {
        .days button {
          border-bottom-color: Canvas;
        }
      }

      @media print {
        .bar {
          display: none;
        }

        .paper {
          display: block;
          font-weight: 600;
        }
      }
    `,
  ];

  declare private fault: string;
  private readonly days = new Select(this, (session) => daysOf(session.notebook));
  private readonly openDay = new Select(this, (session) => session.openDay);
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.fault = '';
  }

  private get sheet(): SdSheet | null {
    return this.renderRoot.querySelector('sd-sheet');
  }

  private input(name: string): HTMLInputElement | null {
    return this.renderRoot.querySelector(`[name="${name}"]`);
  }

  /** Opens the form for a new day. */
  async add(): Promise<void> {
    this.fault = '';
    await this.updateComplete;
    const date = this.input('date');
    if (date && date.value === '' && !date.validity.badInput)
      date.value = this.services.value?.today() ?? '';
    await this.sheet?.open();
  }

  private async onSubmit(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const { session } = this.days;
    const date = this.input('date')?.value ?? '';
    const label = this.input('label')?.value ?? '';
    const by = this.input('by')?.value.trim() || undefined;
    if (!session?.mayWrite()) return;
    this.fault = askForWholeDate(this.renderRoot);
    if (this.fault !== '') return;
    const added = addDay(session.notebook, date, label, by);
    if (isFault(added)) {
      this.fault = added.sentence;
      return;
    }
    this.fault = '';
    for (const name of ['date', 'label']) {
      const input = this.input(name);
      if (input) input.value = '';
    }
    this.sheet?.close();
    await session.dispatch(added.edit);
    await session.open(added.id);
    const day = dayOf(session.notebook, added.id);
    if (day) tell(this, openSentence(dayWords(day), added.isBack));
  }

  private async open(id: string): Promise<void> {
    await this.days.session?.open(id);
  }

  private async takeOff(): Promise<void> {
    const { session } = this.days;
    if (!session || session.openDay === null) return;
    const id = session.openDay;
    const day = dayOf(session.notebook, id);
    if (!day || !session.mayWrite()) return;
    await session.dispatch(removeDay(session.notebook, id));
    tell(this, say('{day} is taken off, with its counts.', { day: dayWords(day) }), 'with undo');
  }

  protected override updated(): void {
    requestAnimationFrame(() => {
      const current = this.renderRoot.querySelector<HTMLElement>('.days [aria-current]');
      const days = this.renderRoot.querySelector('.days');
      if (current && days) days.scrollLeft = current.offsetLeft - days.clientWidth / 2;
    });
  }

  private renderDays(): TemplateResult {
    const days = this.days.value ?? [];
    const open = this.openDay.value;
    const year = days.at(-1)?.date.slice(0, 4);
    const shown = days.find(({ id }) => id === open);
    return html`
      <div class="paper">${shown ? dayWords(shown) : nothing}</div>
      <div class="bar">
        <nav class="days" aria-label=${say('Sampling days')}>
          ${days.map(
            (day) => html`
              <button
                aria-current=${day.id === open ? 'date' : nothing}
                @click=${() => this.open(day.id)}
              >
                ${dayWords(day, 'long', year)}
              </button>
            `,
          )}
        </nav>
        <button class="quiet add" @click=${this.add}>
          <span aria-hidden="true">+</span>
          <span class=${days.length === 0 ? '' : 'word'}>
            ${days.length === 0 ? say('Add the first sampling day') : say('Add a day')}
          </span>
        </button>
        ${
          shown
            ? html`<sd-menu
                label=${say('More about {title}', { title: dayWords(shown) })}
                .choices=${[
                  {
                    label: say('Take off {day}', { day: dayWords(shown, 'long', year) }),
                    run: () => this.takeOff(),
                  },
                ]}
              ></sd-menu>`
            : nothing
        }
      </div>
    `;
  }

  protected override render(): TemplateResult {
    return html`
      ${this.renderDays()}
      <sd-sheet heading=${say('Add a sampling day')}>
        <form @submit=${this.onSubmit} novalidate>
          <label class="field">${say('Date')} <input name="date" type="date" data-first /></label>
          <label class="field">
            ${say('Label')}
            <input name="label" autocomplete="off" />
            <span class="hint"
              >${say('Only for a second sampling on one date, like evening.')}</span
            >
          </label>
          <label class="field">${say('Counted by')} <input name="by" autocomplete="off" /></label>
          ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
          <div class="actions"><button class="main">${say('Add the day')}</button></div>
        </form>
      </sd-sheet>
    `;
  }
}

/** That a day added is open, and that it is one taken off before. */
function openSentence(day: string, isBack: boolean): string {
  return isBack
    ? say('{day} is back, with its counts, and open.', { day })
    : say('{day} is open.', { day });
}

customElements.define('sd-day-bar', SdDayBar);

declare global {
  interface HTMLElementTagNameMap {
    'sd-day-bar': SdDayBar;
  }
}
