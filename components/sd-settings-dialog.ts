import { LitElement, css, html, type TemplateResult } from 'lit';
import { theme } from './theme.ts';
import './sd-about-form.ts';
import './sd-criteria-form.ts';
import './sd-egg-types-form.ts';
import './sd-language-choice.ts';
import './sd-limits-form.ts';
import './sd-protocol-form.ts';
import './sd-sheet.ts';
import './sd-tabs.ts';
import type { SdSheet } from './sd-sheet.ts';
import { say } from '../src/text/say.ts';

const tabs = [
  { id: 'about', label: say('Notebook') },
  { id: 'protocol', label: say('How you count') },
  { id: 'limits', label: say('Limits') },
  { id: 'criteria', label: say('Criteria') },
  { id: 'eggs', label: say('Egg types') },
] as const;

export type SettingsView = (typeof tabs)[number]['id'];

/** What a person owns of the notebook: its words and units, how they count, limits and criteria. */
export class SdSettingsDialog extends LitElement {
  static override properties = { view: { state: true }, said: { state: true } };

  static override styles = [
    ...theme,
    css`
      sd-language-choice {
        margin-top: 18px;
        padding-top: 12px;
        border-top: 1px solid var(--line);
      }
    `,
  ];

  declare private view: SettingsView;
  declare private said: string;

  constructor() {
    super();
    this.view = 'about';
    this.said = '';
  }

  async open(view?: SettingsView): Promise<void> {
    if (view) this.view = view;
    this.said = '';
    await this.updateComplete;
    await this.renderRoot.querySelector<SdSheet>('sd-sheet')?.open();
  }

  private onClosed(): void {
    for (const tag of [
      'sd-protocol-form',
      'sd-limits-form',
      'sd-criteria-form',
      'sd-egg-types-form',
    ] as const)
      this.renderRoot.querySelector(tag)?.forgetReach();
  }

  private onSaid(event: CustomEvent<{ sentence: string }>): void {
    event.stopPropagation();
    this.said = event.detail.sentence;
  }

  protected override render(): TemplateResult {
    return html`
      <sd-sheet heading=${say('Settings')} isWide @sheet-closed=${this.onClosed}>
        <sd-tabs
          label=${say('Settings')}
          .tabs=${tabs}
          .chosen=${this.view}
          @tab-chosen=${(event: CustomEvent<{ id: SettingsView }>) => {
            this.view = event.detail.id;
            this.said = '';
          }}
          @settings-said=${this.onSaid}
        >
          <sd-about-form slot="about"></sd-about-form>
          <sd-language-choice slot="about"></sd-language-choice>
          <sd-protocol-form slot="protocol"></sd-protocol-form>
          <sd-limits-form slot="limits"></sd-limits-form>
          <sd-criteria-form slot="criteria"></sd-criteria-form>
          <sd-egg-types-form slot="eggs"></sd-egg-types-form>
        </sd-tabs>
        <p role="status">${this.said}</p>
      </sd-sheet>
    `;
  }
}

customElements.define('sd-settings-dialog', SdSettingsDialog);

declare global {
  interface HTMLElementTagNameMap {
    'sd-settings-dialog': SdSettingsDialog;
  }
}
