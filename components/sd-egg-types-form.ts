import { ContextConsumer } from '@lit/context';
import { LitElement, html, nothing, type TemplateResult } from 'lit';
import type { SetTo } from '../shared/edit.ts';
import type { Column } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { toStored } from '../src/engine/stored-formula.ts';
import { applyEdit } from '../src/notebook/apply-edit.ts';
import { changeLookedFor, type Reach } from '../src/notebook/edit-days.ts';
import { addColumn } from '../src/notebook/edit-records.ts';
import { keyFromLabel } from '../src/notebook/key-name.ts';
import { columnByKey, columnsOf, dayOf, defaultsOf } from '../src/notebook/read.ts';
import { notKept } from './not-kept.ts';
import { reachField } from './reach-field.ts';
import { reachWords } from './reach-words.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { sayOfSettings } from './settings-said.ts';
import { formStyles } from './form-styles.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/**
 * Further egg types: which are looked for. A counted cup with a blank for a type looked for is filled
 * with 0 when its row is left; a type not looked for stays "not looked at".
 */
export class SdEggTypesForm extends LitElement {
  static override properties = {
    drafts: { state: true },
    reach: { state: true },
    fault: { state: true },
  };

  static override styles = [...theme, formStyles];

  /** What was ticked and not yet kept, by day. */
  declare private drafts: Readonly<Record<string, readonly string[] | undefined>>;
  declare private reach: Reach;
  declare private fault: string;
  private readonly types = new Select(
    this,
    (session) => columnsOf(session.notebook).filter((column) => column.otherEggs === true),
    { same: (a, b) => a.length === b.length && a.every((one, i) => one === b[i]) },
  );
  private readonly lookedFor = new Select(this, (session) =>
    session.openDay === null
      ? defaultsOf(session.notebook).lookedFor
      : dayOf(session.notebook, session.openDay)?.lookedFor,
  );
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.drafts = {};
    this.reach = 'from this day on';
    this.fault = '';
  }

  /** The next change reaches from its day on again, whatever was chosen for the one before. */
  forgetReach(): void {
    this.reach = 'from this day on';
  }

  private get draft(): readonly string[] | undefined {
    return this.drafts[this.types.session?.openDay ?? ''];
  }

  private hold(draft: readonly string[] | undefined): void {
    this.drafts = { ...this.drafts, [this.types.session?.openDay ?? '']: draft };
  }

  private get ticked(): readonly string[] {
    return this.draft ?? this.lookedFor.value ?? [];
  }

  private async keep(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const { session } = this.types;
    if (!session?.mayWrite()) return;
    const { ticked } = this;
    const { notebook } = session;
    const edit = changeLookedFor(notebook, session.openDay ?? '', ticked, this.reach);
    const shown: readonly SetTo[] = (this.types.value ?? [])
      .filter(({ id }) => ticked.includes(id))
      .flatMap((column) => [column, columnByKey(notebook, `${column.key}_epg`)])
      .filter((column): column is Column => column?.hidden === true)
      .map(({ id }) => ({ path: ['columns', id, 'hidden'], value: false }));
    this.hold(undefined);
    const label = say('the egg types looked for, {reach}', { reach: reachWords[this.reach] });
    await session.dispatch({ ...edit, label, sets: [...edit.sets, ...shown] });
    sayOfSettings(this, say('Kept.'));
  }

  /** A count of its own, and its eggs per gram by the same factor. */
  private async add(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const { session } = this.types;
    const { value: services } = this.services;
    const input = this.renderRoot.querySelector<HTMLInputElement>('[name="label"]');
    const label = input?.value.trim() ?? '';
    if (!session?.mayWrite() || !services || !input) return;
    if (label === '') {
      this.fault = say('Type the name of the egg type.');
      return;
    }
    const { notebook } = session;
    const key = keyFromLabel(notebook, label);
    const count = addColumn(notebook, services.newId(), {
      key,
      label,
      kind: 'count',
      about: 'cup',
      otherEggs: true,
      unit: say('eggs'),
    });
    if (isFault(count)) {
      this.fault = count.sentence;
      return;
    }
    const named = applyEdit(notebook, count, [0, 0, 'draft']).notebook;
    const perGram = addColumn(named, services.newId(), {
      // Its name in formulas ends in `_epg` in every language: it is found by that.
      key: keyFromLabel(named, `${label} epg`),
      label: say('{type} epg', { type: label }),
      kind: 'formula',
      about: 'cup',
      unit: say('eggs per gram'),
      formula: toStored(named, `EPG(${key}, factor)`),
      shaded: true,
    });
    const sets = isFault(perGram) ? count.sets : [...count.sets, ...perGram.sets];
    this.fault = '';
    input.value = '';
    await session.dispatch({
      ...count,
      label: say('adding the egg type {type}', { type: label }),
      sets,
    });
    sayOfSettings(this, say('{type} is added. Tick it if you look for it.', { type: label }));
  }

  private renderType(column: Column): TemplateResult {
    return html`
      <label class="tick">
        <input
          type="checkbox"
          .checked=${this.ticked.includes(column.id)}
          @change=${(event: Event) => {
            const isTicked = (event.target as HTMLInputElement).checked;
            const others = this.ticked.filter((id) => id !== column.id);
            this.hold(isTicked ? [...others, column.id] : others);
          }}
        />
        ${column.label ?? column.key}
      </label>
    `;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { session } = this.types;
    if (!session) return nothing;
    return html`
      <div class="form">
        <form @submit=${this.keep} novalidate>
          <p class="soft">
            ${say('Tick what you look for in every cup. A blank then becomes a visible 0 once the cup is counted; it is kept apart from the strongyle-type epg.')}
          </p>
          <div>${(this.types.value ?? []).map((column) => this.renderType(column))}</div>
          ${reachField(session, this.reach, (reach) => {
            this.reach = reach;
          })}
          <div class="actions">
            ${notKept(this.draft !== undefined, () => this.hold(undefined))}
            <button class="main">${say('Keep these')}</button>
          </div>
        </form>
        <form class="one" @submit=${this.add} novalidate>
          <label class="field">
            ${say('Add an egg type')}
            <input name="label" autocomplete="off" placeholder=${say('whipworm')} />
          </label>
          ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
          <div><button>${say('Add the egg type')}</button></div>
        </form>
      </div>
    `;
  }
}

customElements.define('sd-egg-types-form', SdEggTypesForm);

declare global {
  interface HTMLElementTagNameMap {
    'sd-egg-types-form': SdEggTypesForm;
  }
}
