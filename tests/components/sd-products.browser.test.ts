import { expect } from '@open-wc/testing';
import { sendKeys } from '@web/test-runner-commands';
import { html } from 'lit';
import type { SdProducts } from '../../components/sd-products.ts';
import '../../components/sd-products.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { productsOf } from '../../src/notebook/read.ts';
import type { Session } from '../../src/session/session.ts';
import { productOf } from '../../src/treating/product.ts';
import { demo, openSession } from './open-notebook.ts';
import { allText, button, choose, deep, onPage, says, type, until } from './treating-page.ts';

const name = 'the drench in the blue can (invented)';

async function open(notebook: Notebook = demo()): Promise<{ session: Session; block: SdProducts }> {
  const session = await openSession(notebook);
  const block = await onPage<SdProducts>(
    session,
    html`<sd-products blockId="b-products"></sd-products>`,
  );
  return { session, block };
}

const input = (block: SdProducts, field: string): HTMLInputElement =>
  deep<HTMLInputElement>(block, `input[name="${field}"]`);

describe('<sd-products>', () => {
  it('shows what was typed of a label and asks for what is missing', async () => {
    const { block } = await open();
    const text = allText(block);
    expect(text).to.contain('sheep and goats · by mouth');
    expect(text).to.contain(
      "Type the label's dose line, mL per kg: without it no dose is worked out.",
    );
    expect(text).to.contain('No meat withdrawal: there will be no clear date.');
    expect(text).to.contain('Dose for the weight the animal has today');
    await expect(block).to.be.accessible();
  });

  it('keeps a product typed from its label, with nothing filled in beforehand', async () => {
    const { block, session } = await open();
    button(block, 'Type a product').click();
    await says(block, 'Its dose line');
    const fields = ['name', 'labelMl', 'labelPer', 'mgPerKg', 'mgPerMl', 'route', 'vetMl'];
    expect(fields.map((field) => input(block, field).value).join('')).to.equal('');
    await expect(block).to.be.accessible();
    type(input(block, 'name'), 'white bottle (made up)');
    type(input(block, 'labelMl'), '2.5');
    type(input(block, 'labelPer'), '10');
    choose(deep<HTMLSelectElement>(block, '.sentence select'), 'lb');
    type(input(block, 'route'), 'by mouth');
    type(input(block, 'expires'), '03/2027');
    choose(deep<HTMLSelectElement>(block, 'select[aria-label^="Milk withdrawal"]'), 'hours');
    await until(
      () => !input(block, 'milk').disabled,
      () => 'no number to type',
    );
    type(input(block, 'milk'), '72');
    button(block, 'Keep the product').click();
    await until(
      () => productsOf(session.notebook).length === 2,
      () => allText(block),
    );
    const product = productsOf(session.notebook).find(
      (one) => one.name === 'white bottle (made up)',
    );
    expect(product).to.include({ labelMl: 2.5, labelPer: 10, labelUnit: 'lb', expires: '03/2027' });
    expect(product?.milk).to.deep.equal({ kind: 'hours', hours: 72 });
    expect(product?.meat).to.deep.equal({ kind: 'not stated' });
    await says(block, '2.5 mL per 10 lb');
    expect(session.undoLabel).to.equal('adding white bottle (made up)');
  });

  it('says what is wrong with a strength of 0 or a withdrawal of −1, and keeps what was typed', async () => {
    const { block, session } = await open();
    button(block, `Change ${name}`).click();
    await says(block, 'Its dose line');
    type(input(block, 'mgPerMl'), '0');
    type(input(block, 'mgPerKg'), '2,5');
    choose(deep<HTMLSelectElement>(block, 'select[aria-label^="Meat withdrawal"]'), 'days');
    await until(
      () => !input(block, 'meat').disabled,
      () => 'no number to type',
    );
    type(input(block, 'meat'), '-1');
    button(block, 'Keep the product').click();
    await says(block, 'The strength in mg per mL must be more than 0');
    await says(block, 'The withdrawal cannot be -1 days.');
    await says(block, '"2,5" has a comma, but the decimal mark here is a point. Type 2.5.');
    expect(input(block, 'meat').value).to.equal('-1');
    expect(productOf(session.notebook, 'p-demo')?.meat).to.deep.equal({ kind: 'not stated' });
    expect(session.undoLabel).to.equal(null);
    await expect(block).to.be.accessible();
  });

  it("asks for the vet's name before it takes a vet's dose", async () => {
    const { block, session } = await open();
    button(block, `Change ${name}`).click();
    await says(block, 'Where a vet set another dose');
    type(input(block, 'vetMl'), '3');
    type(input(block, 'vetPerKg'), '10');
    button(block, 'Keep the product').click();
    await says(block, "A vet's own dose needs the name of the vet who set it.");
    type(input(block, 'vetName'), 'A. Example');
    button(block, 'Keep the product').click();
    await says(block, 'A. Example set 3 mL per 10 kg');
    expect(productOf(session.notebook, 'p-demo')).to.include({ vetName: 'A. Example', vetMl: 3 });
  });

  it('refuses to delete a product in use, loses nothing, and offers to retire it', async () => {
    const { block, session } = await open();
    button(block, `Remove ${name}`).click();
    await says(block, `${name} stays: it is named by 9 treatments.`);
    expect(productsOf(session.notebook).length).to.equal(1);
    button(block, `No longer in use: ${name}`).click();
    await says(block, 'no longer in use');
    expect(productOf(session.notebook, 'p-demo')?.retired).to.equal(true);
    await says(block, 'Use again');
  });

  it('is worked by keyboard: open, type, keep by Enter, and the focus comes back', async () => {
    const { block, session } = await open();
    button(block, `Change ${name}`).focus();
    await sendKeys({ press: 'Enter' });
    await says(block, 'Its dose line');
    await until(
      () => deep(block, 'sd-product-form').shadowRoot?.activeElement === input(block, 'name'),
      () => 'the focus is not in the form',
    );
    await sendKeys({ press: 'Tab' });
    await sendKeys({ type: '1' });
    await sendKeys({ press: 'Tab' });
    await sendKeys({ type: '5' });
    await sendKeys({ press: 'Enter' });
    await says(block, '1 mL per 5 kg');
    expect(productOf(session.notebook, 'p-demo')).to.include({ labelMl: 1, labelPer: 5 });
    expect(block.shadowRoot?.activeElement?.textContent?.trim()).to.equal('Change');
  });
});
