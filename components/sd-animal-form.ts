import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Edit, SetTo } from '../shared/edit.ts';
import type { AnimalFacts } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { addAnimals, changeAnimal } from '../src/notebook/edit-animals.ts';
import { animalOf, animalsOf } from '../src/notebook/read.ts';
import { isDate } from '../src/text/date.ts';
import { likeTag } from '../src/text/tag.ts';
import { allSpecies, animalWord, classes, stages } from './animal-words.ts';
import { firstDate, usualArrival } from './arrival.ts';
import { groupField } from './group-field.ts';
import { likeGroup } from './move-words.ts';
import { sayOfAnimals } from './said-of-animals.ts';
import { servicesContext } from './services.ts';
import { formStyles } from './form-styles.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import { askForWholeDate } from './whole-date.ts';
import { say } from '../src/text/say.ts';

const fieldNames = [
  'tag',
  'name',
  'species',
  'class',
  'stage',
  'born',
  'arrived',
  'electronic',
] as const;

/** Adds one animal, or changes the one named by `animalId`. Fires `animal-kept` when it is done. */
export class SdAnimalForm extends LitElement {
  static override properties = {
    animalId: { type: String },
    fault: { state: true },
    likeness: { state: true },
    remark: { state: true },
  };

  static override styles = [
    ...theme,
    formStyles,
    css`
      :host {
        display: block;
      }

      .fault,
      .remark {
        margin: 0;
      }
    `,
  ];

  declare animalId: string;
  declare private fault: string;
  /** That the group typed reads like another one. */
  declare private likeness: string;
  declare private remark: string;
  private readonly session = new Select(this, (session) => session);
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.animalId = '';
    this.fault = this.likeness = '';
    this.remark = '';
  }

  private field(name: string): string {
    return this.renderRoot.querySelector<HTMLInputElement>(`[name="${name}"]`)?.value.trim() ?? '';
  }

  /** A tag that differs from another one only by zeros, case or spaces is taken, and pointed out. */
  private onTag(): void {
    const { session } = this.session;
    const tag = this.field('tag');
    const like = session
      ? animalsOf(session.notebook)
          .filter(({ id }) => id !== this.animalId)
          .map((other) => likeTag(other.tag, tag))
          .find((doubt) => doubt !== null)
      : undefined;
    this.remark = like?.sentence ?? '';
    this.fault = '';
  }

  private onGroup(): void {
    const { session } = this.session;
    this.likeness = session ? likeGroup(session.notebook, this.field('group')) : '';
  }

  private async onSubmit(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const { session } = this.session;
    const services = this.services.value;
    if (!session?.mayWrite() || !services) return;
    this.fault = askForWholeDate(this.renderRoot);
    if (this.fault !== '') return;
    const typed = new Map(fieldNames.map((name) => [name, this.field(name)]));
    for (const name of ['born', 'arrived'] as const) {
      const date = typed.get(name) ?? '';
      if (date !== '' && !isDate(date)) {
        this.fault = say('"{date}" is not a day of the calendar. Type it like 2026-05-03.', {
          date,
        });
        return;
      }
    }
    const tag = typed.get('tag') ?? '';
    const said = Object.fromEntries([...typed].filter(([, text]) => text !== ''));
    const facts = { ...(said as Partial<AnimalFacts>), tag };
    if (tag === '') {
      this.fault = say('Type the tag, as it stands on the animal.');
      return;
    }
    const edit = this.animalId === '' ? this.adding(facts) : this.changing(facts, typed);
    if (isFault(edit)) {
      this.fault = edit.sentence;
      return;
    }
    this.fault = '';
    await session.dispatch(edit);
    sayOfAnimals(
      this,
      this.animalId === ''
        ? say('{tag} is added.', { tag: facts.tag })
        : say('{tag} is changed.', { tag: facts.tag }),
    );
    this.dispatchEvent(new CustomEvent('animal-kept', { bubbles: true, composed: true }));
    if (this.animalId === '') this.makeReadyForNext();
  }

  private adding(facts: { tag: string } & Partial<AnimalFacts>) {
    const { session } = this.session;
    const services = this.services.value;
    if (!session || !services) throw new Error('An animal is added to an open notebook.');
    const group = this.field('group');
    const animal = group === '' ? facts : { ...facts, group };
    const since = firstDate(session.notebook) ?? services.today();
    return addAnimals(session.notebook, [animal], services.newId, since);
  }

  private changing(facts: Partial<AnimalFacts>, typed: ReadonlyMap<string, string>) {
    const { session } = this.session;
    if (!session) throw new Error('An animal of an open notebook is changed.');
    const edit = changeAnimal(session.notebook, this.animalId, facts);
    if (isFault(edit)) return edit;
    const cleared: readonly SetTo[] = [...typed]
      .filter(([, text]) => text === '')
      .map(([name]) => ({ path: ['animals', this.animalId, name], value: null }));
    return { ...edit, sets: [...edit.sets, ...cleared] } satisfies Edit;
  }

  /** The tag and name are new each time; group, class and dates usually stay the same. */
  private makeReadyForNext(): void {
    for (const name of ['tag', 'name', 'electronic']) {
      const input = this.renderRoot.querySelector<HTMLInputElement>(`[name="${name}"]`);
      if (input) input.value = '';
    }
    this.remark = '';
    this.onGroup();
    this.renderRoot.querySelector<HTMLInputElement>('[name="tag"]')?.focus();
  }

  private renderChoice(
    label: string,
    name: string,
    options: readonly string[],
    chosen: string | undefined,
  ): TemplateResult {
    return html`
      <label class="field">
        ${label}
        <select name=${name}>
          <option value="">${say('not said')}</option>
          ${options.map(
            (option) =>
              html`<option value=${option} .selected=${option === chosen}>
                ${animalWord(option)}
              </option>`,
          )}
        </select>
      </label>
    `;
  }

  protected override render(): TemplateResult {
    const { session } = this.session;
    const animal = session && this.animalId ? animalOf(session.notebook, this.animalId) : undefined;
    const arrived = animal ? (animal.arrived ?? '') : session ? usualArrival(session) : '';
    return html`
      <form @submit=${this.onSubmit} novalidate>
        <div class="row">
          <label class="field">
            ${say('Tag')}
            <input
              name="tag"
              autocomplete="off"
              autocapitalize="characters"
              spellcheck="false"
              value=${animal?.tag ?? ''}
              aria-invalid=${this.fault ? 'true' : 'false'}
              @input=${this.onTag}
            />
          </label>
          <label class="field">
            ${say('Name')} <input name="name" autocomplete="off" value=${animal?.name ?? ''} />
          </label>
        </div>
        ${this.remark ? html`<p class="remark small" role="status">${this.remark}</p>` : nothing}
        <div class="row">
          ${
            animal
              ? nothing
              : groupField({
                  label: say('Group'),
                  likeness: this.likeness,
                  onInput: () => this.onGroup(),
                })
          }
          ${this.renderChoice(say('Species'), 'species', allSpecies, animal?.species)}
          ${this.renderChoice(say('Class'), 'class', classes, animal?.class)}
          ${this.renderChoice(say('Stage'), 'stage', stages, animal?.stage)}
        </div>
        <div class="row">
          <label class="field">
            ${say('Born')} <input name="born" type="date" value=${animal?.born ?? ''} />
          </label>
          <label class="field">
            ${say('Here since')} <input name="arrived" type="date" value=${arrived} />
          </label>
          <label class="field">
            ${say('Electronic number')}
            <input name="electronic" autocomplete="off" value=${animal?.electronic ?? ''} />
          </label>
        </div>
        ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
        <div class="actions">
          <button class="main">${animal ? say('Keep the change') : say('Add the animal')}</button>
        </div>
      </form>
    `;
  }
}

customElements.define('sd-animal-form', SdAnimalForm);

declare global {
  interface HTMLElementTagNameMap {
    'sd-animal-form': SdAnimalForm;
  }
}
