import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import type { Template } from '../shared/template.ts';
import { columnNames, criterionWords, limitWords, protocolWords } from './template-words.ts';
import { theme } from './theme.ts';
import { say } from '../src/text/say.ts';

/** What a template holds, to be looked at before a notebook is started from it. */
export class SdTemplatePreview extends LitElement {
  static override properties = { template: { attribute: false } };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
        font-size: 0.9375rem;
      }

      dl {
        display: grid;
        gap: 12px;
        margin: 0;
      }

      dt {
        font-weight: 650;
      }

      dd {
        margin: 2px 0 0;
        overflow-wrap: anywhere;
      }

      ol,
      ul {
        margin: 0;
        padding-left: 1.3em;
      }

      li + li {
        margin-top: 3px;
      }
    `,
  ];

  declare template: Template | undefined;

  private renderList(items: readonly string[]): TemplateResult {
    return html`<ul>
      ${items.map((item) => html`<li>${item}</li>`)}
    </ul>`;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { template } = this;
    if (!template) return nothing;
    const { shown, hidden } = columnNames(template);
    return html`
      <dl>
        ${
          template.checkList.length === 0
            ? nothing
            : html`<div>
                <dt>${say('Check list for the day')}</dt>
                <dd>
                  <ol>
                    ${template.checkList.map((line) => html`<li>${line}</li>`)}
                  </ol>
                </dd>
              </div>`
        }
        ${
          template.nextSample === ''
            ? nothing
            : html`<div>
                <dt>${say('When to sample next')}</dt>
                <dd>${template.nextSample}</dd>
              </div>`
        }
        <div>
          <dt>${say('How a cup is made up')}</dt>
          <dd>${protocolWords(template)}</dd>
        </div>
        <div>
          <dt>${say('Columns')}</dt>
          <dd>
            ${shown.join(', ')}.
            ${
              hidden.length === 0
                ? nothing
                : html`<span class="soft"
                    >${say('Ready to be shown: {columns}.', { columns: hidden.join(', ') })}</span
                  >`
            }
          </dd>
        </div>
        <div>
          <dt>${say('Over your criteria when')}</dt>
          <dd>${this.renderList(template.criteria.map(criterionWords))}</dd>
        </div>
        <div>
          <dt>${say('Limits, examples until you set them with your vet')}</dt>
          <dd>${this.renderList(template.limits.map(limitWords))}</dd>
        </div>
        <div>
          <dt>
            ${say('Figures of the {herd, select, flock {flock} mob {mob} other {herd}}', { herd: template.herdWord ?? 'herd' })}
          </dt>
          <dd>${template.figures.map(({ label }) => label).join(', ')}.</dd>
        </div>
        <div>
          <dt>${say('Parts of the page')}</dt>
          <dd>${template.blocks.map(({ title }) => title).join(', ')}.</dd>
        </div>
      </dl>
    `;
  }
}

customElements.define('sd-template-preview', SdTemplatePreview);

declare global {
  interface HTMLElementTagNameMap {
    'sd-template-preview': SdTemplatePreview;
  }
}
