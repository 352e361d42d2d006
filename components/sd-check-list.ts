import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { changeBlock } from '../src/notebook/edit-records.ts';
import { aboutOf, blocksOf, dayOf } from '../src/notebook/read.ts';
import { setsOf } from '../src/notebook/record-sets.ts';
import { AfterPaint } from './after-paint.ts';
import { countedOf } from './counted-words.ts';
import { dayWords } from '../src/text/day-words.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/**
 * Things to have ready and to do on the day, ticked off for each sampling day by itself; and, for the
 * day's end, when to sample next.
 */
export class SdCheckList extends LitElement {
  static override properties = { blockId: { type: String }, isEditing: { state: true } };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
      }

      ul {
        margin: 0 0 4px;
        padding: 0;
        list-style: none;
      }

      label.line {
        display: flex;
        gap: 8px;
        align-items: baseline;
        min-height: 44px;
        padding: 8px 0;
        border-top: 1px solid var(--line);
        cursor: pointer;
      }

      label.line input {
        flex: none;
        width: 1.3em;
        height: 1.3em;
      }

      input:checked + span {
        color: var(--soft);
        text-decoration: line-through;
      }

      .edit {
        min-height: 44px;
        margin-left: -10px;
        color: var(--accent);
      }

      textarea {
        min-height: 14em;
      }

      .next {
        margin: 8px 0 0;
        padding: 10px 14px;
        border-radius: var(--radius);
        background: var(--sunk);
      }

      .next.now {
        background: var(--accent-soft);
      }

      @media print {
        .edit {
          display: none;
        }
      }
    `,
  ];

  declare blockId: string;
  declare private isEditing: boolean;
  private readonly block = new Select(this, (session) =>
    blocksOf(session.notebook).find(({ id }) => id === this.blockId),
  );
  private readonly nextSample = new Select(
    this,
    (session) => aboutOf(session.notebook).nextSample ?? '',
  );
  private readonly counted = new AfterPaint(this, countedOf);
  private readonly openDay = new Select(this, (session) => session.openDay);

  constructor() {
    super();
    this.blockId = '';
    this.isEditing = false;
  }

  private get lines(): readonly string[] {
    const text = this.block.value?.text ?? '';
    return text
      .split('\n')
      .map((line) => line.trim())
      .filter((line) => line !== '');
  }

  private async tick(line: string, isDone: boolean): Promise<void> {
    const { session, value: block } = this.block;
    const day = this.openDay.value ?? '';
    // Refused, the tick stands again as it was.
    if (!session?.mayWrite()) return this.requestUpdate();
    if (!block) return;
    const { [`${day} ${line}`]: _, ...others } = block.choices ?? {};
    const choices = isDone ? { ...others, [`${day} ${line}`]: 'done' } : others;
    await session.dispatch(changeBlock(block.id, { choices }, say('the check list')));
  }

  private async keepLines(): Promise<void> {
    const { session, value: block } = this.block;
    const text = this.renderRoot.querySelector('textarea')?.value ?? '';
    const next = this.renderRoot.querySelector<HTMLInputElement>('[name="next"]')?.value.trim();
    this.isEditing = false;
    if (!session || !block) return;
    const { label, source, sets } = changeBlock(
      block.id,
      { text },
      say('the lines of the check list'),
    );
    const nextSets = setsOf('about', 'notebook', { nextSample: next });
    await session.dispatch({ label, source, sets: [...sets, ...nextSets] });
  }

  private async edit(): Promise<void> {
    this.isEditing = true;
    await this.updateComplete;
    this.renderRoot.querySelector('textarea')?.focus();
  }

  private renderEditor(): TemplateResult {
    return html`
      <label class="field">
        ${say('One thing on each line')}
        <textarea .value=${this.block.value?.text ?? ''}></textarea>
      </label>
      <label class="field">
        ${say('When to sample next')}
        <input name="next" autocomplete="off" .value=${this.nextSample.value ?? ''} />
      </label>
      <div class="actions">
        <button class="main" @click=${this.keepLines}>${say('Keep the list')}</button>
      </div>
    `;
  }

  /** Said more loudly once every animal present is counted: then the day is at its end. */
  private renderNext(): TemplateResult | typeof nothing {
    const next = this.nextSample.value ?? '';
    if (next === '') return nothing;
    const { counted, present } = this.counted.value ?? { counted: 0, present: 0 };
    const isEnd = present > 0 && counted === present;
    return html`
      <p class="next ${isEnd ? 'now' : ''}">
        ${isEnd ? `${say('All counted.')} ` : nothing}<b>${say('Next sample:')}</b> ${next}
      </p>
    `;
  }

  protected override render(): TemplateResult {
    if (this.isEditing) return this.renderEditor();
    const { session, value: block } = this.block;
    const day = this.openDay.value ?? '';
    const shown = session && day ? dayOf(session.notebook, day) : undefined;
    const { lines } = this;
    const done = lines.filter((line) => block?.choices?.[`${day} ${line}`] === 'done').length;
    return html`
      <p class="small soft">
        ${shown ? `${dayWords(shown)} · ` : nothing}${say('{done} of {n} done', { done, n: lines.length })}
      </p>
      <ul>
        ${lines.map(
          (line) => html`
            <li>
              <label class="line">
                <input
                  type="checkbox"
                  .checked=${live(block?.choices?.[`${day} ${line}`] === 'done')}
                  @change=${(event: Event) =>
                    this.tick(line, (event.target as HTMLInputElement).checked)}
                />
                <span>${line}</span>
              </label>
            </li>
          `,
        )}
      </ul>
      ${this.renderNext()}
      <button class="quiet edit" @click=${this.edit}>${say('Change the list')}</button>
    `;
  }
}

customElements.define('sd-check-list', SdCheckList);

declare global {
  interface HTMLElementTagNameMap {
    'sd-check-list': SdCheckList;
  }
}
