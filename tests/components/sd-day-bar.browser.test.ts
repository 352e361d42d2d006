import { expect } from '@open-wc/testing';
import { html } from 'lit';
import type { SdDayBar } from '../../components/sd-day-bar.ts';
import '../../components/sd-day-bar.ts';
import type { PageMessage } from '../../components/page-message.ts';
import { dayOf, daysOf } from '../../src/notebook/read.ts';
import type { Session } from '../../src/session/session.ts';
import { openSession } from './open-notebook.ts';
import { allText, button, deep, onPage, TODAY, until } from './treating-page.ts';

async function open(): Promise<{ session: Session; bar: SdDayBar; ids: () => string[] }> {
  const session = await openSession();
  const bar = await onPage<SdDayBar>(session, html`<sd-day-bar></sd-day-bar>`);
  return { session, bar, ids: () => daysOf(session.notebook).map(({ id }) => id) };
}

describe('<sd-day-bar>', () => {
  it('marks the open day and opens another one', async () => {
    const { session, bar } = await open();
    expect(deep(bar, '[aria-current="date"]').textContent?.trim()).to.equal('19 July');
    button(bar, '7 June').click();
    await until(
      () => session.openDay === '2026-06-07',
      () => String(session.openDay),
    );
    const marked = (): string => deep(bar, '[aria-current="date"]').textContent?.trim() ?? '';
    await until(() => marked() === '7 June', marked);
  });

  it('offers today; a second sampling on one date needs a label, and says so where it is', async () => {
    const { session, bar, ids } = await open();
    await bar.add();
    const date = deep<HTMLInputElement>(bar, '[name="date"]');
    expect(date.value).to.equal(TODAY);
    button(bar, 'Add the day').click();
    await until(
      () => allText(bar).includes('already there'),
      () => allText(bar),
    );
    expect(ids()).to.have.length(4);
    expect(date.value, 'nothing typed is lost').to.equal(TODAY);
    deep<HTMLInputElement>(bar, '[name="label"]').value = 'Evening';
    button(bar, 'Add the day').click();
    await until(
      () => session.openDay === `${TODAY}-evening`,
      () => ids().join(),
    );
    expect(ids()).to.include(`${TODAY}-evening`);
  });

  it('refuses a date that is none', async () => {
    const { bar, ids } = await open();
    await bar.add();
    deep<HTMLInputElement>(bar, '[name="date"]').value = '';
    button(bar, 'Add the day').click();
    await until(
      () => allText(bar).includes('not a day of the calendar'),
      () => allText(bar),
    );
    expect(ids()).to.have.length(4);
  });

  it('says of a day added again that it is back, and takes who counted it', async () => {
    const { session, bar, ids } = await open();
    button(bar, 'Take off 19 July').click();
    await until(
      () => !ids().includes(TODAY),
      () => ids().join(),
    );
    const said: string[] = [];
    bar.addEventListener('page-message', (event) =>
      said.push((event as CustomEvent<PageMessage>).detail.sentence),
    );
    await bar.add();
    deep<HTMLInputElement>(bar, '[name="by"]').value = 'Ana';
    button(bar, 'Add the day').click();
    await until(
      () => said.includes('19 July 2026 is back, with its counts, and open.'),
      () => said.join(),
    );
    expect(dayOf(session.notebook, TODAY)?.countedBy).to.equal('Ana');
  });

  it('takes a day off with its counts, and one undo brings both back', async () => {
    const { session, bar, ids } = await open();
    button(bar, 'Take off 19 July').click();
    await until(
      () => !ids().includes(TODAY),
      () => ids().join(),
    );
    expect(session.openDay).to.equal('2026-06-21');
    await session.undo();
    expect(ids()).to.include(TODAY);
    expect(session.notebook.readings[TODAY]?.['a-W-101']).to.not.equal(undefined);
  });
});
