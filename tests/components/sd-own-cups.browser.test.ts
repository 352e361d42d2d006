import { expect } from '@open-wc/testing';
import { html } from 'lit';
import type { SdOwnCups } from '../../components/sd-own-cups.ts';
import '../../components/sd-own-cups.ts';
import { ownCups } from '../../src/notebook/own-cups.ts';
import { columnByKey, readingOf } from '../../src/notebook/read.ts';
import type { Session } from '../../src/session/session.ts';
import { openSession } from './open-notebook.ts';
import { allText, button, onPage, TODAY, type, until } from './treating-page.ts';

async function open(): Promise<{ session: Session; list: SdOwnCups }> {
  const session = await openSession();
  const list = await onPage<SdOwnCups>(session, html`<sd-own-cups></sd-own-cups>`);
  await list.updateComplete;
  list.renderRoot.querySelector('details')?.setAttribute('open', '');
  return { session, list };
}

function field(list: SdOwnCups, name: string): HTMLInputElement {
  const found = [...list.renderRoot.querySelectorAll('input')].find(
    (input) => input.name === name || input.getAttribute('aria-label') === name,
  );
  if (!found) throw new Error(`there is no field ${name}`);
  return found;
}

function typeInto(input: HTMLInputElement, text: string): void {
  input.value = text;
  input.dispatchEvent(new Event('change', { bubbles: true }));
}

async function addCup(list: SdOwnCups, number: string, whose: string): Promise<void> {
  typeInto(field(list, 'number'), number);
  field(list, 'whose').value = whose;
  list.renderRoot.querySelector('form')?.requestSubmit();
  await list.updateComplete;
}

const so = (list: SdOwnCups, isSo: () => boolean): Promise<void> =>
  until(isSo, () => allText(list));

const row = (list: SdOwnCups, number: number): HTMLElement | null =>
  list.renderRoot.querySelector<HTMLElement>(`[data-cup='${number}']`);

const comes = (list: SdOwnCups, number: number): string =>
  row(list, number)?.querySelector('.comes')?.textContent?.trim() ?? '';

describe('the list of cups in no animal’s row', () => {
  it('takes a cup before it is known whose it is, and gives it to its animal later', async () => {
    const { session, list } = await open();
    const id = (key: string): string => columnByKey(session.notebook, key)?.id ?? '';
    await addCup(list, '91', '');
    await so(list, () => row(list, 91) !== null);
    expect(comes(list, 91)).to.equal('not counted yet');
    typeInto(field(list, 'chamber 1 of cup 91'), '3');
    typeInto(field(list, 'chamber 2 of cup 91'), '5');
    await so(list, () => comes(list, 91).startsWith('400 epg'));
    expect(comes(list, 91)).to.contain('an animal not known yet');

    // W-109 was not counted that day.
    typeInto(field(list, 'whose dung cup 91 holds: tags, or nothing yet'), 'W-109');
    await so(list, () => row(list, 91)?.querySelector('.give') !== null);
    row(list, 91)?.querySelector<HTMLElement>('.give')?.click();
    await so(list, () => row(list, 91) === null);
    expect(readingOf(session.notebook, TODAY, 'a-W-109', id('chamber1'))?.text).to.equal('3');
    expect(session.engine.value('a-W-109', id('epg'))).to.equal(400);

    await session.undo();
    await so(list, () => row(list, 91) !== null);
    expect(session.engine.value('a-W-109', id('epg'))).to.equal(null);
  });

  it('keeps a mixed cup out of every animal’s row', async () => {
    const { session, list } = await open();
    await addCup(list, '92', 'W-101, W-102; W-103');
    await so(list, () => row(list, 92) !== null);
    typeInto(field(list, 'chamber 1 of cup 92'), '2');
    typeInto(field(list, 'chamber 2 of cup 92'), '2');
    await so(list, () => comes(list, 92).startsWith('200 epg, of 3 animals mixed'));
    expect(row(list, 92)?.querySelector('.give')).to.equal(null);
    expect(ownCups(session.notebook, TODAY)[0]?.animalIds).to.have.length(3);
  });

  it('says what is wrong, and keeps what was typed', async () => {
    const { session, list } = await open();
    await addCup(list, 'twelve', '');
    const alert = (): string =>
      list.renderRoot.querySelector('[role="alert"]')?.textContent?.trim() ?? '';
    expect(alert()).to.equal('A cup has a whole number from 1 on. Type the number written on it.');
    expect(field(list, 'number').value).to.equal('twelve');
    await addCup(list, '12', 'W-999');
    expect(alert()).to.contain('1 tag is not in this notebook: W-999');
    expect(ownCups(session.notebook, TODAY)).to.have.length(0);
    await addCup(list, '12', 'W-101');
    await so(list, () => row(list, 12) !== null);
    expect(alert()).to.equal('');
    typeInto(field(list, 'chamber 1 of cup 12'), '3?');
    await so(list, () => alert() !== '');
    expect(field(list, 'chamber 1 of cup 12').value).to.equal('3?');
    expect(comes(list, 12)).to.equal('no epg: a count that is no number');
    row(list, 12)?.querySelector<HTMLElement>('.give')?.click();
    await so(list, () => alert().includes('typed in its own row already'));
  });

  it('shows what is typed and wrong on one day on that day alone', async () => {
    const { session, list } = await open();
    const alerts = (): number => list.renderRoot.querySelectorAll('[role="alert"]').length;
    const whose = 'whose dung cup 93 holds: tags, or nothing yet';
    await addCup(list, '93', '');
    await so(list, () => row(list, 93) !== null);
    typeInto(field(list, whose), 'W-999');
    type(field(list, 'number'), '93');
    type(field(list, 'whose'), 'W-101');
    list.renderRoot.querySelector('form')?.requestSubmit();
    await so(list, () => alerts() === 2);

    await session.open('2026-06-21');
    await so(list, () => row(list, 93) === null);
    expect(alerts()).to.equal(0);
    expect(field(list, 'number').value + field(list, 'whose').value).to.equal('');
    type(field(list, 'number'), '94');
    list.renderRoot.querySelector('form')?.requestSubmit();
    await so(list, () => row(list, 94) !== null);
    expect(field(list, 'number').value).to.equal('');

    await session.open(TODAY);
    await so(list, () => alerts() === 2);
    expect(field(list, 'number').value).to.equal('93');
    expect(field(list, 'whose').value).to.equal('W-101');
    expect(field(list, whose).value).to.equal('W-999');
  });

  it('takes the focus from a cup that leaves the list to the next, and from the last to the field', async () => {
    const { list } = await open();
    const focused = (): string => list.shadowRoot?.activeElement?.getAttribute('aria-label') ?? '';
    for (const [number, whose] of [
      [95, ''],
      [96, 'W-109'],
      [97, ''],
    ] as const) {
      await addCup(list, String(number), whose);
      await so(list, () => focused().endsWith(` of cup ${number}`));
    }
    button(list, 'Take cup 95 out of the list').focus();
    button(list, 'Take cup 95 out of the list').click();
    await so(list, () => focused() === 'chamber 1 of cup 96');
    button(list, 'Into the row of W-109').focus();
    button(list, 'Into the row of W-109').click();
    await so(list, () => focused() === 'chamber 1 of cup 97');
    button(list, 'Take cup 97 out of the list').focus();
    button(list, 'Take cup 97 out of the list').click();
    await so(list, () => list.shadowRoot?.activeElement === field(list, 'number'));
  });
});
