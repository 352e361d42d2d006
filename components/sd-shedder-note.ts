import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { isFault, type Fault } from '../shared/value.ts';
import { AfterPaint } from './after-paint.ts';
import { isAboutCounts } from './herd-lists.ts';
import { sheddingOf, type SheddingOfDay } from './shedding.ts';
import { sheddingSentences } from './shedding-words.ts';
import { theme } from './theme.ts';

/**
 * Who sheds 80 % of the eggs of the open day, beside what luck alone would show, in sentences: what stands
 * under a shedder share, which by itself says nothing.
 *
 *     <sd-shedder-note .group=${null}></sd-shedder-note>
 */
export class SdShedderNote extends LitElement {
  static override properties = { group: { type: String }, isBrief: { type: Boolean } };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
        color: var(--soft);
        font-size: var(--size-small);
      }

      p {
        margin: 0;
      }
    `,
  ];

  declare group: string | null;
  /** Without the share itself, where that stands beside the note. */
  declare isBrief: boolean;
  private readonly shedding = new AfterPaint<SheddingOfDay | Fault | null>(
    this,
    (session, signal) => sheddingOf(session, this.group, signal),
    isAboutCounts,
  );

  constructor() {
    super();
    this.group = null;
    this.isBrief = false;
  }

  protected override updated(changed: ReadonlyMap<PropertyKey, unknown>): void {
    if (changed.has('group') && changed.get('group') !== undefined) this.shedding.again();
  }

  protected override render(): TemplateResult | typeof nothing {
    const { value } = this.shedding;
    if (!value) return nothing;
    if (isFault(value)) return html`<p>${value.sentence}</p>`;
    const sentences = sheddingSentences(value).slice(this.isBrief ? 1 : 0);
    return html`${sentences.map((sentence) => html`<p>${sentence}</p>`)}`;
  }
}

customElements.define('sd-shedder-note', SdShedderNote);

declare global {
  interface HTMLElementTagNameMap {
    'sd-shedder-note': SdShedderNote;
  }
}
