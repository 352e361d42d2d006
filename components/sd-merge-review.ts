import { LitElement, html, nothing, type TemplateResult } from 'lit';
import type { Merged } from '../src/notebook/merge.ts';
import { removeAnimals } from '../src/notebook/edit-animals.ts';
import { removeDay } from '../src/notebook/edit-days.ts';
import { removeRecord } from '../src/notebook/edit-records.ts';
import { animalOf } from '../src/notebook/read.ts';
import type { Revived } from '../src/notebook/revive.ts';
import type { United } from '../src/notebook/unite.ts';
import { placeWords, recordName, valueWords } from './clash-words.ts';
import { mergeStyles } from './merge-styles.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/** This many clashes are shown ahead of the merge; all of them stand in the list of clashes. */
const mostShown = 8;

/**
 * What a person should look at of a merge: places where the copies differ, animals taken for one by their
 * tags, what one copy removed and the other typed for, a clock that runs ahead. Before the merge, two
 * animals can be kept apart: fires `keep-apart` `{pair, isApart}`. After it, too, and what came back can be
 * removed.
 */
export class SdMergeReview extends LitElement {
  static override properties = {
    merged: { attribute: false },
    apart: { attribute: false },
    isDone: { type: Boolean },
    gone: { state: true },
  };

  static override styles = [...theme, mergeStyles];

  declare merged: Merged | undefined;
  declare apart: readonly (readonly [string, string])[];
  declare isDone: boolean;
  declare private gone: readonly string[];
  private readonly session = new Select(this, (session) => session);

  constructor() {
    super();
    this.apart = [];
    this.isDone = false;
    this.gone = [];
  }

  private keepApart(pair: readonly [string, string], isApart: boolean): void {
    this.dispatchEvent(new CustomEvent('keep-apart', { detail: { pair, isApart } }));
  }

  private async removeAgain({ table, id }: Revived): Promise<void> {
    const session = this.session.value;
    if (!session?.mayWrite()) return;
    const { notebook } = session;
    this.gone = [...this.gone, id];
    if (table === 'animals') await session.dispatch(removeAnimals(notebook, [id]));
    else if (table === 'days') await session.dispatch(removeDay(notebook, id));
    else
      await session.dispatch(
        removeRecord(table, id, say('removing {name}', { name: recordName(notebook, table, id) })),
      );
  }

  private renderClashes({ notebook, clashes }: Merged): TemplateResult | typeof nothing {
    if (clashes.length === 0 || this.isDone) return nothing;
    const rest = clashes.length - mostShown;
    return html`
      <h3>
        ${say('{places, plural, one {One place} other {# places}} where the copies differ', {
          places: clashes.length,
        })}
      </h3>
      <p>${say('Both values are kept, and you choose afterwards.')}</p>
      <ul>
        ${clashes
          .slice(0, mostShown)
          .map(
            ({ path, values }) =>
              html`<li>
                ${placeWords(notebook, path)}:
                ${values
                  .map(({ value }) => valueWords(value, notebook, path))
                  .reduce((first, second) => say('{first} or {second}', { first, second }))}
              </li>`,
          )}
        ${rest > 0 ? html`<li class="soft">${say('and {rest} more', { rest })}</li>` : nothing}
      </ul>
    `;
  }

  private renderUnited(united: readonly United[], notebook: Merged['notebook']) {
    const pairs = [
      ...united.map(({ kept, gone, tag }) => ({
        pair: [kept, gone] as const,
        tag,
        isApart: false,
      })),
      ...this.apart.map((pair) => ({
        pair,
        tag: animalOf(notebook, pair[0])?.tag ?? pair[0],
        isApart: true,
      })),
    ].sort((a, b) => (a.tag < b.tag ? -1 : 1));
    if (pairs.length === 0) return nothing;
    return html`
      <h3>${say('One animal by its tag')}</h3>
      <p>
        ${say('Both copies added it for themselves. What was typed for either stands under one line.')}
      </p>
      <ul class="plain">
        ${pairs.map(
          ({ pair, tag, isApart }) => html`
            <li>
              <span>${tag}</span>
              ${
                this.isDone
                  ? isApart
                    ? html`<span class="soft">${say('kept apart')}</span>`
                    : html`<button
                        aria-label=${say('Keep apart: two animals bear the tag {tag}', { tag })}
                        @click=${() => this.keepApart(pair, true)}
                      >
                        ${say('Keep apart')}
                      </button>`
                  : html`<label class="tick">
                      <input
                        type="checkbox"
                        .checked=${isApart}
                        aria-label=${say('Keep apart: two animals bear the tag {tag}', { tag })}
                        @change=${(event: Event) =>
                          this.keepApart(pair, (event.target as HTMLInputElement).checked)}
                      />
                      ${say('Keep apart: these are two animals')}
                    </label>`
              }
            </li>
          `,
        )}
      </ul>
    `;
  }

  private renderRevived({ notebook, revived }: Merged): TemplateResult | typeof nothing {
    if (revived.length === 0) return nothing;
    return html`
      <h3>${say('Removed in one copy, typed for in the other')}</h3>
      <p>
        ${
          this.isDone
            ? say('They are back, since nobody who removed them knew what was typed.')
            : say('They come back, since nobody who removed them knew what was typed.')
        }
      </p>
      <ul class="plain">
        ${revived.map(
          (record) => html`
            <li>
              <span>${recordName(notebook, record.table, record.id)}</span>
              ${
                !this.isDone
                  ? nothing
                  : this.gone.includes(record.id)
                    ? html`<span class="soft">${say('removed again')}</span>`
                    : html`<button @click=${() => this.removeAgain(record)}>
                        ${say('Remove again')}
                      </button>`
              }
            </li>
          `,
        )}
      </ul>
    `;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { merged } = this;
    if (!merged) return nothing;
    return html`
      ${merged.ahead.map(({ sentence }) => html`<p class="ahead">${sentence}</p>`)}
      ${this.renderClashes(merged)} ${this.renderUnited(merged.united, merged.notebook)}
      ${this.renderRevived(merged)}
    `;
  }
}

customElements.define('sd-merge-review', SdMergeReview);

declare global {
  interface HTMLElementTagNameMap {
    'sd-merge-review': SdMergeReview;
  }
}
