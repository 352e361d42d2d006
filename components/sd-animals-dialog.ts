import { LitElement, html, type TemplateResult } from 'lit';
import { animalsOf } from '../src/notebook/read.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import './sd-add-animals.ts';
import './sd-animal-form.ts';
import './sd-animal-list.ts';
import './sd-sheet.ts';
import './sd-tabs.ts';
import type { SdSheet } from './sd-sheet.ts';
import { say } from '../src/text/say.ts';

/** The notebook's animals: the list of them with what can be done to one or many, and adding. */
export class SdAnimalsDialog extends LitElement {
  static override properties = { view: { state: true }, said: { state: true } };

  static override styles = [...theme];

  declare private view: string;
  declare private said: string;
  private readonly count = new Select(this, (session) => animalsOf(session.notebook).length);

  constructor() {
    super();
    this.view = '';
    this.said = '';
  }

  async open(): Promise<void> {
    if (this.view === '' || this.view === 'list') this.view = this.count.value ? 'list' : 'many';
    this.said = '';
    await this.updateComplete;
    await this.renderRoot.querySelector<SdSheet>('sd-sheet')?.open();
  }

  private onSaid(event: CustomEvent<{ sentence: string }>): void {
    event.stopPropagation();
    this.said = event.detail.sentence;
    // With the last animal the list goes, and every field of it that could have the focus.
    if (this.view !== 'list' || this.count.value !== 0) return;
    void this.updateComplete.then(() => this.renderRoot.querySelector('sd-tabs')?.focus());
  }

  private get tabs() {
    return [
      { id: 'list', label: say('Animals ({n})', { n: this.count.value ?? 0 }) },
      { id: 'many', label: say('Add many') },
      { id: 'one', label: say('Add one') },
    ];
  }

  protected override render(): TemplateResult {
    return html`
      <sd-sheet heading=${say('Animals')} isWide>
        <sd-tabs
          label=${say('Animals')}
          .tabs=${this.tabs}
          .chosen=${this.view}
          @tab-chosen=${(event: CustomEvent<{ id: string }>) => {
            this.view = event.detail.id;
            this.said = '';
          }}
          @animals-said=${this.onSaid}
        >
          <sd-animal-list slot="list"></sd-animal-list>
          <sd-add-animals slot="many"></sd-add-animals>
          <sd-animal-form slot="one"></sd-animal-form>
        </sd-tabs>
        <p role="status">${this.said}</p>
      </sd-sheet>
    `;
  }
}

customElements.define('sd-animals-dialog', SdAnimalsDialog);

declare global {
  interface HTMLElementTagNameMap {
    'sd-animals-dialog': SdAnimalsDialog;
  }
}
