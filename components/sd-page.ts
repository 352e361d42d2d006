import { ContextConsumer } from '@lit/context';
import { LitElement, html, nothing, type TemplateResult } from 'lit';
import type { Block, BlockKind } from '../shared/notebook.ts';
import { addBlock } from '../src/notebook/edit-records.ts';
import type { Session } from '../src/session/session.ts';
import { animalsOf, blocksOf, daysOf, herdWordOf } from '../src/notebook/read.ts';
import { blockRegistry, blockTitle } from './block-registry.ts';
import { openDialog } from './open-dialog.ts';
import { tell, type PageMessage } from './page-message.ts';
import { SdSheet } from './sd-sheet.ts';
import type { SdAnimalHistory } from './sd-animal-history.ts';
import { SdBlock } from './sd-block.ts';
import type { SdDayBar } from './sd-day-bar.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { pageStyles } from './sd-page-styles.ts';
import { theme } from './theme.ts';
import './sd-day-bar.ts';
import './sd-menu.ts';
import './sd-page-header.ts';
import './sd-paper-counts.ts';
import { say } from '../src/text/say.ts';

/** A change taken back or done again, and the places written since. */
interface TakenBack {
  readonly label: string;
  readonly passedOver: readonly unknown[];
}

/** From this width on, blocks of the side stand beside the counts. */
const wideEnough = '(min-width: 62.5em)';

/**
 * An open notebook: its head, its days, and its blocks in the person's order; on a wide screen in two
 * columns, else one below the other with links to each. Undo and redo by Ctrl+Z and Ctrl+Y, wherever
 * no field of its own has a use for them.
 */
export class SdPage extends LitElement {
  static override properties = { message: { state: true }, isWide: { state: true } };

  static override styles = [...theme, pageStyles];

  declare private message: PageMessage | undefined;
  declare private isWide: boolean;
  private readonly blocks = new Select(this, (session) => blocksOf(session.notebook));
  private readonly herd = new Select(this, (session) => herdWordOf(session.notebook));
  private readonly hasDays = new Select(this, (session) => daysOf(session.notebook).length > 0);
  private readonly hasAnimals = new Select(
    this,
    (session) => animalsOf(session.notebook).length > 0,
  );
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });
  private readonly width = window.matchMedia(wideEnough);
  private readonly frames = new Map<string, SdBlock>();
  private sessionOfMessage: Session | undefined;

  constructor() {
    super();
    this.isWide = this.width.matches;
    new Select(this, () => undefined, { when: (notice) => this.onNotice(notice.transaction) });
    this.addEventListener('page-message', (event) =>
      this.onMessage(event as CustomEvent<PageMessage>),
    );
    this.addEventListener('beforeinput', this.onBeforeInput, { capture: true });
    this.addEventListener('go-to-animal', (event) => {
      const { row } = (event as CustomEvent<{ row: string }>).detail;
      for (const frame of this.frames.values()) frame.showAnimal(row);
    });
    this.addEventListener('sd-show-animal', (event) => this.showHistory(event));
    this.addEventListener('sd-go-to-block', (event) => this.goToBlock(event.detail.kind));
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.width.addEventListener('change', this.onWidth);
    window.addEventListener('keydown', this.onKeydown);
  }

  override disconnectedCallback(): void {
    this.width.removeEventListener('change', this.onWidth);
    window.removeEventListener('keydown', this.onKeydown);
    super.disconnectedCallback();
  }

  /** A message is about the session it was said in. */
  protected override willUpdate(): void {
    if (this.sessionOfMessage !== this.blocks.session) this.message = undefined;
    this.sessionOfMessage = this.blocks.session;
  }

  protected override firstUpdated(): void {
    void this.updateComplete.then(() => this.focusTitle());
  }

  /** To the name of the notebook, where its page begins. */
  focusTitle(): void {
    this.renderRoot.querySelector('sd-page-header')?.focusTitle();
  }

  private readonly onWidth = (): void => {
    this.isWide = this.width.matches;
  };

  private readonly onKeydown = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || event.altKey || !(event.ctrlKey || event.metaKey)) return;
    const key = event.key.toLowerCase();
    const isUndo = key === 'z' && !event.shiftKey;
    const isRedo = key === 'y' || (key === 'z' && event.shiftKey);
    const target = event.composedPath()[0];
    const isField = target instanceof HTMLElement && target.matches('input, textarea, select');
    if (isField || !(isUndo || isRedo)) return;
    event.preventDefault();
    void (isUndo ? this.undo() : this.redo());
  };

  /** Where another tab writes, not a letter may be typed here that would then be lost. */
  private readonly onBeforeInput = (event: InputEvent): void => {
    const target = event.composedPath()[0];
    const isSearch = target instanceof HTMLInputElement && target.type === 'search';
    const { session } = this.blocks;
    if (isSearch || !session || session.isWriting) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    // A dialog says it itself: over the page it would not be seen.
    const isInSheet = event.composedPath().some((at) => at instanceof SdSheet);
    if (isInSheet) {
      session.mayWrite();
      return;
    }
    const sentence = say(
      'Another tab writes this notebook: take over at the top of the page to type here.',
    );
    this.message = { sentence, canUndo: false };
  };

  private onMessage(event: CustomEvent<PageMessage>): void {
    this.message = event.detail;
  }

  private onNotice(transaction: object | undefined): boolean {
    if (transaction) this.message = undefined;
    return false;
  }

  /** Keeps what is being typed anywhere on the page. */
  async keepTyped(): Promise<void> {
    for (const frame of this.frames.values()) await frame.keepTyped();
  }

  private async undo(): Promise<void> {
    await this.keepTyped();
    const undone = await this.blocks.session?.undo();
    if (undone) this.sayTakenBack(undone);
  }

  private async redo(): Promise<void> {
    await this.keepTyped();
    const redone = await this.blocks.session?.redo();
    if (redone) this.sayDoneAgain(redone);
  }

  /** What others wrote since is theirs, and passed over. */
  private sayTakenBack({ label, passedOver }: TakenBack): void {
    const sentence = say(
      '{n, plural, =0 {Undone: {change}.} one {Undone: {change}. One place was written since and left as it is.} other {Undone: {change}. # places were written since and left as they are.}}',
      { change: label, n: passedOver.length },
    );
    this.message = { sentence, canUndo: false };
  }

  private sayDoneAgain({ label, passedOver }: TakenBack): void {
    const sentence = say(
      '{n, plural, =0 {Done again: {change}.} one {Done again: {change}. One place was written since and left as it is.} other {Done again: {change}. # places were written since and left as they are.}}',
      { change: label, n: passedOver.length },
    );
    this.message = { sentence, canUndo: false };
  }

  /** The frame of a block, made once, so that moving it keeps what stands in it. */
  private frameOf(block: Block): SdBlock {
    const frame = this.frames.get(block.id) ?? new SdBlock();
    this.frames.set(block.id, frame);
    frame.block = block;
    return frame;
  }

  private showHistory({ detail }: CustomEvent<{ row: string }>): void {
    void openDialog<SdAnimalHistory>(
      this,
      'sd-animal-history',
      () => import('./sd-animal-history.ts'),
      (dialog) => dialog.show(detail.row),
    );
  }

  private goToBlock(kind: string): void {
    const block = this.blocks.value?.find((each) => each.kind === kind);
    if (block) this.frames.get(block.id)?.goTo();
    else tell(this, say('That block is not on this page. Add it with Add a block, at the end.'));
  }

  private async addBlock(kind: BlockKind, name: string): Promise<void> {
    const { session } = this.blocks;
    const id = this.services.value?.newId();
    if (!session || id === undefined) return;
    await session.dispatch(addBlock(session.notebook, id, kind, name));
    await this.updateComplete;
    await this.frames.get(id)?.updateComplete;
    this.frames.get(id)?.goTo();
  }

  private renderColumns(blocks: readonly Block[]): TemplateResult {
    if (!this.isWide) return html`<main class="one">${blocks.map((b) => this.frameOf(b))}</main>`;
    const isSide = (block: Block): boolean => blockRegistry[block.kind]?.place === 'side';
    return html`
      <main class="two">
        <div class="wide">${blocks.filter((b) => !isSide(b)).map((b) => this.frameOf(b))}</div>
        <div class="side">${blocks.filter(isSide).map((b) => this.frameOf(b))}</div>
      </main>
    `;
  }

  private renderLinks(blocks: readonly Block[]): TemplateResult | typeof nothing {
    if (this.isWide || blocks.length < 2) return nothing;
    return html`
      <nav class="links" aria-label=${say('Parts of the page')}>
        ${blocks.map(
          (block) =>
            html`<button class="quiet" @click=${() => this.frames.get(block.id)?.goTo()}>
              ${blockTitle(block, this.herd.value ?? 'herd')}
            </button>`,
        )}
      </nav>
    `;
  }

  private renderFirstSteps(): TemplateResult | typeof nothing {
    if (this.hasDays.value !== false && this.hasAnimals.value !== false) return nothing;
    return html`
      <div class="first">
        <p>
          ${
            this.hasAnimals.value
              ? say('Now add the day of the sampling.')
              : this.hasDays.value
                ? say('Now add your animals, by typing or pasting their tags.')
                : say(
                    'First add your animals, by typing or pasting their tags; then the day of the sampling.',
                  )
          }
        </p>
        <button
          class=${this.hasAnimals.value ? nothing : 'main'}
          @click=${() =>
            openDialog(this, 'sd-animals-dialog', () => import('./sd-animals-dialog.ts'))}
        >
          ${say('Add animals')}
        </button>
        ${
          this.hasDays.value
            ? nothing
            : html`<button
                class=${this.hasAnimals.value ? 'main' : nothing}
                @click=${() => this.renderRoot.querySelector<SdDayBar>('sd-day-bar')?.add()}
              >
                ${say('Add a sampling day')}
              </button>`
        }
      </div>
    `;
  }

  private renderMessage(): TemplateResult {
    const { message } = this;
    return html`
      <div class="foot" role="status">
        ${
          message
            ? html`<div class="message">
                <span>${message.sentence}</span>
                ${
                  message.canUndo
                    ? html`<button class="quiet" @click=${this.undo}>${say('Undo')}</button>`
                    : nothing
                }
                <button
                  class="quiet icon"
                  aria-label=${say('Close this message')}
                  @click=${() => {
                    this.message = undefined;
                  }}
                >
                  <span aria-hidden="true">×</span>
                </button>
              </div>`
            : nothing
        }
      </div>
    `;
  }

  protected override render(): TemplateResult | typeof nothing {
    const blocks = this.blocks.value ?? [];
    const addable = Object.entries(blockRegistry).filter(([kind]) => kind !== 'grid');
    return html`
      <div class="top">
        <sd-page-header
          .page=${this}
          .isNarrow=${!this.isWide}
          @page-undo=${this.undo}
          @page-redo=${this.redo}
        ></sd-page-header>
        <sd-day-bar></sd-day-bar>
      </div>
      <sd-paper-counts></sd-paper-counts>
      ${this.renderLinks(blocks)} ${this.renderFirstSteps()} ${this.renderColumns(blocks)}
      <div class="end">
        <sd-menu
          label=${say('Add a block')}
          text=${say('Add a block')}
          .choices=${addable.map(([kind, part]) => ({
            label: part.name,
            run: () => this.addBlock(kind as BlockKind, part.name),
          }))}
        ></sd-menu>
      </div>
      ${this.renderMessage()}
    `;
  }
}

customElements.define('sd-page', SdPage);

declare global {
  interface HTMLElementTagNameMap {
    'sd-page': SdPage;
  }
}
