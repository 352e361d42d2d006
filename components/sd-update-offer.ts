import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { isTyping } from './is-typing.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';
import { written } from './written.ts';
import { say } from '../src/text/say.ts';

/**
 * Offers a newer version of the page once it is ready. Never while something is being typed, so that nothing
 * moves under the hand; and taking it waits until what was typed is kept.
 */
export class SdUpdateOffer extends LitElement {
  static override properties = {
    isPutOff: { state: true },
    isTaking: { state: true },
    isBusy: { state: true },
  };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
      }

      /* Above the page's own messages, and on top of the page, so that nothing on it moves. */
      .offer {
        position: fixed;
        z-index: 8;
        inset: auto 12px calc(72px + env(safe-area-inset-bottom));
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 8px;
        width: fit-content;
        max-width: 44em;
        margin-inline: auto;
        padding: 8px 8px 8px 16px;
        border: 1px solid var(--accent);
        border-radius: var(--radius);
        background: var(--sheet);
        box-shadow: var(--shadow);
      }

      p {
        flex: 1 1 14em;
        margin: 0;
      }

      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  declare private isPutOff: boolean;
  declare private isTaking: boolean;
  /** Something is being typed. */
  declare private isBusy: boolean;
  /** Loads the page anew; a test puts its own here. */
  reload: () => void = () => location.reload();
  private readonly saved = new Select(this, (session) => session.saved, { saved: true });
  private stops: (() => void)[] = [];
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
    callback: (services) => {
      this.hush();
      const update = (): void => this.requestUpdate();
      const stops = [services?.offline?.subscribe(update), services?.subscribeNotices(update)];
      this.stops = stops.filter((stop) => stop !== undefined);
      this.requestUpdate();
    },
  });

  constructor() {
    super();
    this.isPutOff = false;
    this.isTaking = false;
    this.isBusy = false;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    for (const type of ['focusin', 'focusout', 'input', 'keyup'])
      window.addEventListener(type, this.onHand);
  }

  override disconnectedCallback(): void {
    for (const type of ['focusin', 'focusout', 'input', 'keyup'])
      window.removeEventListener(type, this.onHand);
    this.hush();
    super.disconnectedCallback();
  }

  private hush(): void {
    for (const stop of this.stops) stop();
    this.stops = [];
  }

  /** Looks once the focus has settled. */
  private readonly onHand = (): void => {
    setTimeout(() => {
      this.isBusy = isTyping(document);
    });
  };

  /** Why the newer version cannot be taken without losing something; '' when it can. */
  private get loss(): string {
    const notices = this.services.value?.notices() ?? [];
    const isOnlyHere =
      this.saved.value?.state === 'memory' ||
      (this.saved.session !== undefined && notices.some(({ kind }) => kind === 'memory only'));
    return isOnlyHere
      ? say(
          'What you typed is in this page alone: save the notebook to a file first, then reload the page.',
        )
      : '';
  }

  private async take(): Promise<void> {
    this.isTaking = true;
    await this.services.value?.offline?.take();
    const { session } = this.saved;
    if (session) await written(session);
    this.reload();
  }

  protected override render(): TemplateResult | typeof nothing {
    const isOffered = this.services.value?.offline?.isNewerReady === true;
    if (!isOffered || this.isPutOff || this.isBusy) return nothing;
    const { loss } = this;
    return html`
      <div class="offer" role="status">
        <p>${say('A newer version of this page is ready.')} ${loss}</p>
        ${
          loss === ''
            ? html`<button class="main" ?disabled=${this.isTaking} @click=${this.take}>
                ${say('Load the newer version')}
              </button>`
            : nothing
        }
        <button
          @click=${() => {
            this.isPutOff = true;
          }}
        >
          ${say('Later')}
        </button>
      </div>
    `;
  }
}

customElements.define('sd-update-offer', SdUpdateOffer);

declare global {
  interface HTMLElementTagNameMap {
    'sd-update-offer': SdUpdateOffer;
  }
}
