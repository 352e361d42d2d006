import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Session } from '../src/session/session.ts';
import { clashesInParts } from '../src/notebook/clashes.ts';
import { aboutOf } from '../src/notebook/read.ts';
import { AfterPaint } from './after-paint.ts';
import { backupWords, remindFrom } from './backup-words.ts';
import { breather } from './breather.ts';
import { mayClash } from './clash-notice.ts';
import { openDialog } from './open-dialog.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/**
 * Two calm lines above an open notebook: that many counts are in no file yet, and that two copies which
 * were made one still differ somewhere. Says nothing while neither is so.
 */
export class SdReminders extends LitElement {
  static override properties = { page: { attribute: false }, putOff: { state: true } };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
      }

      .line {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 6px 12px;
        padding: 6px 20px;
        border-bottom: 1px solid var(--line);
        background: var(--accent-soft);
      }

      p {
        flex: 1 1 13em;
        margin: 0;
        font-size: 0.9375rem;
      }

      button {
        min-height: 44px;
      }

      @media (max-width: 43.75em) {
        .line {
          gap: 4px 8px;
          padding: 4px 14px;
        }

        p {
          font-size: var(--size-small);
        }
      }

      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  /** The element that holds dialogs. */
  declare page: () => HTMLElement | null;
  /** How many counts the reminder was last put off at, for the notebook that is open. */
  declare private putOff: { readonly id: string; readonly at: number } | undefined;
  private stop: (() => void) | undefined;
  private readonly session = new Select(this, (session) => session);
  private readonly unsaved = new Select(
    this,
    (session) => this.services.value?.notInFile(session) ?? 0,
    { saved: true },
  );
  private readonly isDemo = new Select(this, (session) => aboutOf(session.notebook).demo === true);
  private readonly clashes = new AfterPaint(
    this,
    (session, signal) => countClashes(session, signal),
    ({ transaction }) => transaction !== undefined && mayClash(transaction.changes),
  );
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
    callback: (services) => {
      this.stop?.();
      this.stop = services?.subscribeNotices(() => this.requestUpdate());
    },
  });

  constructor() {
    super();
    this.page = () => null;
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.stop?.();
  }

  /** As it stands now: saving to a file changes it without an edit. */
  private get counts(): number {
    const session = this.session.value;
    if (!session || this.isDemo.value === true) return 0;
    return this.services.value?.notInFile(session) ?? this.unsaved.value ?? 0;
  }

  private get isDue(): boolean {
    const { putOff, counts } = this;
    const before = putOff?.id === this.session.value?.notebook.id ? (putOff?.at ?? 0) : 0;
    return counts >= (before > counts ? 0 : before) + remindFrom;
  }

  private async save(): Promise<void> {
    const session = this.session.value;
    if (session) await this.services.value?.saveToFile(session);
  }

  private async share(): Promise<void> {
    const session = this.session.value;
    if (session) await this.services.value?.shareFile?.(session);
  }

  private later(): void {
    const id = this.session.value?.notebook.id;
    if (id !== undefined) this.putOff = { id, at: this.counts };
  }

  private async settle(): Promise<void> {
    const page = this.page();
    if (page) await openDialog(page, 'sd-clashes-dialog', () => import('./sd-clashes-dialog.ts'));
  }

  private renderBackup(): TemplateResult | typeof nothing {
    if (!this.isDue) return nothing;
    return html`
      <div class="line">
        <p>${backupWords(this.counts)}</p>
        <button @click=${this.save}>${say('Save to a file')}</button>
        ${
          this.services.value?.shareFile
            ? html`<button @click=${this.share}>${say('Share the file')}</button>`
            : nothing
        }
        <button class="quiet" @click=${this.later}>${say('Later')}</button>
      </div>
    `;
  }

  protected override render(): TemplateResult {
    const clashes = this.session.value ? (this.clashes.value ?? 0) : 0;
    return html`
      <div role="status">
        ${
          clashes === 0
            ? nothing
            : html`<div class="line">
                <p>
                  ${say('{n, plural, one {At one place two copies of this notebook differ. The newest value counts until you choose.} other {At # places two copies of this notebook differ. The newest value counts until you choose.}}', { n: clashes })}
                </p>
                <button @click=${this.settle}>${say('Choose')}</button>
              </div>`
        }
        ${this.renderBackup()}
      </div>
    `;
  }
}

/** At how many places two copies differ, counted in slices: a long season has a million cells. */
async function countClashes({ notebook }: Session, signal: AbortSignal): Promise<number> {
  const breath = breather(signal);
  let count = 0;
  for (const clashes of clashesInParts(notebook)) {
    count += clashes.length;
    if (breath.isDue) await breath.take();
  }
  return count;
}

customElements.define('sd-reminders', SdReminders);

declare global {
  interface HTMLElementTagNameMap {
    'sd-reminders': SdReminders;
  }
}
