import { ContextProvider } from '@lit/context';
import { expect, fixture } from '@open-wc/testing';
import { html } from 'lit';
import type { SdReminders } from '../../components/sd-reminders.ts';
import '../../components/sd-reminders.ts';
import { servicesContext, type Services } from '../../components/services.ts';
import { sessionContext } from '../../components/session-context.ts';
import { demo, openSession } from './open-notebook.ts';
import { allText, button, until } from './treating-page.ts';

/** A reminder above a notebook of which so many counts are in no file, and ways to change that number. */
async function above(counts: number, isDemo = false) {
  let inNoFile = counts;
  let saved = 0;
  let tell = (): void => undefined;
  const notebook = demo();
  const session = await openSession(
    isDemo
      ? notebook
      : {
          ...notebook,
          about: { notebook: { ...notebook.about['notebook'], demo: [[false, [1, 0, 'x']]] } },
        },
    {},
  );
  const services = {
    notInFile: () => inNoFile,
    saveToFile: async () => {
      saved += 1;
      inNoFile = 0;
      tell();
    },
    notices: () => [],
    subscribeNotices: (listener: () => void) => {
      tell = listener;
      return () => undefined;
    },
  } as Partial<Services> as Services;
  const page = document.createElement('main');
  document.body.append(page);
  new ContextProvider(page, { context: sessionContext, initialValue: session });
  new ContextProvider(page, { context: servicesContext, initialValue: services });
  const element = await fixture<SdReminders>(html`<sd-reminders></sd-reminders>`, {
    parentNode: page,
  });
  const count = async (to: number): Promise<void> => {
    inNoFile = to;
    tell();
    await element.updateComplete;
  };
  return { element, count, saved: () => saved };
}

describe('sd-reminders', () => {
  it('is silent below a hundred counts in no file, and speaks of them from there on', async () => {
    const { element, count } = await above(99);
    expect(allText(element)).to.equal('');
    await count(100);
    expect(allText(element)).to.contain('100 counts of this notebook are in no file yet');
  });

  it('goes once the notebook is saved to a file', async () => {
    const { element, saved } = await above(240);
    button(element, 'Save to a file').click();
    await until(
      () => allText(element) === '',
      () => allText(element),
    );
    expect(saved()).to.equal(1);
  });

  it('can be put off until as many more are counted', async () => {
    const { element, count } = await above(120);
    button(element, 'Later').click();
    await element.updateComplete;
    expect(allText(element)).to.equal('');
    await count(219);
    expect(allText(element)).to.equal('');
    await count(220);
    expect(allText(element)).to.contain('220 counts');
  });

  it('asks nobody to back up the demo', async () => {
    const { element } = await above(500, true);
    expect(allText(element)).to.equal('');
  });
});
