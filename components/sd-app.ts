import { ContextProvider } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Notebook } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { aboutOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { DropFile } from './drop-file.ts';
import { openDialog } from './open-dialog.ts';
import type { SdMergeDialog } from './sd-merge-dialog.ts';
import type { SdPage } from './sd-page.ts';
import { programName } from './program-name.ts';
import { servicesContext, type Services } from './services.ts';
import { sessionContext } from './session-context.ts';
import { theme } from './theme.ts';
import './sd-banner.ts';
import './sd-page.ts';
import './sd-reminders.ts';
import './sd-start.ts';
import './sd-update-offer.ts';
import { say } from '../src/text/say.ts';

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

      .over {
        position: fixed;
        inset: 12px;
        z-index: 10;
        display: grid;
        place-items: center;
        border: 3px dashed var(--accent);
        border-radius: 10px;
        background: color-mix(in oklab, var(--accent-soft) 88%, transparent);
        font-size: var(--size-large);
        font-weight: 600;
        pointer-events: none;
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
  private readonly drop = new DropFile(this, (file) => void this.take(file));
  private turn = 0;

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
      this.services.subscribeAgain((session) => void this.openAgain(session));
      void this.followAddress();
    }
  }

  /** Another tab took the writing over, or left it to this one: the same day, on firmer ground. */
  private async openAgain(former: Session): Promise<void> {
    if (former !== this.session || !this.services) return;
    const turn = this.begin();
    const day = former.openDay;
    const session = await this.services.openAgain(former);
    if (turn !== this.turn) return;
    if (isFault(session)) {
      this.trouble = session.sentence;
      this.leave();
      return;
    }
    this.session = session;
    this.sessionGiven.setValue(session);
    if (day !== null) await session.open(day);
  }

  /** The browser's Back takes the page away: what is being typed is kept first. */
  private readonly onAddress = (): void => {
    const kept = this.renderRoot.querySelector('sd-page')?.keepTyped();
    void Promise.resolve(kept).then(() => this.followAddress());
  };

  private async followAddress(): Promise<void> {
    const { services } = this;
    if (!services) return;
    const id = new URLSearchParams(location.hash.slice(1)).get('notebook');
    if (id !== null) await this.load(id);
    else if (new URLSearchParams(location.search).has('demo')) await this.openDemo();
    else this.leave();
  }

  /** The demo is made once; after that it is a notebook like any other, edits and all. */
  private async openDemo(): Promise<void> {
    const { services } = this;
    if (!services) return;
    const kept = await services.shelf.read(services.demo.id);
    // Any other fault is told when it is opened: what is kept there must not be written over.
    if (isFault(kept) && kept.fault === 'no-notebook')
      await services.shelf.add(await services.demo.make());
    else await services.shelf.restore(services.demo.id);
    await this.load(services.demo.id);
  }

  private async load(id: string): Promise<void> {
    if (this.session?.notebook.id === id) return;
    const turn = this.begin();
    this.isOpening = true;
    const session = await this.services?.openSession(id);
    if (session === undefined) return;
    if (turn !== this.turn) {
      if (!isFault(session)) this.services?.endSession(session);
    } else if (isFault(session)) {
      this.trouble = session.sentence;
      this.leave();
    } else {
      this.trouble = '';
      await this.show(session);
    }
  }

  /** A newer wish supersedes an older one that is still on its way. */
  private begin(): number {
    this.turn += 1;
    return this.turn;
  }

  private async show(session: Session): Promise<void> {
    if (this.session) this.services?.endSession(this.session);
    this.session = session;
    this.sessionGiven.setValue(session);
    this.isOpening = false;
    document.title = `${aboutOf(session.notebook).title ?? say('Notebook')} · ${programName}`;
    await this.updateComplete;
    await session.openNewest();
  }

  private leave(): void {
    this.begin();
    const left = this.session;
    if (left) this.services?.endSession(left);
    this.session = undefined;
    this.sessionGiven.setValue(undefined);
    this.isOpening = false;
    document.title = programName;
    // What had the focus goes with the notebook's page.
    if (left)
      void this.updateComplete.then(() => this.renderRoot.querySelector('sd-start')?.focusTitle());
  }

  private get page(): SdPage | null {
    return this.renderRoot.querySelector('sd-page');
  }

  /** A file dropped anywhere: what it is for depends on what is open. */
  private async take(file: File): Promise<void> {
    const { page, services } = this;
    if (page && services) {
      const { takeFile } = await import('./take-file.ts');
      await takeFile(page, services, file);
    } else {
      await this.renderRoot.querySelector('sd-start')?.take(file);
    }
  }

  /** Opens a notebook of the list; one read from a file may come with it, to be brought in. */
  private async onOpen(event: CustomEvent<{ id: string; bring?: Notebook }>): Promise<void> {
    const { id, bring } = event.detail;
    history.pushState(null, '', `${location.pathname}#notebook=${encodeURIComponent(id)}`);
    await this.load(id);
    const { page } = this;
    if (!bring || !page) return;
    await openDialog<SdMergeDialog>(
      page,
      'sd-merge-dialog',
      () => import('./sd-merge-dialog.ts'),
      (dialog) => dialog.take(say('the file'), bring),
    );
  }

  private async onOpenNew(
    event: CustomEvent<{ notebook: Notebook; isFromFile?: boolean }>,
  ): Promise<void> {
    const { notebook, isFromFile } = event.detail;
    await this.services?.shelf.add(notebook);
    history.pushState(null, '', `${location.pathname}#notebook=${encodeURIComponent(notebook.id)}`);
    await this.load(notebook.id);
    const { session } = this;
    if (isFromFile && session?.notebook.id === notebook.id)
      await this.services?.noteInFile(session);
  }

  /** A notebook from a file that is none of the open one's copies: opened by way of the list. */
  private async onOpenFile(event: CustomEvent<{ notebook: Notebook }>): Promise<void> {
    this.onLeave();
    await this.updateComplete;
    await this.renderRoot.querySelector('sd-start')?.openNotebook(event.detail.notebook);
  }

  private async onOpenDemo(): Promise<void> {
    history.pushState(null, '', `${location.pathname}?demo`);
    await this.openDemo();
  }

  private onLeave(): void {
    history.pushState(null, '', location.pathname);
    this.leave();
  }

  protected override render(): TemplateResult {
    const page = this.session
      ? html`<sd-page
          @leave-notebook=${this.onLeave}
          @open-new=${this.onOpenNew}
          @open-file=${this.onOpenFile}
        ></sd-page>`
      : this.isOpening
        ? html`<p class="wait soft" role="status">${say('Opening…')}</p>`
        : html`<sd-start
            .trouble=${this.trouble}
            @open-notebook=${this.onOpen}
            @open-new=${this.onOpenNew}
            @open-demo=${this.onOpenDemo}
          ></sd-start>`;
    return html`
      <sd-update-offer></sd-update-offer>
      <sd-banner @sd-focus-gone=${() => this.page?.focusTitle()}></sd-banner>
      <sd-reminders .page=${() => this.page}></sd-reminders>
      ${page}
      ${this.drop.isOver ? html`<div class="over">${say('Drop the file here')}</div>` : nothing}
    `;
  }
}

customElements.define('sd-app', SdApp);

declare global {
  interface HTMLElementTagNameMap {
    'sd-app': SdApp;
  }
}
