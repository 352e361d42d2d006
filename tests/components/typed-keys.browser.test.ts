import { expect, fixture } from '@open-wc/testing';
import { sendKeys } from '@web/test-runner-commands';
import { LitElement, html } from 'lit';

/** The least element that shows what is typed into it, to prove that real keys reach a Lit element. */
class TypedKeys extends LitElement {
  static override properties = { typed: { type: String } };

  declare typed: string;

  constructor() {
    super();
    this.typed = '';
  }

  override render() {
    return html`<input aria-label="count" @input=${this.keep} /><output>${this.typed}</output>`;
  }

  private keep(event: Event): void {
    this.typed = (event.target as HTMLInputElement).value;
  }
}
customElements.define('sd-typed-keys', TypedKeys);

describe('a Lit element under test', () => {
  it('shows what real keys typed', async () => {
    const element = await fixture<TypedKeys>(html`<sd-typed-keys></sd-typed-keys>`);
    const root = element.renderRoot;
    root.querySelector('input')?.focus();
    await sendKeys({ type: '47' });
    await sendKeys({ press: 'Backspace' });
    await element.updateComplete;
    expect(root.querySelector('output')?.textContent).to.equal('4');
    await expect(element).to.be.accessible();
  });
});
