import { LitElement, css, html, type TemplateResult } from 'lit';
import { animalOf, columnOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { wordList } from '../src/treating/word-list.ts';
import { textToEdit, typedEdit } from './grid-edits.ts';
import type { Place } from './grid-place.ts';
import { GridView } from './grid-view.ts';
import { openDialog } from './open-dialog.ts';
import { tell } from './page-message.ts';
import type { SdColumnsDialog } from './sd-columns-dialog.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import { holdTyped, takeTyped } from './typed-kept.ts';
import './sd-card.ts';
import './sd-formula-bar.ts';
import './sd-grid.ts';
import './sd-own-cups.ts';
import { say } from '../src/text/say.ts';

/** All animals as a grid, or one animal at a time. */
type View = 'grid' | 'card';

/** Up to this width one animal's card is the unit; the list is a tap away. */
const cardWidth = '(max-width: 43.75em)';

/** The page is about to go: asked first, while there is still time to write, and told last, on phones that do not ask. */
const leaving = ['beforeunload', 'pagehide'] as const;

/**
 * The block of counts: all animals as a grid, with the line above it that says what is under the
 * cursor, or one animal's card. Changing between them stays with the same animal.
 */
export class SdCounts extends LitElement {
  static override properties = {
    blockId: { type: String },
    cell: { state: true },
    view: { state: true },
  };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
        min-width: 0;
      }

      /* How high it may be says the place it stands in. */
      .counts {
        display: flex;
        flex-direction: column;
        gap: 8px;
        min-width: 0;
        max-height: var(--counts-height, calc(100dvh - 24px));
      }

      :host([data-view='card']) .counts {
        max-height: none;
      }

      sd-formula-bar,
      .views {
        flex: none;
      }

      .views {
        display: flex;
        gap: 4px;
        padding-inline: 12px;
      }

      .views button[aria-pressed='true'] {
        border-color: var(--accent);
        background: var(--accent-soft);
        color: var(--ink);
        font-weight: 650;
      }

      sd-grid {
        flex: 0 1 auto;
        min-height: 260px;
      }

      /* On a phone what is shown and in which order needs the room of the rows: the page gives more. */
      @media (max-width: 43.75em) {
        :host([data-is-choosing]) .counts {
          max-height: calc(var(--counts-height, 100dvh) + 21rem);
        }
      }

      @media print {
        .counts {
          max-height: none;
        }

        .views {
          display: none;
        }
      }
    `,
  ];

  declare blockId: string;
  declare private cell: Place | null;
  declare private view: View;
  private readonly gridView = new GridView();
  private takenUp: Session | undefined;
  private readonly session = new Select(this, (session) => session, { when: () => false });

  constructor() {
    super();
    this.blockId = '';
    this.cell = null;
    this.view = window.matchMedia(cardWidth).matches ? 'card' : 'grid';
  }

  override connectedCallback(): void {
    super.connectedCallback();
    for (const name of leaving) window.addEventListener(name, this.onLeaving);
    document.addEventListener('visibilitychange', this.onVisible);
  }

  override disconnectedCallback(): void {
    for (const name of leaving) window.removeEventListener(name, this.onLeaving);
    document.removeEventListener('visibilitychange', this.onVisible);
    super.disconnectedCallback();
  }

  /** The page goes: what stands in a field goes into the notebook, and where it is found again should time not do. */
  private readonly onLeaving = (): void => {
    const session = this.session.value;
    if (!session?.isWriting) return;
    const inGrid = this.renderRoot.querySelector('sd-grid')?.hand.typed;
    const inCard = this.renderRoot.querySelector('sd-card')?.typed ?? [];
    const typed = [...inCard, ...(inGrid ? [inGrid] : [])];
    if (typed.length === 0) return;
    const { notebook } = session;
    holdTyped(
      notebook.id,
      typed.map(({ day, row, column, text }) => {
        const before = textToEdit(notebook, { day, row, column });
        return { day, row, column, text, before };
      }),
    );
    // Where the page does not go after all, it has been written by then.
    void this.keepTyped().then(() => setTimeout(() => holdTyped(notebook.id, []), 3000));
  };

  private readonly onVisible = (): void => {
    const id = this.session.value?.notebook.id;
    // A phone may end a page it has put away. In the grid what is being typed waits there, to be typed on.
    if (document.visibilityState === 'hidden')
      void this.renderRoot.querySelector('sd-card')?.commitDrafts();
    // The page lives on, and what is typed with it.
    else if (id !== undefined) holdTyped(id, []);
  };

  /** Keeps what stood in a field when the page was left, unless its place holds something else by now. */
  private async takeUp(session: Session): Promise<void> {
    if (!session.isWriting) return;
    const tags: string[] = [];
    for (const { text, before, ...place } of takeTyped(session.notebook.id)) {
      const { notebook } = session;
      const column = columnOf(notebook, place.column);
      const animal = animalOf(notebook, place.row);
      if (!column || !animal || textToEdit(notebook, place) !== before) continue;
      if (await session.dispatch(typedEdit(notebook, place, column, text).edit))
        tags.push(animal.tag);
    }
    if (tags.length === 0) return;
    const words = say('What was being typed when the page was left is kept: {tags}.', {
      tags: wordList([...new Set(tags)]),
    });
    tell(this, words, 'with undo');
  }

  protected override updated(): void {
    const session = this.session.value;
    if (!session || session === this.takenUp) return;
    this.takenUp = session;
    void this.takeUp(session);
  }

  /** Puts the focus into the counts. */
  override focus(): void {
    this.renderRoot.querySelector<HTMLElement>('sd-grid, sd-card')?.focus();
  }

  /** Goes to an animal, asked for elsewhere on the page. */
  showAnimal(row: string): void {
    this.renderRoot.querySelector('sd-grid')?.showAnimal(row);
    void this.renderRoot.querySelector('sd-card')?.show(row);
  }

  /** Keeps the count in hand, without leaving its row. */
  async keepTyped(): Promise<void> {
    const grid = this.renderRoot.querySelector('sd-grid');
    grid?.hand.commit();
    await this.renderRoot.querySelector('sd-card')?.commitDrafts();
    await this.session.value?.settled();
  }

  /** Never rejects: a fault in the line is no reason to keep the grid from drawing. */
  private readonly lineDrawn = async (): Promise<void> => {
    await Promise.allSettled([this.updateComplete]);
    await Promise.allSettled([this.renderRoot.querySelector('sd-formula-bar')?.updateComplete]);
  };

  private async show(view: View): Promise<void> {
    const row = this.renderRoot.querySelector('sd-card')?.row ?? this.cell?.row;
    this.view = view;
    await this.updateComplete;
    if (row === undefined) return;
    this.renderRoot.querySelector('sd-grid')?.showAnimal(row, false);
    void this.renderRoot.querySelector('sd-card')?.show(row);
  }

  private onFocusCell(event: CustomEvent<Place>): void {
    this.cell = event.detail;
  }

  private onOpenDay(event: CustomEvent<{ day: string }>): void {
    void this.session.value?.open(event.detail.day);
  }

  private onColumnDialog(event: CustomEvent<{ column: string | null }>): void {
    event.stopPropagation();
    void openDialog<SdColumnsDialog>(
      this,
      'sd-columns-dialog',
      () => import('./sd-columns-dialog.ts'),
      (dialog) => dialog.show(event.detail.column),
    );
  }

  private renderViews(): TemplateResult {
    const choice = (view: View, words: string): TemplateResult => html`
      <button aria-pressed=${this.view === view ? 'true' : 'false'} @click=${() => this.show(view)}>
        ${words}
      </button>
    `;
    return html`<div class="views" role="group" aria-label=${say('How the counts are shown')}>
      ${choice('grid', say('All animals'))} ${choice('card', say('One animal'))}
    </div>`;
  }

  protected override willUpdate(): void {
    this.dataset['view'] = this.view;
  }

  protected override render(): TemplateResult {
    return html`
      <div class="counts">
        ${this.renderViews()}
        ${this.view === 'card' ? html`<sd-card></sd-card>` : this.renderGrid()}
      </div>
      <sd-own-cups></sd-own-cups>
    `;
  }

  private renderGrid(): TemplateResult {
    return html`
      <sd-formula-bar .cell=${this.cell} @sd-done=${this.focus}></sd-formula-bar>
      <sd-grid
        .drawnFirst=${this.lineDrawn}
        .view=${this.gridView}
        @sd-focus-cell=${this.onFocusCell}
        @sd-open-day=${this.onOpenDay}
        @sd-column-dialog=${this.onColumnDialog}
        @sd-choosing=${(event: CustomEvent<{ isOpen: boolean }>) =>
          this.toggleAttribute('data-is-choosing', event.detail.isOpen)}
      ></sd-grid>
    `;
  }
}

customElements.define('sd-counts', SdCounts);

declare global {
  interface HTMLElementTagNameMap {
    'sd-counts': SdCounts;
  }
  interface HTMLElementEventMap {
    'sd-choosing': CustomEvent<{ isOpen: boolean }>;
    'sd-column-dialog': CustomEvent<{ column: string | null }>;
  }
}
