import { ContextProvider } from '@lit/context';
import { LitElement, css, html, type TemplateResult } from 'lit';
import type { Notebook } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { aboutOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { servicesContext, type Services } from './services.ts';
import { sessionContext } from './session-context.ts';
import { theme } from './theme.ts';
import './sd-banner.ts';
import './sd-page.ts';
import './sd-start.ts';

const program = 'Sampling Daybook';

/**
 * The shell: the list of notebooks, or one open notebook. Which one stands in the address
 * (`#notebook=…`, `?demo`), so that reloading comes back to the same page and Back goes to the list.
 */
export class SdApp extends LitElement {
  static override properties = {
    services: { attribute: false },
    session: { state: true },
    isOpening: { state: true },
    trouble: { state: true },
  };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
        min-height: 100dvh;
        background: var(--paper);
      }

      .wait {
        padding: 48px 20px;
        text-align: center;
      }
    `,
  ];

  declare services: Services | undefined;
  declare private session: Session | undefined;
  declare private isOpening: boolean;
  declare private trouble: string;
  private readonly servicesGiven = new ContextProvider(this, { context: servicesContext });
  private readonly sessionGiven = new ContextProvider(this, { context: sessionContext });
  private latest = 0;

  constructor() {
    super();
    this.isOpening = true;
    this.trouble = '';
  }

  override connectedCallback(): void {
    super.connectedCallback();
    window.addEventListener('popstate', this.onAddress);
  }

  override disconnectedCallback(): void {
    window.removeEventListener('popstate', this.onAddress);
    super.disconnectedCallback();
  }

  protected override willUpdate(changed: Map<PropertyKey, unknown>): void {
    if (changed.has('services') && this.services) {
      this.servicesGiven.setValue(this.services);
      void this.followAddress();
    }
  }

  private readonly onAddress = (): void => void this.followAddress();

  private async followAddress(): Promise<void> {
    const { services } = this;
    if (!services) return;
    const id = new URLSearchParams(location.hash.slice(1)).get('notebook');
    if (id !== null) await this.load(id);
    else if (new URLSearchParams(location.search).has('demo')) await this.openDemo();
    else await this.show(undefined);
  }

  private async openDemo(): Promise<void> {
    const { services } = this;
    if (!services) return;
    this.isOpening = true;
    const kept = await services.shelf.load(services.demo.id);
    if (!isFault(kept)) {
      await this.show(kept);
      return;
    }
    const made = await services.demo.make();
    await this.keepNew(made);
    await this.show(made);
  }

  private async load(id: string): Promise<void> {
    if (this.session?.notebook.id === id) return;
    this.isOpening = true;
    const notebook = await this.services?.shelf.load(id);
    if (notebook === undefined || isFault(notebook)) {
      this.trouble = notebook?.sentence ?? '';
      await this.show(undefined);
    } else {
      await this.show(notebook);
    }
  }

  /** A store that refuses is told of by the banner; the notebook opens all the same. */
  private async keepNew(notebook: Notebook): Promise<void> {
    await this.services?.shelf.add(notebook).catch(() => undefined);
  }

  private async show(notebook: Notebook | undefined): Promise<void> {
    const { services } = this;
    if (!services) return;
    this.latest += 1;
    const mine = this.latest;
    const former = this.session;
    const session = notebook && (await services.startSession(notebook));
    if (mine !== this.latest) {
      if (session) services.endSession(session);
      return;
    }
    if (former) services.endSession(former);
    this.session = session;
    this.sessionGiven.setValue(session);
    this.isOpening = false;
    if (session) this.trouble = '';
    document.title = session
      ? `${aboutOf(session.notebook).title ?? 'Notebook'} · ${program}`
      : program;
    await this.updateComplete;
    if (session) await session.openNewest();
  }

  private async onOpen(event: CustomEvent<{ id: string }>): Promise<void> {
    const { id } = event.detail;
    history.pushState(null, '', `${location.pathname}#notebook=${encodeURIComponent(id)}`);
    await this.load(id);
  }

  private async onOpenNew(event: CustomEvent<{ notebook: Notebook }>): Promise<void> {
    const { notebook } = event.detail;
    await this.keepNew(notebook);
    history.pushState(null, '', `${location.pathname}#notebook=${encodeURIComponent(notebook.id)}`);
    await this.show(notebook);
  }

  private async onOpenDemo(): Promise<void> {
    history.pushState(null, '', `${location.pathname}?demo`);
    await this.openDemo();
  }

  private async onLeave(): Promise<void> {
    history.pushState(null, '', location.pathname);
    await this.show(undefined);
  }

  protected override render(): TemplateResult {
    const page = this.session
      ? html`<sd-page @leave-notebook=${this.onLeave}></sd-page>`
      : this.isOpening
        ? html`<p class="wait soft" role="status">Opening…</p>`
        : html`<sd-start
            .trouble=${this.trouble}
            @open-notebook=${this.onOpen}
            @open-new=${this.onOpenNew}
            @open-demo=${this.onOpenDemo}
          ></sd-start>`;
    return html`<sd-banner></sd-banner>${page}`;
  }
}

customElements.define('sd-app', SdApp);

declare global {
  interface HTMLElementTagNameMap {
    'sd-app': SdApp;
  }
}
