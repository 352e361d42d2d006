import { LitElement, css, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import type { Block } from '../shared/notebook.ts';
import { changeBlock, removeRecord, reorderBlock } from '../src/notebook/edit-records.ts';
import { blocksOf, herdWordOf } from '../src/notebook/read.ts';
import { blockRegistry, blockTitle, type BlockElement } from './block-registry.ts';
import { pageOf, tell } from './page-message.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-menu.ts';
import './sd-rename-block.ts';
import type { SdRenameBlock } from './sd-rename-block.ts';
import { say } from '../src/text/say.ts';

/**
 * The frame around one block of the page: its heading, folding, its place on the page, and the
 * element of its kind inside. A kind this version does not know says so and keeps its place.
 */
export class SdBlock extends LitElement {
  static override properties = {
    block: { attribute: false },
    inner: { state: true },
    trouble: { state: true },
  };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
      }

      .frame {
        padding: 10px 20px 18px;
        border-bottom: 1px solid var(--line);
      }

      .frame.counts {
        padding: 8px 0 24px 20px;
        border-bottom: 0;
      }

      .counts sd-counts {
        --counts-height: max(440px, calc(100dvh - 124px));
      }

      .head {
        display: flex;
        align-items: center;
        gap: 4px;
      }

      h2 {
        flex: 1;
        min-width: 0;
        font-size: 1.0625rem;
        overflow-wrap: anywhere;
      }

      .fold {
        width: 100%;
        justify-content: flex-start;
        min-height: 40px;
        margin-left: -10px;
        padding-inline: 10px;
        font-size: inherit;
        font-weight: inherit;
        text-align: left;
      }

      .fold::before {
        content: '';
        flex: none;
        width: 7px;
        height: 7px;
        border: solid var(--soft);
        border-width: 0 2px 2px 0;
        transform: rotate(45deg) translate(-2px, -2px);
      }

      .fold[aria-expanded='false']::before {
        transform: rotate(-45deg);
      }

      .more {
        opacity: 0.75;
      }

      @media (max-width: 43.75em) {
        .frame {
          padding-inline: 14px;
        }

        .frame.counts {
          padding: 6px 0 16px;
        }

        .counts sd-counts {
          --counts-height: 82dvh;
        }
      }

      @media print {
        .frame.counts {
          display: none;
        }

        .frame {
          padding-inline: 0;
          border: 0;
          break-inside: auto;
        }

        .fold {
          margin: 0;
          padding: 0;
        }

        .fold::before,
        .more {
          display: none;
        }
      }
    `,
  ];

  declare block: Block | undefined;
  declare private inner: BlockElement | undefined;
  declare private trouble: string;
  private readonly blocks = new Select(this, (session) => blocksOf(session.notebook));
  private readonly herd = new Select(this, (session) => herdWordOf(session.notebook));

  constructor() {
    super();
    this.trouble = '';
  }

  private titleOf(block: Block): string {
    return blockTitle(block, this.herd.value ?? 'herd');
  }

  /** Brings the block to the eye and the keyboard to its heading. */
  goTo(): void {
    this.scrollIntoView({ block: 'start' });
    const isGrid = this.block?.kind === 'grid';
    const target = isGrid ? this.inner : this.renderRoot.querySelector<HTMLElement>('.fold');
    target?.focus({ preventScroll: true });
  }

  /** Shows an animal's row, if this is a block that has rows. */
  showAnimal(row: string): void {
    if (!this.inner?.showAnimal) return;
    this.scrollIntoView({ block: 'nearest' });
    this.inner.showAnimal(row);
  }

  /** Keeps what is being typed in it. */
  async keepTyped(): Promise<void> {
    await this.inner?.keepTyped?.();
  }

  protected override willUpdate(changed: PropertyValues): void {
    if (!changed.has('block') || !this.block) return;
    const former = changed.get('block') as Block | undefined;
    if (former?.kind !== this.block.kind || former.id !== this.block.id) void this.fetchInner();
  }

  private async fetchInner(): Promise<void> {
    const { block } = this;
    const part = block && blockRegistry[block.kind];
    this.inner = undefined;
    this.trouble = '';
    if (!block || !part) return;
    try {
      await part.load();
    } catch {
      this.trouble = say(
        'The part of the page for "{name}" did not arrive. Reload the page to try again; nothing typed is lost.',
        { name: part.name },
      );
      return;
    }
    if (this.block?.id !== block.id) return;
    const element = document.createElement(part.tag) as Element as BlockElement;
    element.blockId = block.id;
    this.inner = element;
  }

  private async fold(): Promise<void> {
    const { block } = this;
    if (!block) return;
    const folded = block.folded !== true;
    const title = this.titleOf(block);
    const label = folded ? say('folding {title}', { title }) : say('unfolding {title}', { title });
    await this.blocks.session?.dispatch(changeBlock(block.id, { folded }, label));
  }

  /** Moves the block one place up (-1) or down (1) on the page. */
  private async move(by: -1 | 1): Promise<void> {
    const { session, value: blocks = [] } = this.blocks;
    const { block } = this;
    if (!session || !block) return;
    const at = blocks.findIndex(({ id }) => id === block.id);
    const before = by < 0 ? blocks[at - 1] : blocks[at + 2];
    if (by < 0 && !before) return;
    await session.dispatch(reorderBlock(session.notebook, block.id, before?.id ?? null));
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('sd-menu')?.scrollIntoView({ block: 'nearest' });
  }

  private async takeOff(): Promise<void> {
    const { block } = this;
    if (!block) return;
    const title = this.titleOf(block);
    const page = pageOf(this);
    const { session } = this.blocks;
    if (!session?.mayWrite()) return;
    await session.dispatch(removeRecord('blocks', block.id, say('removing {title}', { title })));
    tell(page, say('"{title}" is off the page.', { title }), 'with undo');
  }

  private get choices() {
    const { value: blocks = [] } = this.blocks;
    const at = blocks.findIndex(({ id }) => id === this.block?.id);
    return [
      { label: say('Rename'), run: () => this.renamer?.open(this.block) },
      { label: say('Move up'), run: () => this.move(-1), isDisabled: at <= 0 },
      { label: say('Move down'), run: () => this.move(1), isDisabled: at === blocks.length - 1 },
      { label: say('Take off the page'), run: () => this.takeOff() },
    ];
  }

  private get renamer(): SdRenameBlock | null {
    return this.renderRoot.querySelector('sd-rename-block');
  }

  private renderInner(block: Block): TemplateResult {
    if (this.trouble) return html`<p class="fault" role="alert">${this.trouble}</p>`;
    if (this.inner) return html`${this.inner}`;
    if (blockRegistry[block.kind]) return html`<p class="soft">${say('Opening…')}</p>`;
    return html`<p class="soft">
      ${say('This version of the program cannot show a block of the kind "{kind}". It is kept as it is.', { kind: block.kind })}
    </p>`;
  }

  private renderHead(title: string, isFolded: boolean): TemplateResult {
    return html`
      <div class="head">
        <h2>
          <button
            class="quiet fold"
            aria-expanded=${isFolded ? 'false' : 'true'}
            @click=${this.fold}
          >
            ${title}
          </button>
        </h2>
        <sd-menu
          class="more"
          label=${say('More about {title}', { title })}
          .choices=${this.choices}
        ></sd-menu>
      </div>
    `;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { block } = this;
    if (!block) return nothing;
    const isGrid = block.kind === 'grid';
    const isFolded = block.folded === true && !isGrid;
    const title = this.titleOf(block);
    return html`
      <section class=${isGrid ? 'frame counts' : 'frame'} aria-label=${title}>
        ${isGrid ? html`<h2 class="visually-hidden">${title}</h2>` : this.renderHead(title, isFolded)}
        <div ?hidden=${isFolded}>${this.renderInner(block)}</div>
      </section>
      <sd-rename-block></sd-rename-block>
    `;
  }
}

customElements.define('sd-block', SdBlock);

declare global {
  interface HTMLElementTagNameMap {
    'sd-block': SdBlock;
  }
}
