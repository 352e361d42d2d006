import { ContextProvider } from '@lit/context';
import { expect, fixture, html } from '@open-wc/testing';
import { servicesContext, type Notice, type Services } from '../../components/services.ts';
import '../../components/sd-sheet.ts';
import type { SdSheet } from '../../components/sd-sheet.ts';

/** A sheet below services whose notices a test sets. */
async function sheetBelow(): Promise<{ sheet: SdSheet; tell: (all: Notice[]) => Promise<void> }> {
  let notices: readonly Notice[] = [];
  let heard = (): void => {};
  const services = {
    notices: () => notices,
    subscribeNotices: (listener: () => void) => {
      heard = listener;
      return () => {};
    },
  } as unknown as Services;
  const page = await fixture<HTMLElement>(html`<div></div>`);
  new ContextProvider(page, { context: servicesContext, initialValue: services });
  const sheet = document.createElement('sd-sheet');
  sheet.heading = 'Animals';
  page.append(sheet);
  await sheet.open();
  const tell = async (all: Notice[]): Promise<void> => {
    notices = all;
    heard();
    await sheet.updateComplete;
  };
  return { sheet, tell };
}

const following: Notice = { kind: 'second tab', sentence: 'Another tab writes.' };
const alertOf = (sheet: SdSheet): HTMLElement | null =>
  sheet.renderRoot.querySelector('[role="alert"]');

describe('sd-sheet', () => {
  it('says what is refused while it is open, with what to do, and keeps the focus when that is done', async () => {
    const { sheet, tell } = await sheetBelow();
    await tell([following]);
    expect(alertOf(sheet)).to.equal(null);
    let taken = 0;
    const action = { label: 'Write here', run: () => void (taken += 1) };
    await tell([{ ...following, sentence: 'Nothing was changed.', isRefusal: true, action }]);
    expect(alertOf(sheet)?.textContent).to.contain('Nothing was changed.');
    const button = alertOf(sheet)?.querySelector('button');
    button?.focus();
    button?.click();
    expect(taken).to.equal(1);
    await tell([]);
    expect(alertOf(sheet)).to.equal(null);
    expect(sheet.shadowRoot?.activeElement?.localName).to.equal('h2');
  });

  it('does not repeat, when it is opened anew, what was refused before', async () => {
    const { sheet, tell } = await sheetBelow();
    await tell([{ ...following, isRefusal: true }]);
    expect(alertOf(sheet)).to.not.equal(null);
    sheet.close();
    await sheet.open();
    await sheet.updateComplete;
    expect(alertOf(sheet)).to.equal(null);
  });
});
