import { ContextConsumer } from '@lit/context';
import { LitElement, html, nothing, type TemplateResult } from 'lit';
import type { Notebook } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { bringsOf, type Brings } from '../src/notebook/merge-brings.ts';
import { aboutOf } from '../src/notebook/read.ts';
import type { Merged } from '../src/notebook/merge.ts';
import { mergeLabel } from '../src/session/session.ts';
import { mergeStyles } from './merge-styles.ts';
import { bringWords, doneWords } from './merge-words.ts';
import { openDialog } from './open-dialog.ts';
import { tell } from './page-message.ts';
import { Select } from './selector-controller.ts';
import { servicesContext } from './services.ts';
import { theme } from './theme.ts';
import './sd-merge-review.ts';
import './sd-sheet.ts';
import type { SdSheet } from './sd-sheet.ts';
import { say } from '../src/text/say.ts';

/** A file as it was read, and what merging it would come to. */
interface Look {
  readonly name: string;
  readonly theirs: Notebook;
  readonly merged: Merged;
  readonly brings: Brings;
}

/**
 * Brings in a second copy of the open notebook, as of the phone in the yard and the laptop at the bench:
 * what it would bring is shown first; done, it is one step that undo takes back until the next edit. Where
 * both copies wrote one place, both values stay until a person chooses.
 */
export class SdMergeDialog extends LitElement {
  static override properties = {
    fault: { state: true },
    other: { state: true },
    look: { state: true },
    apart: { state: true },
    done: { state: true },
    isWorking: { state: true },
  };

  static override styles = [...theme, mergeStyles];

  declare private fault: string;
  /** A notebook that is none of this one's copies. */
  declare private other: Notebook | undefined;
  declare private look: Look | undefined;
  declare private apart: readonly (readonly [string, string])[];
  declare private done: Merged | undefined;
  declare private isWorking: boolean;
  private readonly session = new Select(this, (session) => session);
  private readonly services = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
  });

  constructor() {
    super();
    this.fault = '';
    this.apart = [];
    this.isWorking = false;
  }

  async open(): Promise<void> {
    if (this.done) this.start();
    await this.updateComplete;
    await this.sheet?.open();
  }

  /** Looks at a notebook that was read from a file. */
  take(name: string, theirs: Notebook): void {
    this.start();
    const session = this.session.value;
    if (!session) return;
    if (theirs.id !== session.notebook.id) {
      const mine = aboutOf(session.notebook).title ?? say('this notebook');
      this.fault = say(
        '{name} is “{title}”, not a copy of “{mine}”. Only two copies of one notebook can be made one.',
        { name, title: aboutOf(theirs).title ?? say('another notebook'), mine },
      );
      this.other = theirs;
      return;
    }
    this.lookAt(name, theirs);
  }

  private get sheet(): SdSheet | null {
    return this.renderRoot.querySelector<SdSheet>('sd-sheet');
  }

  private start(): void {
    this.fault = '';
    this.other = undefined;
    this.look = undefined;
    this.apart = [];
    this.done = undefined;
  }

  private lookAt(name: string, theirs: Notebook): void {
    const session = this.session.value;
    if (!session) return;
    const merged = session.lookAtMerge(theirs, this.apart);
    this.look = { name, theirs, merged, brings: bringsOf(session.notebook, merged) };
  }

  private async onFile(event: Event): Promise<void> {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    const services = this.services.value;
    if (!file || !services) return;
    const read = services.readFile(await file.text());
    input.value = '';
    if (!isFault(read) && read.kind === 'notebook') {
      this.take(file.name, read.notebook);
      return;
    }
    this.start();
    this.fault = `${file.name}: ${
      isFault(read)
        ? read.sentence
        : say('This is a template, not a copy of the notebook. Use it under Start the next season.')
    }`;
  }

  private onApart(event: CustomEvent<{ pair: readonly [string, string]; isApart: boolean }>): void {
    const { pair, isApart } = event.detail;
    const others = this.apart.filter(([a, b]) => a !== pair[0] || b !== pair[1]);
    this.apart = isApart ? [...others, pair] : others;
    if (this.done) void this.mergeAnew();
    else if (this.look) this.lookAt(this.look.name, this.look.theirs);
  }

  private async merge(): Promise<void> {
    const session = this.session.value;
    const { look } = this;
    if (!session || !look || this.isWorking) return;
    this.isWorking = true;
    try {
      this.done = await session.merge(look.theirs, this.apart);
    } finally {
      this.isWorking = false;
    }
    tell(this, doneWords(look.name, look.brings, this.done.clashes.length), 'with undo');
    const { united, revived, clashes, ahead } = this.done;
    if (united.length + revived.length + clashes.length + ahead.length === 0) this.sheet?.close();
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('#done')?.focus();
  }

  /** Two animals were taken for one: the merge is taken back and done again with them apart. */
  private async mergeAnew(): Promise<void> {
    const session = this.session.value;
    const { look } = this;
    if (!session || !look) return;
    if (session.undoLabel !== mergeLabel) {
      this.fault = say(
        'Something was written since, so the merge cannot be done anew. Add the other animal under its own tag, or with a note.',
      );
      return;
    }
    await session.undo();
    this.done = await session.merge(look.theirs, this.apart);
  }

  private openAsOwn(): void {
    const { other } = this;
    if (!other) return;
    this.sheet?.close();
    this.dispatchEvent(
      new CustomEvent('open-file', { detail: { notebook: other }, bubbles: true, composed: true }),
    );
  }

  private async settle(): Promise<void> {
    const root = this.getRootNode();
    this.sheet?.close();
    if (root instanceof ShadowRoot && root.host instanceof HTMLElement)
      await openDialog(root.host, 'sd-clashes-dialog', () => import('./sd-clashes-dialog.ts'));
  }

  private renderChoose(): TemplateResult {
    return html`
      <p>
        ${say('Counted on two devices? Save the notebook to a file on the other one, and open that file here. Then do the same the other way round: both hold everything. Nothing typed in either copy is lost.')}
      </p>
      <p>
        <label class="button ${this.look ? '' : 'main'}">
          ${say('Choose the other copy’s file…')}
          <input
            class="visually-hidden"
            type="file"
            accept=".json,.txt,application/json"
            data-first
            @change=${this.onFile}
          />
        </label>
        <span class="soft small drop">${say('or drop it on the page')}</span>
      </p>
      <div role="alert">
        ${this.fault ? html`<p class="fault">${this.fault}</p>` : nothing}
        ${
          this.other
            ? html`<button @click=${this.openAsOwn}>
                ${say('Open it as a notebook of its own')}
              </button>`
            : nothing
        }
      </div>
    `;
  }

  private renderLook({ name, merged, brings }: Look): TemplateResult {
    const words = bringWords(merged.notebook, brings);
    const isFollowing = this.session.value?.isWriting === false;
    return html`
      <section aria-labelledby="brings">
        <h3 id="brings" tabindex="-1">${say('What {name} brings', { name })}</h3>
        ${
          words.length === 0
            ? html`<p>${say('Nothing that is not here already. The two copies agree.')}</p>`
            : html`<ul>
                ${words.map((line) => html`<li>${line}</li>`)}
              </ul>`
        }
        <sd-merge-review
          .merged=${merged}
          .apart=${this.apart}
          @keep-apart=${this.onApart}
        ></sd-merge-review>
        ${
          isFollowing
            ? html`<p class="fault">
                ${say('Another tab writes this notebook. Take over at the top of the page to bring it in here.')}
              </p>`
            : nothing
        }
        <div class="actions">
          <button
            class="main"
            ?disabled=${merged.changes.length === 0 || this.isWorking || isFollowing}
            @click=${this.merge}
          >
            ${say('Make the two copies one')}
          </button>
        </div>
      </section>
    `;
  }

  private renderDone(done: Merged): TemplateResult {
    return html`
      <h3 id="done" tabindex="-1">${say('The two copies are one')}</h3>
      <p>${say('Undo gives the former copy back until the next edit.')}</p>
      <sd-merge-review
        .merged=${done}
        .apart=${this.apart}
        isDone
        @keep-apart=${this.onApart}
      ></sd-merge-review>
      ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
      <div class="actions">
        ${
          done.clashes.length === 0
            ? nothing
            : html`<button class="main" @click=${this.settle}>
                ${say('Choose where they differ ({places})', { places: done.clashes.length })}
              </button>`
        }
        <button @click=${() => this.sheet?.close()}>${say('Later')}</button>
      </div>
    `;
  }

  protected override render(): TemplateResult {
    const { look, done } = this;
    return html`
      <sd-sheet heading=${say('Bring in a second copy')} isWide>
        ${
          done
            ? this.renderDone(done)
            : html`${this.renderChoose()}${look ? this.renderLook(look) : nothing}`
        }
      </sd-sheet>
    `;
  }
}

customElements.define('sd-merge-dialog', SdMergeDialog);

declare global {
  interface HTMLElementTagNameMap {
    'sd-merge-dialog': SdMergeDialog;
  }
}
