import { expect, fixture } from '@open-wc/testing';
import { sendKeys } from '@web/test-runner-commands';
import { html } from 'lit';
import type { SdFunctionList } from '../../components/sd-function-list.ts';
import '../../components/sd-function-list.ts';
import { FUNCTION_FORMS } from '../../src/engine/function-form.ts';
import { shown, textOf } from './open-notebook.ts';

async function list(): Promise<SdFunctionList> {
  const element = await fixture<SdFunctionList>(html`<sd-function-list></sd-function-list>`);
  await element.open();
  return element;
}

const names = (element: SdFunctionList): string[] =>
  [...element.renderRoot.querySelectorAll('summary .name')].map(
    (name) => /^[A-Z0-9.]+/.exec(name.textContent ?? '')?.[0] ?? '',
  );

describe('<sd-function-list>', () => {
  it('lists every function, those of the trade first', async () => {
    const element = await list();
    expect(names(element)).to.deep.equal(FUNCTION_FORMS.map(({ name }) => name));
    await expect(element).to.be.accessible();
  });

  it('takes the focus to the search, which looks into names and help', async () => {
    const element = await list();
    await sendKeys({ type: 'profile likelihood' });
    await element.updateComplete;
    expect(names(element)).to.deep.equal(['HERDMEANLOW', 'HERDMEANHIGH']);
    await sendKeys({ type: 'xyz' });
    await element.updateComplete;
    expect(textOf(element, '[role="status"]')).to.equal('No function fits. Try one word of it.');
  });

  it('opens a card with arguments, units, gaps, example, method and source with its standing', async () => {
    const element = await list();
    await sendKeys({ type: 'EPGLOW' });
    await element.updateComplete;
    element.renderRoot.querySelector<HTMLElement>('summary')?.click();
    await shown(element, '.card dl');
    const card = textOf(element, '.card');
    expect(card).to.contain('factor epg per egg');
    expect(card).to.contain('level 0.95 unless given, may be left out');
    expect(card).to.contain('EPGLOW(10, 50) gives 239.7694');
    expect(card).to.contain('Garwood 1936, Biometrika 28:437–442 (from memory, not read again)');
    await expect(element).to.be.accessible();
  });
});
