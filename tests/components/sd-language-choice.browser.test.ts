import { ContextProvider } from '@lit/context';
import { expect, fixture } from '@open-wc/testing';
import { html } from 'lit';
import type { LanguageChange } from '../../components/change-language.ts';
import { languages, type Drawer } from '../../components/language.ts';
import type { SdLanguageChoice } from '../../components/sd-language-choice.ts';
import '../../components/sd-language-choice.ts';
import { servicesContext, type Services } from '../../components/services.ts';
import { allText, button, choose, deep, says } from './treating-page.ts';

/** The choice on a page of its own, with what it asked for and an answer to that. */
async function offered(kept: string | null, answer: LanguageChange = 'loading') {
  const asked: (string | null)[] = [];
  const services = {
    changeLanguage: async (code: string | null) => {
      asked.push(code);
      return answer;
    },
  } as Partial<Services> as Services;
  const page = document.createElement('main');
  document.body.append(page);
  new ContextProvider(page, { context: servicesContext, initialValue: services });
  const drawer = (): Drawer => ({
    getItem: () => kept,
    setItem: () => undefined,
    removeItem: () => undefined,
  });
  const element = await fixture<SdLanguageChoice>(
    html`<sd-language-choice .drawer=${drawer}></sd-language-choice>`,
    { parentNode: page },
  );
  const select = deep<HTMLSelectElement>(element, 'select');
  const pick = async (code: string): Promise<void> => {
    choose(select, code);
    await element.updateComplete;
  };
  return { element, asked, select, pick };
}

describe('<sd-language-choice>', () => {
  it('offers the browser’s language and each there is, by its own name and in itself', async () => {
    const { element, select } = await offered(null);
    const options = [...select.options].map(({ value, lang, text }) => [value, lang, text.trim()]);
    expect(options).to.deep.equal([
      ['', '', 'As the browser'],
      ...languages.map(({ code, name }) => [code, code, name]),
    ]);
    expect(select.value).to.equal('');
    expect(select.labels?.[0]?.textContent).to.contain('Language');
    await expect(element).to.be.accessible();
  });

  it('shows what was chosen on this device, and nothing to press until another is picked', async () => {
    const { element, select } = await offered('es');
    expect(select.value).to.equal('es');
    expect(element.renderRoot.querySelector('button')).to.equal(null);
  });

  it('changes when pressed, not while one is only looked for', async () => {
    const { element, asked, pick } = await offered(null);
    await pick('es');
    expect(asked).to.deep.equal([]);
    expect(allText(element)).to.contain('keep what you typed in a form first');
    await expect(element).to.be.accessible();
    button(element, 'Change to Español').click();
    expect(asked).to.deep.equal(['es']);
  });

  it('goes back to the language of the browser', async () => {
    const { element, asked, pick } = await offered('es');
    await pick('');
    button(element, "Change to the browser's language").click();
    expect(asked).to.deep.equal([null]);
  });

  it('offers nothing to press where the pick is taken back', async () => {
    const { element, pick } = await offered('es');
    await pick('en');
    await pick('es');
    expect(element.renderRoot.querySelector('button')).to.equal(null);
  });

  it('says so where the browser keeps no choice', async () => {
    const { element, pick } = await offered(null, 'not kept');
    await pick('es');
    button(element, 'Change to Español').click();
    await says(element, 'This browser does not keep your choice');
  });

  it('says to save first where what was typed is in this page alone', async () => {
    const { element, pick } = await offered(null, 'waiting');
    await pick('es');
    button(element, 'Change to Español').click();
    await says(element, 'save the notebook to a file first, then reload the page');
  });
});
