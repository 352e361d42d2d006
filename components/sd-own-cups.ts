import { ContextConsumer } from '@lit/context';
import { LitElement, html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import type { Edit } from '../shared/edit.ts';
import type { Column, Cup } from '../shared/notebook.ts';
import { isFault, type Fault } from '../shared/value.ts';
import { removeRecord } from '../src/notebook/edit-records.ts';
import { addCup, giveCup, nameCup, ownCups } from '../src/notebook/own-cups.ts';
import { readingOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { parseReading } from '../src/text/parse-reading.ts';
import { say } from '../src/text/say.ts';
import { animalsNamed } from '../src/treating/animals-named.ts';
import { typingOf } from './grid-edits.ts';
import { cupColumns, cupTags, cupWords } from './own-cup-words.ts';
import { ownCupsStyles } from './own-cups-styles.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';

/**
 * The open day's cups that are in no animal's row: counted before it is known whose they are, or with dung of
 * several animals. Each is counted here, given to an animal later, or kept as it is.
 */
export class SdOwnCups extends LitElement {
  static override properties = { faults: { state: true }, typed: { state: true } };

  static override styles = [...theme, ownCupsStyles];

  /** What is wrong, by the cup's id; of the one being added by its day. */
  declare private faults: ReadonlyMap<string, string>;
  /** What was typed and stands nowhere yet: whose a cup is, by its id; the one being added, by day and field. */
  declare private typed: ReadonlyMap<string, string>;
  private notices = 0;
  private readonly seen = new Select(this, () => (this.notices += 1), {
    when: ({ isWide, transaction }, { openDay, notebook }) =>
      isWide || touchesCup(transaction?.changes, openDay, Object.keys(notebook.cups)),
  });
  private readonly services = new ContextConsumer(this, { context: servicesContext });

  constructor() {
    super();
    this.faults = new Map();
    this.typed = new Map();
  }

  /** Holds what was typed until it stands in the notebook; undefined when it does. */
  private hold(at: string, text: string | undefined): void {
    const typed = new Map(this.typed);
    if (text === undefined) typed.delete(at);
    else typed.set(at, text);
    this.typed = typed;
  }

  private wrong(at: string, sentence: string): void {
    this.faults = new Map([...this.faults, [at, sentence]]);
  }

  /** Does an edit, or says beside the cup why it cannot be done. */
  private async do(at: string, edit: Edit | Fault): Promise<boolean> {
    const faults = new Map(this.faults);
    faults.delete(at);
    this.faults = faults;
    if (isFault(edit)) {
      this.wrong(at, edit.sentence);
      return false;
    }
    const { session } = this.seen;
    if (!session?.mayWrite()) return false;
    await session.dispatch(edit);
    return true;
  }

  /** Takes a cup out of the list, and the focus to the next one or to where one is added: what had it is gone. */
  private async leave(event: Event, id: string, edit: Edit | Fault): Promise<void> {
    const { currentTarget } = event;
    const line = currentTarget instanceof Element ? currentTarget.closest('li') : null;
    const next = line?.nextElementSibling?.querySelector('input');
    if (!(await this.do(id, edit))) return;
    await this.updateComplete;
    const add = this.renderRoot.querySelector<HTMLElement>("[name='number']");
    (next?.isConnected ? next : add)?.focus();
  }

  private async add(event: SubmitEvent, session: Session): Promise<void> {
    event.preventDefault();
    const form = event.currentTarget;
    const { openDay, notebook } = session;
    const id = this.services.value?.newId();
    if (!(form instanceof HTMLFormElement) || openDay === null || id === undefined) return;
    const text = (name: string): string =>
      form.querySelector<HTMLInputElement>(`[name='${name}']`)?.value.trim() ?? '';
    const { animals, sentence } = animalsNamed(notebook, text('whose'));
    if (sentence !== '') {
      this.wrong(adding(openDay), sentence);
      return;
    }
    const number = /^\d+$/.test(text('number')) ? Number(text('number')) : NaN;
    const edit = addCup(notebook, openDay, number, animals, id);
    if (isFault(edit)) {
      this.wrong(adding(openDay), edit.sentence);
      return;
    }
    if (!session.mayWrite()) return;
    // Before the wait: what is typed during it is of the next cup.
    form.reset();
    for (const name of ['number', 'whose']) this.hold(adding(openDay, name), undefined);
    await this.do(adding(openDay), edit);
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>(`[data-cup='${number}'] input`)?.focus();
  }

  private type(session: Session, cup: Cup, column: Column, text: string): void {
    const { day = '', id, number } = cup;
    const reading = parseReading(column, text, typingOf(session.notebook));
    void this.do(id, {
      label: say('{column} of cup {number}', { column: column.label ?? column.key, number }),
      source: 'typed',
      sets: [{ path: ['readings', day, id, column.id], value: reading }],
    });
    if (reading?.kind === 'fault') this.wrong(id, reading.reason);
  }

  private async name(session: Session, cup: Cup, text: string): Promise<void> {
    const { animals, sentence } = animalsNamed(session.notebook, text);
    this.hold(cup.id, text);
    if (sentence !== '') this.wrong(cup.id, sentence);
    else if ((await this.do(cup.id, nameCup(cup, animals))) && this.typed.get(cup.id) === text)
      this.hold(cup.id, undefined);
  }

  private renderCount(session: Session, cup: Cup, column: Column): TemplateResult {
    const { day = '', id, number } = cup;
    const label = column.label ?? column.key;
    return html`<label>
      ${label}
      <input
        inputmode=${column.kind === 'count' ? 'numeric' : 'text'}
        autocomplete="off"
        aria-label=${say('{column} of cup {number}', { column: label, number })}
        data-day=${day}
        data-column=${column.key}
        .value=${readingOf(session.notebook, day, id, column.id)?.text ?? ''}
        @change=${(event: Event) => {
          const { target } = event;
          if (target instanceof HTMLInputElement) this.type(session, cup, column, target.value);
        }}
      />
    </label>`;
  }

  private renderCup(session: Session, cup: Cup): TemplateResult {
    const { notebook } = session;
    const { id, number } = cup;
    const wrong = this.faults.get(id);
    return html`<li data-cup=${number ?? ''}>
      <b>${say('cup {number}', { number })}</b>
      ${cupColumns(notebook).map((column) => this.renderCount(session, cup, column))}
      <label>
        ${say('whose: tags, or nothing yet')}
        <input
          class="whose"
          autocomplete="off"
          aria-label=${say('whose dung cup {number} holds: tags, or nothing yet', { number })}
          .value=${this.typed.get(id) ?? cupTags(notebook, cup)}
          @change=${(event: Event) => {
            const { target } = event;
            if (target instanceof HTMLInputElement) void this.name(session, cup, target.value);
          }}
        />
      </label>
      ${
        cup.animalIds?.length === 1
          ? html`<button
              class="give"
              @click=${(event: Event) => this.leave(event, id, giveCup(notebook, cup))}
            >
              ${say('Into the row of {tag}', { tag: cupTags(notebook, cup) })}
            </button>`
          : nothing
      }
      <button
        class="quiet"
        aria-label=${say('Take cup {number} out of the list', { number })}
        @click=${(event: Event) =>
          this.leave(
            event,
            id,
            removeRecord('cups', id, say('taking cup {number} out', { number })),
          )}
      >
        ${say('Take out')}
      </button>
      <p class="comes">${cupWords(notebook, cup)}</p>
      ${wrong === undefined ? nothing : html`<p class="fault" role="alert">${wrong}</p>`}
    </li>`;
  }

  private renderAdd(session: Session, day: string): TemplateResult {
    const wrong = this.faults.get(adding(day));
    const text = (name: string): string => this.typed.get(adding(day, name)) ?? '';
    return html`<form
      @submit=${(event: SubmitEvent) => this.add(event, session)}
      @input=${({ target }: Event) => {
        if (target instanceof HTMLInputElement) this.hold(adding(day, target.name), target.value);
      }}
    >
      <label>
        ${say('number on the cup')}
        <input name="number" inputmode="numeric" autocomplete="off" .value=${text('number')} />
      </label>
      <label>
        ${say('whose: tags, or nothing yet')}
        <input class="whose" name="whose" autocomplete="off" .value=${text('whose')} />
      </label>
      <button>${say('Add a cup')}</button>
      ${wrong === undefined ? nothing : html`<p class="fault" role="alert">${wrong}</p>`}
    </form>`;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { session } = this.seen;
    const day = session?.openDay ?? null;
    if (!session || day === null) return nothing;
    const cups = ownCups(session.notebook, day);
    return html`<details>
      <summary>
        ${say('Cups in no animal’s row{n, plural, =0 {} other { (#)}}', { n: cups.length })}
      </summary>
      <div class="inside">
        <p class="small soft">
          ${say('For a cup counted before you know whose it is, or with dung of several animals. Its count is in no figure until it goes into an animal’s row; a mixed one never does.')}
        </p>
        <ul aria-label=${say('Cups of their own')}>
          ${repeat(
            cups,
            ({ id }) => id,
            (cup) => this.renderCup(session, cup),
          )}
        </ul>
        ${this.renderAdd(session, day)}
      </div>
    </details>`;
  }
}

/** Where the cup being added on a day, or one of its fields, is held: no cup has such an id. */
function adding(day: string, field = ''): string {
  return `add ${day} ${field}`;
}

/** Whether one of the open day's cups was typed in. */
function touchesCup(
  changes: readonly { readonly path: readonly string[] }[] | undefined,
  day: string | null,
  cups: readonly string[],
): boolean {
  return (changes ?? []).some(
    ({ path: [table, on, row] }) =>
      table === 'readings' && on === day && row !== undefined && cups.includes(row),
  );
}

customElements.define('sd-own-cups', SdOwnCups);

declare global {
  interface HTMLElementTagNameMap {
    'sd-own-cups': SdOwnCups;
  }
}
