import { ContextConsumer } from '@lit/context';
import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Template } from '../shared/template.ts';
import { isFault } from '../shared/value.ts';
import { formStyles } from './form-styles.ts';
import { servicesContext, type Services } from './services.ts';
import type { TemplateLine } from './templates.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/** A line to choose from: a season of the program, one's own, or what the host offers first. */
interface Line extends TemplateLine {
  readonly isOwn: boolean;
}

/**
 * Chooses a template: the seasons that come with the program, the person's own, or one from a file, which
 * is then kept among the own ones. Shows what the chosen one holds. Only the chosen one is fetched.
 */
export class SdTemplatePicker extends LitElement {
  static override properties = {
    first: { attribute: false },
    own: { state: true },
    chosen: { state: true },
    loaded: { state: true },
    isShown: { state: true },
    fault: { state: true },
    said: { state: true },
    deleted: { state: true },
  };

  static override styles = [
    ...theme,
    formStyles,
    css`
      :host {
        display: grid;
        gap: 0;
      }

      .purpose {
        margin: 6px 0 0;
        font-size: var(--size-small);
      }

      .more {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 12px;
        align-items: center;
      }

      .link {
        min-height: 44px;
        margin-left: -10px;
        padding-inline: 10px;
        border-color: transparent;
        background: none;
        color: var(--accent);
        font-size: var(--size-small);
      }

      .link:focus-within {
        outline: 3px solid var(--accent);
        outline-offset: 1px;
      }

      summary {
        min-height: 44px;
        padding: 11px 0;
        color: var(--accent);
        font-size: var(--size-small);
        cursor: pointer;
      }

      .preview {
        max-height: min(26em, 60vh);
        padding: 8px 14px;
        overflow: auto;
        border: 1px solid var(--line);
        border-radius: var(--radius);
      }
    `,
  ];

  /** Offered before all others and chosen at first: a notebook's own layout, for its next season. */
  declare first: TemplateLine | undefined;
  declare private own: readonly Template[];
  declare private chosen: string;
  declare private loaded: Template | undefined;
  declare private isShown: boolean;
  declare private fault: string;
  declare private said: string;
  declare private deleted: Template | undefined;
  private turn = 0;
  private readonly given = new ContextConsumer(this, {
    context: servicesContext,
    subscribe: true,
    callback: () => void this.readOwn(),
  });

  constructor() {
    super();
    this.own = [];
    this.chosen = '';
    this.isShown = false;
    this.fault = '';
    this.said = '';
  }

  /** The chosen template, fetched; undefined where it could not be, with the reason shown here. */
  async template(): Promise<Template | undefined> {
    const { line } = this;
    if (!line) return undefined;
    try {
      return await line.load();
    } catch {
      this.fault = say('“{name}” could not be fetched. Try again, or choose another.', {
        name: line.name,
      });
      return undefined;
    }
  }

  /** Takes a template from a file: looked at, kept among the own ones, and chosen. */
  async take(name: string, template: Template): Promise<void> {
    const { services } = this;
    const wrong = await services?.checkTemplate(template);
    this.said = '';
    this.fault = wrong ? `${name}: ${wrong.sentence}` : '';
    if (wrong || !services) return;
    this.deleted = undefined;
    try {
      await services.ownTemplates.keep(template);
      this.said = say('“{name}” is now among your own templates.', { name: template.name });
    } catch (error) {
      this.said = say('“{name}” can be used now, but is not kept: {why}', {
        name: template.name,
        why: messageOf(error),
      });
    }
    await this.readOwn();
    if (!this.own.some(({ id }) => id === template.id)) this.own = [...this.own, template];
    this.choose(`own:${template.id}`);
  }

  private get services(): Services | undefined {
    return this.given.value;
  }

  private get lines(): readonly Line[] {
    const seasons = this.services?.templates ?? [];
    return [
      ...(this.first ? [{ ...this.first, isOwn: false }] : []),
      ...seasons.map((line) => ({ ...line, id: `season:${line.id}`, isOwn: false })),
      ...this.own.map((template) => ({
        id: `own:${template.id}`,
        name: template.name,
        purpose: template.purpose,
        load: async () => template,
        isOwn: true,
      })),
    ];
  }

  private get line(): Line | undefined {
    return this.lines.find(({ id }) => id === this.chosen) ?? this.lines[0];
  }

  private async readOwn(): Promise<void> {
    this.own = (await this.services?.ownTemplates.list().catch(() => [])) ?? [];
  }

  private choose(id: string): void {
    this.chosen = id;
    this.loaded = undefined;
    if (this.isShown) void this.show();
  }

  private onChoose(event: Event): void {
    this.fault = '';
    this.said = '';
    this.choose((event.target as HTMLSelectElement).value);
  }

  private async show(): Promise<void> {
    this.turn += 1;
    const { turn } = this;
    const [template] = await Promise.all([this.template(), import('./sd-template-preview.ts')]);
    if (turn === this.turn) this.loaded = template;
  }

  private onToggle(event: Event): void {
    this.isShown = (event.target as HTMLDetailsElement).open;
    if (this.isShown && !this.loaded) void this.show();
  }

  private async onFile(event: Event): Promise<void> {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    if (!file || !this.services) return;
    const read = this.services.readFile(await file.text());
    input.value = '';
    this.said = '';
    if (isFault(read)) this.fault = `${file.name}: ${read.sentence}`;
    else if (read.kind === 'template') await this.take(file.name, read.template);
    else
      this.fault = say(
        '{name} is a notebook, not a template. Open it from the list of notebooks, and save it as a template there.',
        { name: file.name },
      );
  }

  private async removeOwn(line: Line): Promise<void> {
    const template = await line.load();
    await this.services?.ownTemplates.remove(template.id);
    this.deleted = template;
    this.said = '';
    this.choose('');
    await this.readOwn();
  }

  private async putBack(template: Template): Promise<void> {
    await this.services?.ownTemplates.keep(template);
    this.deleted = undefined;
    await this.readOwn();
    this.choose(`own:${template.id}`);
  }

  private renderLines(lines: readonly Line[]): TemplateResult {
    const { line: chosen } = this;
    return html`${lines.map(
      ({ id, name }) => html`<option value=${id} .selected=${id === chosen?.id}>${name}</option>`,
    )}`;
  }

  protected override render(): TemplateResult {
    const { line, lines, deleted } = this;
    const own = lines.filter(({ isOwn }) => isOwn);
    const others = this.renderLines(lines.filter(({ isOwn }) => !isOwn));
    return html`
      <label class="field">
        ${say('Template')}
        <select
          name="template"
          aria-describedby="purpose"
          .value=${line?.id ?? ''}
          @change=${this.onChoose}
        >
          ${
            own.length === 0
              ? others
              : html`<optgroup label=${say('Seasons')}>${others}</optgroup>
                  <optgroup label=${say('Your own')}>${this.renderLines(own)}</optgroup>`
          }
        </select>
      </label>
      <p class="purpose" id="purpose" aria-live="polite">${line?.purpose ?? ''}</p>
      <div role="status">
        ${this.fault ? html`<p class="fault">${this.fault}</p>` : nothing}
        ${this.said ? html`<p>${this.said}</p>` : nothing}
        ${
          deleted
            ? html`<p>
                ${say('“{name}” is deleted.', { name: deleted.name })}
                <button type="button" @click=${() => this.putBack(deleted)}>
                  ${say('Put it back')}
                </button>
              </p>`
            : nothing
        }
      </div>
      <div class="more">
        <label class="button link">
          ${say('Open a template file…')}
          <input
            class="visually-hidden"
            type="file"
            accept=".json,.txt,application/json"
            @change=${this.onFile}
          />
        </label>
        ${
          line?.isOwn
            ? html`<button type="button" class="link" @click=${() => this.removeOwn(line)}>
                ${say('Delete this template')}
              </button>`
            : nothing
        }
      </div>
      <details @toggle=${this.onToggle}>
        <summary>${say('What it holds: check list, columns, criteria, limits')}</summary>
        <div
          class="preview"
          tabindex="0"
          role="region"
          aria-label=${say('What the template holds')}
        >
          <sd-template-preview .template=${this.loaded}></sd-template-preview>
        </div>
      </details>
    `;
  }
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

customElements.define('sd-template-picker', SdTemplatePicker);

declare global {
  interface HTMLElementTagNameMap {
    'sd-template-picker': SdTemplatePicker;
  }
}
