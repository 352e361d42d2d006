import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { aboutOf } from '../src/notebook/read.ts';
import type { Saved, Session } from '../src/session/session.ts';
import { AfterPaint } from './after-paint.ts';
import { localTime } from './changed-words.ts';
import { countedOf, countedWords } from './counted-words.ts';
import { pageActions, type PageAction } from './page-actions.ts';
import { deepActive } from './sd-sheet.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';
import './sd-menu.ts';
import { say } from '../src/text/say.ts';

/**
 * The head of an open notebook: its name, whether it is saved, how many are counted, undo and redo,
 * and the page's actions. Fires `leave-notebook` for the way back to the list.
 */
export class SdPageHeader extends LitElement {
  static override properties = { page: { attribute: false }, isNarrow: { type: Boolean } };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
      }

      header {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 4px 12px;
        padding: 8px 20px;
      }

      .name {
        flex: 1 1 12em;
        min-width: 0;
      }

      h1 {
        display: inline;
        font-size: 1.25rem;
        overflow-wrap: anywhere;
      }

      h1:focus {
        outline: none;
      }

      .place {
        margin-left: 8px;
        color: var(--soft);
      }

      .state {
        display: flex;
        flex-wrap: wrap;
        gap: 0 12px;
        font-size: var(--size-small);
        color: var(--soft);
      }

      .saved {
        color: var(--accent);
        font-weight: 600;
      }

      .saved.not {
        color: var(--warm);
      }

      .tools {
        display: flex;
        flex-wrap: wrap;
        gap: 8px;
      }

      .back {
        min-width: 44px;
        min-height: 44px;
        margin-left: -10px;
      }

      .tools button {
        min-height: 44px;
      }

      @media (max-width: 43.75em) {
        header {
          gap: 0 4px;
          padding: 4px 8px 6px 14px;
        }

        .name {
          flex: 1 1 50%;
        }

        .place {
          display: none;
        }

        .state {
          flex: 1 1 8em;
          min-width: 0;
          order: 3;
        }

        .tools {
          display: contents;
        }

        .tools > button {
          order: 4;
          padding-inline: 10px;
        }
      }

      @media print {
        .tools,
        .back,
        .saved {
          display: none;
        }

        header {
          padding: 0;
        }
      }
    `,
  ];

  /** Where dialogs are put: the page this header heads. */
  declare page: HTMLElement | undefined;
  declare isNarrow: boolean;
  private readonly about = new Select(this, (session) => aboutOf(session.notebook));
  private readonly saved = new Select(this, (session) => session.saved, { saved: true });
  private readonly undoing = new Select(this, (session) => session.undoLabel);
  private readonly redoing = new Select(this, (session) => session.redoLabel);
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });
  private readonly counted = new AfterPaint(this, countedOf);

  constructor() {
    super();
    this.isNarrow = false;
  }

  /** Where the keyboard starts when a notebook has just been opened. */
  focusTitle(): void {
    this.renderRoot.querySelector('h1')?.focus();
  }

  /** The notebook is nowhere but in the page, even before anything is typed. */
  private get isInMemory(): boolean {
    const notices = this.services.value?.notices() ?? [];
    return notices.some(({ kind }) => kind === 'memory only');
  }

  private tell(name: string): void {
    this.dispatchEvent(new CustomEvent(name, { bubbles: true, composed: true }));
  }

  private async act(action: PageAction): Promise<void> {
    const { session } = this.about;
    const services = this.services.value;
    if (session && services && this.page) await action.run(session, this.page, services);
  }

  private renderTools(session: Session): TemplateResult {
    const services = this.services.value;
    const offered = pageActions.filter(
      ({ isOffered }) => !isOffered || (services !== undefined && isOffered(services)),
    );
    const inHeader = offered.filter(({ place }) => place === 'header' && !this.isNarrow);
    const more = offered.filter((action) => !inHeader.includes(action));
    const undo = this.undoing.value;
    const redo = this.redoing.value;
    return html`
      <div class="tools">
        <button
          aria-disabled=${session.undoLabel === null ? 'true' : 'false'}
          @mousedown=${stay}
          aria-label=${undo ? say('Undo {change}', { change: undo }) : say('Undo')}
          title=${undo ? say('Undo: {change} (Ctrl+Z)', { change: undo }) : nothing}
          @click=${() => this.tell('page-undo')}
        >
          ${say('Undo')}
        </button>
        <button
          aria-disabled=${session.redoLabel === null ? 'true' : 'false'}
          @mousedown=${stay}
          aria-label=${redo ? say('Redo {change}', { change: redo }) : say('Redo')}
          title=${redo ? say('Redo: {change} (Ctrl+Y)', { change: redo }) : nothing}
          @click=${() => this.tell('page-redo')}
        >
          ${say('Redo')}
        </button>
        ${inHeader.map(
          (action) => html`<button @click=${() => this.act(action)}>${action.label}</button>`,
        )}
        <sd-menu
          label=${say('More to do')}
          text=${say('More')}
          .choices=${more.map((action) => ({ label: action.label, run: () => this.act(action) }))}
        ></sd-menu>
      </div>
    `;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { session } = this.about;
    if (!session) return nothing;
    const { title, place } = this.about.value ?? {};
    const counted = this.counted.value;
    return html`
      <header>
        <button
          class="quiet back"
          aria-label=${say('Back to your notebooks')}
          @click=${() => this.tell('leave-notebook')}
        >
          <span aria-hidden="true">‹</span>
        </button>
        <div class="name">
          <h1 tabindex="-1">${title || say('Notebook without a name')}</h1>
          ${place ? html`<span class="place">${place}</span>` : nothing}
        </div>
        <div class="state">
          ${this.isInMemory ? html`<span class="saved not">${say('Not saved')}</span>` : renderSaved(this.saved.value)}
          ${counted ? html`<span>${countedWords(counted)}</span>` : nothing}
        </div>
        ${this.renderTools(session)}
      </header>
    `;
  }
}

/**
 * A press on Undo does not leave the cup in hand: leaving it would first fill in the zeros of egg types
 * looked for, and Undo would take back those and not what is written on it.
 */
function stay(event: MouseEvent): void {
  for (let at: Node | null = deepActive(); at; at = at.parentNode ?? hostOf(at))
    if (at instanceof Element && at.localName === 'sd-counts') event.preventDefault();
}

function hostOf(node: Node): Element | null {
  return node instanceof ShadowRoot ? node.host : null;
}

function renderSaved(saved: Saved | undefined): TemplateResult | typeof nothing {
  if (!saved) return nothing;
  if (saved.state === 'memory') return html`<span class="saved not">${say('Not saved')}</span>`;
  if (saved.state === 'saving') return html`<span class="saved">${say('Saving…')}</span>`;
  const words =
    saved.at === null ? say('Saved') : say('Saved {time}', { time: localTime(new Date(saved.at)) });
  return html`<span class="saved">${words}</span>`;
}

customElements.define('sd-page-header', SdPageHeader);

declare global {
  interface HTMLElementTagNameMap {
    'sd-page-header': SdPageHeader;
  }
}
