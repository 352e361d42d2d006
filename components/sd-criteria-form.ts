import { ContextConsumer } from '@lit/context';
import { LitElement, html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import type { AnimalClass, Species } from '../shared/notebook.ts';
import { changeDayCopy, type Reach } from '../src/notebook/edit-days.ts';
import { dayOf, defaultsOf } from '../src/notebook/read.ts';
import { READY_SETS } from '../src/treating/ready-criteria.ts';
import { animalWord, classes } from './animal-words.ts';
import { criteriaFormStyles } from './criteria-form-styles.ts';
import {
  criteriaOf,
  draftFault,
  draftsOf,
  readyDrafts,
  type CriterionDraft,
} from './criterion-draft.ts';
import { notKept } from './not-kept.ts';
import { reachField } from './reach-field.ts';
import { reachWords } from './reach-words.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { sayOfSettings } from './settings-said.ts';
import { formStyles } from './form-styles.ts';
import { theme } from './theme.ts';
import './sd-formula-field.ts';
import type { FormulaChange } from './sd-formula-field.ts';
import { say } from '../src/text/say.ts';

/** What is under way with the reasons of one day, and not yet kept. */
interface Work {
  /** The list as it was changed; undefined while nothing is. */
  readonly drafts: readonly CriterionDraft[] | undefined;
  /** The reason that is open to be changed. */
  readonly editing: string;
  readonly fault: string;
}

const nothingDone: Work = { drafts: undefined, editing: '', fault: '' };

/**
 * The reasons to treat, most dangerous first: each in words, with its condition, the animals it is
 * about, and whether an animal for which it is not known stays undecided. Nothing holds until kept.
 */
export class SdCriteriaForm extends LitElement {
  static override properties = {
    works: { state: true },
    reach: { state: true },
  };

  static override styles = [...theme, formStyles, criteriaFormStyles];

  /** What is being changed and not yet kept, by day: what is changed for one is not shown for another. */
  declare private works: Readonly<Record<string, Work>>;
  declare private reach: Reach;
  private readonly criteria = new Select(this, (session) =>
    session.openDay === null
      ? defaultsOf(session.notebook).criteria
      : dayOf(session.notebook, session.openDay)?.criteria,
  );
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.works = {};
    this.reach = 'from this day on';
    new Select(this, (session) => session.openDay);
  }

  /** The next change reaches from its day on again, whatever was chosen for the one before. */
  forgetReach(): void {
    this.reach = 'from this day on';
  }

  private get work(): Work {
    return this.works[this.criteria.session?.openDay ?? ''] ?? nothingDone;
  }

  private hold(facts: Partial<Work>): void {
    const day = this.criteria.session?.openDay ?? '';
    this.works = { ...this.works, [day]: { ...this.work, ...facts } };
  }

  private get list(): readonly CriterionDraft[] {
    const { session, value = [] } = this.criteria;
    return this.work.drafts ?? (session ? draftsOf(session.notebook, value) : []);
  }

  private change(id: string, facts: Partial<CriterionDraft>): void {
    const drafts = this.list.map((one) => (one.id === id ? { ...one, ...facts } : one));
    this.hold({ drafts, fault: '' });
  }

  /** Moves a reason, and the focus with it; at an end, where its button does nothing more, to the other one. */
  private async move(at: number, by: -1 | 1): Promise<void> {
    const list = [...this.list];
    const [one] = list.splice(at, 1);
    if (!one) return;
    list.splice(at + by, 0, one);
    this.hold({ drafts: list });
    await this.updateComplete;
    const [up, down] = this.lineOf(one.id)?.querySelectorAll<HTMLButtonElement>('.icon') ?? [];
    const [same, other] = by === -1 ? [up, down] : [down, up];
    (same?.disabled ? other : same)?.focus();
  }

  private lineOf(id: string): HTMLElement | null {
    return this.renderRoot.querySelector(`[data-reason="${CSS.escape(id)}"]`);
  }

  private add(): void {
    const id = this.services.value?.newId();
    if (id === undefined) return;
    const blank: CriterionDraft = {
      id,
      reason: '',
      shown: '',
      species: '',
      classes: [],
      mustBeKnown: false,
      saidBy: '',
      confirmed: true,
    };
    this.hold({ drafts: [...this.list, blank], editing: id });
  }

  /** Puts a ready set in place of the list; nothing holds until it is kept. */
  private startFrom(id: string): void {
    const { session } = this.criteria;
    const newId = this.services.value?.newId;
    const set = READY_SETS.find((one) => one.id === id);
    if (!session || !newId || !set) return;
    const { drafts, leftOut } = readyDrafts(session.engine, set, newId);
    this.hold({ drafts, editing: '', fault: '' });
    const facts = { n: drafts.length, set: set.name, about: set.about };
    sayOfSettings(
      this,
      leftOut.length === 0
        ? say(
            '{n, plural, one {# reason} other {# reasons}} of "{set}" to go through with your vet. {about} Nothing holds until you keep them.',
            facts,
          )
        : say(
            '{n, plural, one {# reason} other {# reasons}} of "{set}" to go through with your vet. {about} Left out, since this notebook has no such column: {reasons}. Nothing holds until you keep them.',
            { ...facts, reasons: leftOut.join(', ') },
          ),
    );
  }

  private renderReady(): TemplateResult {
    return html`
      <div class="row">
        <label class="field">
          ${say('A ready set')}
          <select class="ready">
            ${READY_SETS.map(({ id, name }) => html`<option value=${id}>${name}</option>`)}
          </select>
          <span class="hint"
            >${say('Examples, to be set with your vet. Your limits stay as they are.')}</span
          >
        </label>
        <div class="field">
          <span>${say('in place of the list below')}</span>
          <button
            @click=${() =>
              this.startFrom(
                this.renderRoot.querySelector<HTMLSelectElement>('.ready')?.value ?? '',
              )}
          >
            ${say('Start from a ready set')}
          </button>
        </div>
      </div>
    `;
  }

  /** Takes a reason off the list, and the focus to the next one or to where one is added: what had it is gone. */
  private async takeOff(id: string): Promise<void> {
    const { list } = this;
    const next = list[list.findIndex((one) => one.id === id) + 1];
    this.hold({ drafts: list.filter((one) => one.id !== id) });
    await this.updateComplete;
    const line = next && this.lineOf(next.id)?.querySelector('button');
    (line ?? this.renderRoot.querySelector<HTMLElement>('.add'))?.focus();
  }

  private async keep(): Promise<void> {
    const { session } = this.criteria;
    if (!session?.mayWrite()) return;
    for (const draft of this.list) {
      const wrong = draftFault(session.engine, draft);
      if (wrong === null) continue;
      const reason = draft.reason || say('New reason');
      const fault = say('"{reason}": {sentence}', { reason, sentence: wrong });
      this.hold({ editing: draft.id, fault });
      return;
    }
    const criteria = criteriaOf(
      session.notebook,
      this.list.map((draft) => ({ ...draft, confirmed: true })),
    );
    const edit = changeDayCopy(session.notebook, session.openDay ?? '', { criteria }, this.reach);
    // Before the wait: what is typed during it, or on a day opened meanwhile, is not of this change.
    this.hold(nothingDone);
    await session.dispatch({
      ...edit,
      label: say('the criteria, {reach}', { reach: reachWords[this.reach] }),
    });
    sayOfSettings(this, say('The criteria are kept, and yours.'));
  }

  private renderEditor(draft: CriterionDraft): TemplateResult {
    const text = (event: Event): string => (event.target as HTMLInputElement).value;
    return html`
      <div class="edit">
        <label class="field">
          ${say('Reason, in words')}
          <input
            autocomplete="off"
            .value=${draft.reason}
            @input=${(event: Event) => this.change(draft.id, { reason: text(event) })}
          />
        </label>
        ${
          draft.ready
            ? html`<p class="small soft">
                ${say('Holds where a cup has "too many", whatever the limit. It has no condition of its own.')}
              </p>`
            : html`<sd-formula-field
                label=${say('Condition')}
                place="criterion"
                .value=${draft.shown}
                @sd-formula-change=${(event: CustomEvent<FormulaChange>) =>
                  this.change(draft.id, { shown: event.detail.value })}
              ></sd-formula-field>`
        }
        <div class="row">
          <label class="field">
            ${say('About')}
            <select
              @change=${(event: Event) =>
                this.change(draft.id, { species: text(event) as Species | '' })}
            >
              ${(['', 'sheep', 'goat'] as const).map(
                (species) =>
                  html`<option value=${species} .selected=${species === draft.species}>
                    ${species === '' ? say('sheep and goats') : animalWord(species)}
                  </option>`,
              )}
            </select>
          </label>
          <label class="field">
            ${say('Who said so')}
            <input
              autocomplete="off"
              .value=${draft.saidBy}
              @input=${(event: Event) => this.change(draft.id, { saidBy: text(event) })}
            />
          </label>
        </div>
        <fieldset>
          <legend>${say('Only these classes; none ticked means all')}</legend>
          ${classes.map((kind) => this.renderClass(draft, kind))}
        </fieldset>
        <label class="tick">
          <input
            type="checkbox"
            .checked=${draft.mustBeKnown}
            @change=${(event: Event) =>
              this.change(draft.id, { mustBeKnown: (event.target as HTMLInputElement).checked })}
          />
          ${say('Must be known: without it an animal is "not enough known"')}
        </label>
      </div>
    `;
  }

  private renderClass(draft: CriterionDraft, kind: AnimalClass): TemplateResult {
    return html`
      <label class="tick">
        <input
          type="checkbox"
          .checked=${draft.classes.includes(kind)}
          @change=${(event: Event) => {
            const isTicked = (event.target as HTMLInputElement).checked;
            const others = draft.classes.filter((other) => other !== kind);
            this.change(draft.id, { classes: isTicked ? [...others, kind] : others });
          }}
        />
        ${animalWord(kind)}
      </label>
    `;
  }

  private renderOne(draft: CriterionDraft, at: number, all: number): TemplateResult {
    const isEditing = draft.id === this.work.editing;
    const name = draft.reason || say('new reason');
    const about = [
      draft.ready ? '' : draft.shown,
      animalWord(draft.species),
      draft.classes.map(animalWord).join(', '),
      draft.mustBeKnown ? say('must be known') : '',
    ];
    return html`
      <div class="one" data-reason=${draft.id}>
        <div class="head">
          <span class="words">
            ${at + 1}. <b>${name}</b><br />
            <span class="small soft">${about.filter(Boolean).join(' · ')}</span>
          </span>
          ${draft.confirmed ? nothing : html`<span class="chip open">${say('example, not yet yours')}</span>`}
          <button
            aria-expanded=${isEditing ? 'true' : 'false'}
            aria-label=${say('Change {name}', { name })}
            @click=${() => this.hold({ editing: isEditing ? '' : draft.id })}
          >
            ${say('Change')}
          </button>
          <button
            class="icon"
            aria-label=${say('Move {name} up', { name })}
            ?disabled=${at === 0}
            @click=${() => this.move(at, -1)}
          >
            <span aria-hidden="true">↑</span>
          </button>
          <button
            class="icon"
            aria-label=${say('Move {name} down', { name })}
            ?disabled=${at === all - 1}
            @click=${() => this.move(at, 1)}
          >
            <span aria-hidden="true">↓</span>
          </button>
          <button
            aria-label=${say('Remove {name}', { name })}
            @click=${() => this.takeOff(draft.id)}
          >
            ${say('Remove')}
          </button>
        </div>
        ${isEditing ? this.renderEditor(draft) : nothing}
      </div>
    `;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { session } = this.criteria;
    if (!session) return nothing;
    const { list, work } = this;
    return html`
      <div class="form">
        <p class="soft">
          ${say('Any reason that holds puts an animal on the list. The first is the most dangerous.')}
        </p>
        ${this.renderReady()}
        <div>
          ${repeat(
            list,
            ({ id }) => id,
            (draft, at) => this.renderOne(draft, at, list.length),
          )}
        </div>
        <div><button class="add" @click=${this.add}>${say('Add a reason')}</button></div>
        ${reachField(session, this.reach, (reach) => {
          this.reach = reach;
        })}
        ${work.fault ? html`<p class="fault" role="alert">${work.fault}</p>` : nothing}
        <div class="actions">
          ${notKept(work.drafts !== undefined, () => this.hold({ drafts: undefined, fault: '' }))}
          <button class="main" @click=${this.keep}>${say('Keep these as mine')}</button>
        </div>
      </div>
    `;
  }
}

customElements.define('sd-criteria-form', SdCriteriaForm);

declare global {
  interface HTMLElementTagNameMap {
    'sd-criteria-form': SdCriteriaForm;
  }
}
