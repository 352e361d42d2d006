import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { AnimalClass } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { addAnimals, type NewAnimal } from '../src/notebook/edit-animals.ts';
import {
  readPastedAnimals,
  speciesOfClass,
  type PastedAnimal,
} from '../src/notebook/pasted-animals.ts';
import { isDate } from '../src/text/date.ts';
import { animalWord, classes } from './animal-words.ts';
import { firstDate, usualArrival } from './arrival.ts';
import { groupField } from './group-field.ts';
import { likeGroup } from './move-words.ts';
import { sayOfAnimals } from './said-of-animals.ts';
import { servicesContext } from './services.ts';
import { formStyles } from './form-styles.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import { askForWholeDate } from './whole-date.ts';
import { say, sayParts } from '../src/text/say.ts';

/** Animals by their tags, typed or pasted, with a look at what will be added. One step of undo. */
export class SdAddAnimals extends LitElement {
  static override properties = {
    text: { state: true },
    fault: { state: true },
    group: { state: true },
  };

  static override styles = [
    ...theme,
    formStyles,
    css`
      :host {
        display: block;
      }

      textarea {
        min-height: 9em;
        font-variant-numeric: tabular-nums;
      }

      ul {
        max-height: 12em;
        margin: 4px 0 0;
        padding-left: 1.2em;
        overflow: auto;
        font-size: var(--size-small);
      }

      p {
        margin: 0;
      }

      .tags {
        max-height: 6em;
        overflow: auto;
        overflow-wrap: anywhere;
      }
    `,
  ];

  declare private text: string;
  declare private fault: string;
  /** The group typed for those that the list gives none. */
  declare private group: string;
  private readonly session = new Select(this, (session) => session);
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.text = this.group = '';
    this.fault = '';
    new Select(this, (session) => session.notebook.groups);
  }

  private get pasted(): readonly PastedAnimal[] {
    const session = this.session.value;
    return session ? readPastedAnimals(session.notebook, this.text) : [];
  }

  /** That a group reads like another one. */
  private likeness(group: string): string {
    const session = this.session.value;
    return session ? likeGroup(session.notebook, group) : '';
  }

  private field(name: string): string {
    return this.renderRoot.querySelector<HTMLInputElement>(`[name="${name}"]`)?.value.trim() ?? '';
  }

  private async onSubmit(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const session = this.session.value;
    const services = this.services.value;
    if (!session?.mayWrite() || !services) return;
    this.fault = askForWholeDate(this.renderRoot);
    if (this.fault !== '') return;
    const arrived = this.field('arrived');
    if (arrived !== '' && !isDate(arrived)) {
      this.fault = say(
        '"{date}" is not a day of the calendar. Type it like 2026-05-03, or leave it empty.',
        { date: arrived },
      );
      return;
    }
    const group = this.field('group');
    const kind = this.field('class') as AnimalClass | '';
    const added: readonly NewAnimal[] = this.pasted
      .filter(({ isNew }) => isNew)
      .map((one) => newAnimal(one, group, kind === '' ? null : kind, arrived));
    const since = firstDate(session.notebook) ?? services.today();
    const edit = addAnimals(session.notebook, added, services.newId, since);
    if (isFault(edit)) {
      this.fault = edit.sentence;
      return;
    }
    this.text = '';
    this.fault = '';
    await session.dispatch(edit);
    sayOfAnimals(
      this,
      say('{n, plural, one {{tag} is added.} other {# animals are added.}}', {
        n: added.length,
        tag: added[0]?.tag,
      }),
    );
  }

  private renderPreview(pasted: readonly PastedAnimal[]): TemplateResult | typeof nothing {
    if (pasted.length === 0) return nothing;
    const fresh = pasted.filter(({ isNew }) => isNew);
    const remarks = pasted.filter(({ remark }) => remark !== '');
    const groups = [...new Set(fresh.map(({ group }) => group))];
    const likenesses = groups.map((group) => this.likeness(group)).filter((words) => words !== '');
    const left = pasted.length - fresh.length;
    const animals = html`<b
      >${say('{n, plural, one {# new animal} other {# new animals}}', { n: fresh.length })}</b
    >`;
    return html`
      <div>
        <p>
          ${
            left > 0
              ? sayParts('{animals}, {left, plural, one {# left out} other {# left out}}', {
                  animals,
                  left,
                })
              : animals
          }
        </p>
        ${likenesses.map((words) => html`<p class="small">${words}</p>`)}
        <p class="small soft tags">${fresh.map(({ tag }) => tag).join(' · ')}</p>
        ${
          remarks.length > 0
            ? html`<ul>
                ${remarks.map((one) => html`<li>${remarkSentence(one)}</li>`)}
              </ul>`
            : nothing
        }
      </div>
    `;
  }

  protected override render(): TemplateResult {
    const { pasted } = this;
    const fresh = pasted.filter(({ isNew }) => isNew).length;
    const session = this.session.value;
    return html`
      <form @submit=${this.onSubmit} novalidate>
        <label class="field">
          ${say('Tags, one on each line')}
          <textarea
            name="tags"
            spellcheck="false"
            autocapitalize="characters"
            aria-describedby="how"
            .value=${this.text}
            @input=${(event: Event) => {
              this.text = (event.target as HTMLTextAreaElement).value;
              this.fault = '';
            }}
          ></textarea>
          <span class="hint" id="how">
            ${say('Type or paste them. From a sheet, the second column is the group and the third the class.')}
          </span>
        </label>
        <div aria-live="polite">${this.renderPreview(pasted)}</div>
        <div class="row">
          ${groupField({
            label: say('Group, where the list has none'),
            likeness: this.likeness(this.group),
            onInput: () => {
              this.group = this.field('group');
            },
          })}
          <label class="field">
            ${say('Class, where the list has none')}
            <select name="class">
              <option value="">${say('not said')}</option>
              ${classes.map((kind) => html`<option value=${kind}>${animalWord(kind)}</option>`)}
            </select>
          </label>
          <label class="field">
            ${say('Here since')}
            <input
              name="arrived"
              type="date"
              value=${session ? usualArrival(session) : ''}
              aria-describedby="since"
            />
            <span class="hint" id="since">${say('Empty: they were always here.')}</span>
          </label>
        </div>
        ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
        <div class="actions">
          <button class="main">
            ${fresh === 0 ? say('Add animals') : say('{n, plural, one {Add # animal} other {Add # animals}}', { n: fresh })}
          </button>
        </div>
      </form>
    `;
  }
}

function remarkSentence({ line, tag, remark }: PastedAnimal): string {
  return tag === ''
    ? say('Line {line}: {sentence}', { line, sentence: remark })
    : say('Line {line}, {tag}: {remark}', { line, tag, remark });
}

function newAnimal(
  { tag, group, class: own }: PastedAnimal,
  groupForAll: string,
  classForAll: AnimalClass | null,
  arrived: string,
): NewAnimal {
  const kind = own ?? classForAll;
  const species = kind === null ? null : speciesOfClass(kind);
  const inGroup = group || groupForAll;
  return {
    tag,
    ...(inGroup === '' ? {} : { group: inGroup }),
    ...(kind === null ? {} : { class: kind }),
    ...(species === null ? {} : { species }),
    ...(arrived === '' ? {} : { arrived }),
  };
}

customElements.define('sd-add-animals', SdAddAnimals);

declare global {
  interface HTMLElementTagNameMap {
    'sd-add-animals': SdAddAnimals;
  }
}
