import { ContextConsumer } from '@lit/context';
import { LitElement, html, nothing, type TemplateResult } from 'lit';
import { keyed } from 'lit/directives/keyed.js';
import type { Edit } from '../shared/edit.ts';
import type { Animal } from '../shared/notebook.ts';
import {
  leaveFarm,
  moveToGroup,
  removeAnimals,
  reorderAnimal,
} from '../src/notebook/edit-animals.ts';
import { groupOn } from '../src/notebook/present.ts';
import { animalsOf, dayOf } from '../src/notebook/read.ts';
import { dateWords } from '../src/text/date-words.ts';
import { isDate } from '../src/text/date.ts';
import { likeGroup, moveSentence, whoOf } from './move-words.ts';
import { leavingWarnings } from '../src/treating/clearance.ts';
import { animalListStyles } from './animal-list-styles.ts';
import { animalRow } from './animal-row.ts';
import { animalState } from './animal-state.ts';
import { groupField, groupNames } from './group-field.ts';
import { sayOfAnimals } from './said-of-animals.ts';
import { servicesContext } from './services.ts';
import { formStyles } from './form-styles.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-animal-form.ts';
import { askForWholeDate } from './whole-date.ts';
import { say } from '../src/text/say.ts';

/** More rows than this are found by typing a part of the tag. */
const mostShown = 200;

type Doing = 'move' | 'leave' | 'change' | null;

/**
 * Every animal of the notebook, those that left included. Tick one or many, then say what is to be
 * done: move to a group from a date on, leave, come back, change, put elsewhere in the order, remove.
 */
export class SdAnimalList extends LitElement {
  static override properties = {
    find: { state: true },
    chosen: { state: true },
    doing: { state: true },
    changing: { state: true },
    leaving: { state: true },
    likeness: { state: true },
    fault: { state: true },
  };

  static override styles = [...theme, formStyles, animalListStyles];

  declare private find: string;
  declare private chosen: ReadonlySet<string>;
  declare private doing: Doing;
  /** The animal whose form is open or was last; others may be ticked meanwhile. */
  declare private changing: string;
  /** The date typed for leaving, empty until it is changed. */
  declare private leaving: string;
  /** That the group typed reads like another one. */
  declare private likeness: string;
  declare private fault: string;
  private readonly animals = new Select(this, (session) => animalsOf(session.notebook));
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.find = '';
    this.chosen = new Set();
    this.doing = null;
    this.changing = this.leaving = this.likeness = this.fault = '';
    new Select(this, (session) => session.notebook.groups);
  }

  /** The date that "here" and "in group" are told for: the open day's, else today. */
  private get date(): string {
    const { session } = this.animals;
    const day = session?.openDay;
    const open = session && day ? dayOf(session.notebook, day)?.date : undefined;
    return open ?? this.services.value?.today() ?? '';
  }

  private get matching(): readonly Animal[] {
    const part = this.find.trim().toLowerCase();
    const all = this.animals.value ?? [];
    if (part === '') return all;
    return all.filter((animal) =>
      [animal.tag, animal.name, animal.electronic, this.groupOf(animal)].some((text) =>
        text?.toLowerCase().includes(part),
      ),
    );
  }

  private groupOf(animal: Animal): string | undefined {
    const { session } = this.animals;
    return session && groupOn(session.notebook, animal.id, this.date);
  }

  private get picked(): readonly Animal[] {
    return (this.animals.value ?? []).filter(({ id }) => this.chosen.has(id));
  }

  /** Ticks or unticks some, and leaves all others as they are. */
  private pick(ids: readonly string[], isPicked: boolean): void {
    const these = new Set(ids);
    const others = [...this.chosen].filter((id) => !these.has(id));
    this.chosen = new Set(isPicked ? [...others, ...ids] : others);
    this.fault = '';
  }

  private field(name: string): string {
    return this.renderRoot.querySelector<HTMLInputElement>(`[name="${name}"]`)?.value.trim() ?? '';
  }

  private async begin(doing: Doing): Promise<void> {
    this.fault = this.leaving = this.likeness = '';
    this.doing = this.doing === doing ? null : doing;
    this.changing = this.picked[0]?.id ?? '';
    await this.moveFocus('.doing input');
  }

  private async moveFocus(to: string): Promise<void> {
    await this.updateComplete;
    // What had the focus may be gone, or have nobody to be pressed for: on at the start of the list.
    const isKept = this.shadowRoot?.activeElement?.matches(':not(:disabled)');
    const start = isKept ? null : this.renderRoot.querySelector('input');
    (this.renderRoot.querySelector<HTMLElement>(to) ?? start)?.focus();
  }

  /** Does an edit and says so; false where this tab may not write. A form with what is typed into it stays. */
  private async finish(edit: Edit, sentence: string): Promise<boolean> {
    const { session } = this.animals;
    if (!session?.mayWrite()) return false;
    await session.dispatch(edit);
    sayOfAnimals(this, sentence);
    const isHere = animalsOf(session.notebook).some(({ id }) => id === this.changing);
    await (this.doing === 'change' && isHere ? this.moveFocus('.doing input') : this.begin(null));
    return true;
  }

  private async onKept(): Promise<void> {
    this.doing = null;
    await this.moveFocus('.change:enabled');
  }

  /** Those ticked, for a sentence about them: one by its tag, more by their number. */
  private get who(): { readonly n: number; readonly tag: string } {
    return whoOf(this.picked);
  }

  private checkDate(date: string): boolean {
    const noDay = say('"{date}" is not a day of the calendar. Type it like 2026-05-03.', { date });
    this.fault = askForWholeDate(this.renderRoot) || (isDate(date) ? '' : noDay);
    return this.fault === '';
  }

  private onGroup(): void {
    const { notebook } = this.animals.session ?? {};
    this.likeness = notebook ? likeGroup(notebook, this.field('group')) : '';
  }

  private async move(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const { session } = this.animals;
    const date = this.field('date');
    const group = this.field('group');
    if (!session || !this.checkDate(date)) return;
    const ids = this.picked.map(({ id }) => id);
    const said = moveSentence(session.notebook, ids, group, date);
    await this.finish(moveToGroup(session.notebook, ids, group, date), said);
  }

  private async leave(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const { session } = this.animals;
    const date = this.field('date');
    if (!session || !this.checkDate(date)) return;
    const ids = this.picked.map(({ id }) => id);
    const said = say('{n, plural, one {{tag}} other {# animals}} no longer here from {date} on.', {
      ...this.who,
      date: dateWords(date),
    });
    await this.finish(leaveFarm(session.notebook, ids, date, this.field('why')), said);
  }

  private async comeBack(): Promise<void> {
    const { session } = this.animals;
    if (!session) return;
    const gone = this.picked.filter(({ left }) => left !== undefined);
    const ids = gone.map(({ id }) => id);
    const said = say('{n, plural, one {{tag}} other {# animals}} here again.', whoOf(gone));
    if (gone.length === 0) sayOfAnimals(this, say('None of the animals ticked had left the farm.'));
    else await this.finish(leaveFarm(session.notebook, ids, null, ''), said);
  }

  private async takeOff(): Promise<void> {
    const { session } = this.animals;
    if (!session) return;
    const ids = this.picked.map(({ id }) => id);
    const said = say(
      '{n, plural, one {{tag} removed. Undo brings it back, with its counts.} other {# animals removed. Undo brings them back, with their counts.}}',
      this.who,
    );
    if (await this.finish(removeAnimals(session.notebook, ids), said)) this.pick(ids, false);
  }

  private async place(by: -1 | 1): Promise<void> {
    const { session, value: all = [] } = this.animals;
    const [animal] = this.picked;
    if (!session || !animal) return;
    const at = all.findIndex(({ id }) => id === animal.id);
    const before = all[by < 0 ? at - 1 : at + 2];
    if ((by < 0 && !before) || at + by >= all.length) return;
    await session.dispatch(reorderAnimal(session.notebook, animal.id, before?.id ?? null));
    await this.updateComplete;
    this.renderRoot
      .querySelector(`[data-id="${CSS.escape(animal.id)}"]`)
      ?.scrollIntoView({ block: 'nearest' });
  }

  private renderRow(animal: Animal): TemplateResult {
    const state = animalState(animal, this.groupOf(animal), this.date);
    const tick = (isTicked: boolean): void => this.pick([animal.id], isTicked);
    return animalRow(animal, state, this.chosen.has(animal.id), tick);
  }

  private renderTools(): TemplateResult {
    const { picked } = this;
    const none = picked.length === 0;
    const isOne = picked.length === 1;
    const opens = (doing: Doing): 'true' | 'false' => (this.doing === doing ? 'true' : 'false');
    return html`
      <p class="small" aria-live="polite">
        ${none ? say('Tick the animals first.') : say('{n, plural, one {{tag}} other {# animals}} ticked.', this.who)}
      </p>
      <div class="tools">
        <button ?disabled=${none} aria-expanded=${opens('move')} @click=${() => this.begin('move')}>
          ${say('Move to a group')}
        </button>
        <button
          class="change"
          ?disabled=${!isOne && this.doing !== 'change'}
          aria-expanded=${opens('change')}
          @click=${() => this.begin('change')}
        >
          ${say('Change')}
        </button>
        <button ?disabled=${!isOne} @click=${() => this.place(-1)}>${say('Move up')}</button>
        <button ?disabled=${!isOne} @click=${() => this.place(1)}>${say('Move down')}</button>
        <button
          ?disabled=${none}
          aria-expanded=${opens('leave')}
          @click=${() => this.begin('leave')}
        >
          ${say('Left the farm')}
        </button>
        <button ?disabled=${none} @click=${this.comeBack}>${say('Came back')}</button>
        <button ?disabled=${none} @click=${this.takeOff}>${say('Remove')}</button>
      </div>
    `;
  }

  private renderForm(): TemplateResult | typeof nothing {
    const animal = this.animals.value?.find(({ id }) => id === this.changing);
    if (!animal) return nothing;
    const form = html`<sd-animal-form
      .animalId=${animal.id}
      @animal-kept=${this.onKept}
    ></sd-animal-form>`;
    return html`<div class="doing">
      <b>${say('Change {name}', { name: animal.tag })}</b> ${keyed(animal.id, form)}
    </div>`;
  }

  private renderDoing(): TemplateResult | typeof nothing {
    if (this.doing === 'change') return this.renderForm();
    if (this.doing === null || this.picked.length === 0) return nothing;
    const fault = this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing;
    const dated = html`<label class="field">
      ${this.doing === 'move' ? say('From this date on') : say('First day no longer here')}
      <input
        name="date"
        type="date"
        value=${this.date}
        @change=${(event: Event) => {
          this.leaving = (event.target as HTMLInputElement).value;
        }}
      />
    </label>`;
    if (this.doing === 'move')
      return html`<form class="doing" @submit=${this.move} novalidate>
        <div class="row">
          ${groupField({
            label: say('Group'),
            likeness: this.likeness,
            hint: say('Empty: in no group.'),
            list: 'groups',
            onInput: () => this.onGroup(),
          })}
          ${dated}
        </div>
        ${groupNames(
          'groups',
          (this.animals.value ?? []).map((one) => this.groupOf(one)),
        )}
        ${fault}
        <div class="actions">
          <button class="main">
            ${say('Move {n, plural, one {{tag}} other {# animals}}', this.who)}
          </button>
        </div>
      </form>`;
    return html`<form class="doing" @submit=${this.leave} novalidate>
      <div class="row">
        ${dated}
        <label class="field">
          ${say('Why')}
          <input name="why" autocomplete="off" placeholder=${say('sold, died, moved away')} />
        </label>
      </div>
      ${this.renderWarnings()} ${fault}
      <div class="actions">
        <button class="main">
          ${say('{n, plural, one {{tag}} other {# animals}} left', this.who)}
        </button>
      </div>
    </form>`;
  }

  /** What is not clear of those about to leave; it warns and never forbids. */
  private renderWarnings(): TemplateResult | typeof nothing {
    const { session } = this.animals;
    if (!session) return nothing;
    const ids = this.picked.map(({ id }) => id);
    const warnings = leavingWarnings(session.notebook, ids, this.leaving || this.date);
    const said = warnings.map((words) => html`<p>${words}</p>`);
    return said.length === 0 ? nothing : html`<div class="fault" role="status">${said}</div>`;
  }

  protected override render(): TemplateResult {
    const { matching } = this;
    const shown = matching.slice(0, mostShown);
    const isAll = matching.length > 0 && matching.every(({ id }) => this.chosen.has(id));
    if (this.animals.value?.length === 0)
      return html`<p class="soft">
        ${say('No animals yet. Add them under "Add many" or "Add one".')}
      </p>`;
    return html`
      <label class="field">
        ${say('Find by part of the tag, name or group')}
        <input
          class="find"
          type="search"
          autocomplete="off"
          .value=${this.find}
          @input=${(event: Event) => {
            this.find = (event.target as HTMLInputElement).value;
          }}
        />
      </label>
      <label class="all">
        <input
          type="checkbox"
          .checked=${isAll}
          @change=${(event: Event) =>
            this.pick(
              matching.map(({ id }) => id),
              (event.target as HTMLInputElement).checked,
            )}
        />
        ${this.find.trim() === '' ? say('All ({n})', { n: matching.length }) : say('All found ({n})', { n: matching.length })}
      </label>
      <ul aria-label=${say('Animals')}>
        ${shown.map((animal) => this.renderRow(animal))}
      </ul>
      ${
        matching.length > shown.length
          ? html`<p class="small soft">
              ${say('{n, plural, one {# more: type a part of the tag to find it.} other {# more: type a part of the tag to find them.}}', { n: matching.length - shown.length })}
            </p>`
          : nothing
      }
      ${this.renderTools()} ${this.renderDoing()}
    `;
  }
}

customElements.define('sd-animal-list', SdAnimalList);

declare global {
  interface HTMLElementTagNameMap {
    'sd-animal-list': SdAnimalList;
  }
}
