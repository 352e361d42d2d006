import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { ContextConsumer } from '@lit/context';
import type { Animal } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { addAnimals } from '../src/notebook/edit-animals.ts';
import { presentAnimals } from '../src/notebook/present.ts';
import { animalsOf } from '../src/notebook/read.ts';
import { canonicalTag, likeKey, likeTag } from '../src/text/tag.ts';
import { usualArrival } from './arrival.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

const shownAtMost = 6;

/** An animal that fits what was typed, and how near it is: see {@link rankOf}. */
interface Found {
  readonly id: string;
  readonly tag: string;
  readonly name: string;
  readonly rank: number;
}

/**
 * Finds an animal by any part of its tag or name, and adds one that is not there, without leaving the
 * card. Fires `sd-animal-found` (detail: row).
 */
export class SdFindAnimal extends LitElement {
  static override properties = { text: { state: true }, sentence: { state: true } };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
        position: relative;
      }

      input {
        width: 100%;
        min-height: 48px;
      }

      ul {
        position: absolute;
        z-index: 3;
        inset-inline: 0;
        margin: 2px 0 0;
        padding: 4px;
        border: 1px solid var(--line-strong);
        border-radius: var(--radius);
        background: var(--sheet);
        box-shadow: var(--shadow);
        list-style: none;
      }

      li button {
        width: 100%;
        min-height: 48px;
        border: 0;
        justify-content: flex-start;
        text-align: start;
      }

      .said p {
        margin: 0;
        padding: 8px 12px;
      }

      li small {
        color: var(--soft);
      }
    `,
  ];

  declare private text: string;
  declare private sentence: string;
  private readonly animals = new Select(this, (session) => animalsOf(session.notebook));
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.text = '';
    this.sentence = '';
  }

  private get found(): readonly Found[] {
    const session = this.animals.session;
    const typed = this.text.trim();
    const asked = typed.toLowerCase();
    if (!session?.openDay || asked === '') return [];
    const rank = rankOf(typed);
    return presentAnimals(session.notebook, session.openDay)
      .map((animal) => ({
        id: animal.id,
        tag: animal.tag,
        name: animal.name ?? '',
        rank: rank(animal),
      }))
      .filter(
        (one) =>
          one.rank < 3 || [one.tag, one.name].some((words) => words.toLowerCase().includes(asked)),
      )
      .sort((one, other) => one.rank - other.rank);
  }

  /** That a tag like the one typed is known, differing only by zeros, case or spaces. */
  private get likeness(): string {
    const { session } = this.animals;
    const tag = this.text.trim();
    const like = session
      ? animalsOf(session.notebook)
          .map((animal) => likeTag(animal.tag, tag))
          .find((doubt) => doubt !== null)
      : undefined;
    return like?.sentence ?? '';
  }

  private choose(row: string): void {
    this.text = '';
    this.sentence = '';
    this.dispatchEvent(
      new CustomEvent('sd-animal-found', { detail: { row }, bubbles: true, composed: true }),
    );
  }

  private async add(): Promise<void> {
    const { session } = this.animals;
    const newId = this.services.value?.newId;
    if (!session?.mayWrite() || !newId) return;
    const id = newId();
    const tag = this.text.trim();
    const arrived = usualArrival(session) || undefined;
    const edit = addAnimals(session.notebook, [{ tag, arrived }], () => id, arrived ?? '');
    if (isFault(edit)) {
      this.sentence = edit.sentence;
      return;
    }
    await session.dispatch(edit);
    this.choose(id);
  }

  private onKeydown(event: KeyboardEvent): void {
    if (event.key === 'Escape') this.text = '';
    const [first, second] = this.found;
    if (event.key !== 'Enter' || event.isComposing || this.text.trim() === '') return;
    event.preventDefault();
    // Of several that fit, none is taken that was not named: its counts would be another's.
    const isOne = first?.rank === 0 || (first?.rank === 1 && second?.rank !== 1);
    if (first && second && !isOne)
      this.sentence = say('{n} animals fit: choose one, or type more of it.', {
        n: this.found.length,
      });
    else if (first) this.choose(first.id);
    else void this.add();
  }

  /** What is to be known before one is chosen or added; it stands above them, since they lie over what is below. */
  private said(isNew: boolean): readonly TemplateResult[] {
    const doubt = isNew ? this.likeness : '';
    return [
      ...(doubt === '' ? [] : [html`<p class="hint" role="status">${doubt}</p>`]),
      ...(this.sentence === '' ? [] : [html`<p class="fault" role="alert">${this.sentence}</p>`]),
    ];
  }

  protected override render(): TemplateResult {
    const { found, text } = this;
    const isNew = text.trim() !== '' && found.every(({ rank }) => rank > 0);
    const said = this.said(isNew);
    return html`
      <input
        type="search"
        autocomplete="off"
        autocapitalize="off"
        spellcheck="false"
        enterkeyhint="go"
        aria-label=${say('Find an animal by part of its tag or name')}
        placeholder=${say('Find a tag, or add one')}
        .value=${text}
        @input=${(event: Event) => {
          this.text = (event.target as HTMLInputElement).value;
          this.sentence = '';
        }}
        @keydown=${this.onKeydown}
      />
      ${
        text.trim() === ''
          ? nothing
          : html`<ul aria-label=${say('Animals found')}>
              ${said.length > 0 ? html`<li class="said">${said}</li>` : nothing}
              ${found.slice(0, shownAtMost).map(
                ({ id, tag, name }) =>
                  html`<li>
                    <button @click=${() => this.choose(id)}>${tag} <small>${name}</small></button>
                  </li>`,
              )}
              ${
                found.length > shownAtMost
                  ? html`<li>
                      <small
                        >${say('and {n} more: type more of it', { n: found.length - shownAtMost })}</small
                      >
                    </li>`
                  : nothing
              }
              ${
                isNew
                  ? html`<li>
                      <button @click=${this.add}>
                        ${say('Add {tag} as a new animal', { tag: text.trim() })}
                      </button>
                    </li>`
                  : nothing
              }
            </ul>`
      }
      ${text.trim() === '' ? said : nothing}
    `;
  }
}

/** How near an animal is to what was typed: 0 itself, 1 but for case, zeros and spaces, 2 it begins so, 3 any other. */
function rankOf(typed: string): (animal: Animal) => number {
  const itself = keyOf(typed);
  const like = likeKey(typed);
  const start = typed.toLowerCase();
  return ({ tag, electronic = '' }) => {
    if (keyOf(tag) === itself || (electronic !== '' && keyOf(electronic) === itself)) return 0;
    if (likeKey(tag) === like) return 1;
    return tag.toLowerCase().startsWith(start) ? 2 : 3;
  };
}

function keyOf(tag: string): string {
  const read = canonicalTag(tag);
  return isFault(read) ? tag : read.key;
}

customElements.define('sd-find-animal', SdFindAnimal);

declare global {
  interface HTMLElementTagNameMap {
    'sd-find-animal': SdFindAnimal;
  }
  interface HTMLElementEventMap {
    'sd-animal-found': CustomEvent<{ row: string }>;
  }
}
