import { ContextProvider } from '@lit/context';
import { expect, fixture } from '@open-wc/testing';
import { sendKeys } from '@web/test-runner-commands';
import { html } from 'lit';
import { MemoryShelf } from '../../components/memory-shelf.ts';
import { MemoryTemplates } from '../../components/memory-templates.ts';
import type { SdStart } from '../../components/sd-start.ts';
import '../../components/sd-start.ts';
import { deepActive } from '../../components/sd-sheet.ts';
import { servicesContext, type Services } from '../../components/services.ts';
import { isFault } from '../../shared/value.ts';
import { aboutOf } from '../../src/notebook/read.ts';
import { setsOf } from '../../src/notebook/record-sets.ts';
import { demo } from './open-notebook.ts';
import { allText, button, deep, says, until, withFacts } from './treating-page.ts';

interface Open {
  readonly start: SdStart;
  readonly shelf: MemoryShelf;
}

async function open(
  hasNotebook = true,
  prepare?: (shelf: MemoryShelf) => Promise<void>,
): Promise<Open> {
  let ids = 0;
  const shelf = new MemoryShelf(
    () => Date.UTC(2026, 6, 19, 12),
    () => `id-${(ids += 1)}`,
  );
  if (hasNotebook) await shelf.add(demo());
  await prepare?.(shelf);
  const services = {
    shelf,
    templates: [],
    ownTemplates: new MemoryTemplates(),
    demo: { id: 'demo', make: () => Promise.resolve(demo()) },
    today: () => '2026-07-19',
    promise: () => '',
    subscribeNotices: () => () => undefined,
    notices: () => [],
  } as Partial<Services> as Services;
  const page = document.createElement('div');
  document.body.append(page);
  new ContextProvider(page, { context: servicesContext, initialValue: services });
  const start = await fixture<SdStart>(html`<sd-start></sd-start>`, { parentNode: page });
  await says(start, 'Your notebooks');
  return { start, shelf };
}

async function titles({ shelf }: Open): Promise<string> {
  const entries = await shelf.list();
  return entries.map(({ title, isDeleted }) => (isDeleted ? `(${title})` : title)).join(' | ');
}

/** Three notebooks more, two of them of one name, and all three deleted. */
async function openDeleted(): Promise<Open> {
  const at = await open(true, async (shelf) => {
    for (const [id, title, place] of [
      ['hill-1', 'Hill', 'Garth'],
      ['hill-2', 'Hill', 'Skelton'],
      ['moor', 'Moor', 'Skelton'],
    ] as const) {
      await shelf.add(withFacts({ ...demo(), id }, setsOf('about', 'notebook', { title, place })));
      await shelf.remove(id);
    }
  });
  await says(at.start, 'Deleted (3)');
  deep(at.start, 'summary').click();
  return at;
}

async function ids({ shelf }: Open): Promise<string> {
  const entries = await shelf.list();
  return entries.map(({ id }) => id).join(' | ');
}

/** Waits until the focus is where this says, and says where it is when it never comes. */
async function focusIs(isThere: (element: Element | null) => boolean): Promise<void> {
  await until(
    () => isThere(deepActive()),
    () => `the focus is on ${deepActive()?.outerHTML ?? 'nothing'}`,
  );
}

describe('<sd-start>', () => {
  it('says what to do where there is no notebook yet', async () => {
    const { start } = await open(false);
    await says(start, 'None on this device yet');
  });

  it('opens a notebook of the list', async () => {
    const at = await open();
    let opened = '';
    at.start.addEventListener('open-notebook', (event) => {
      opened = (event as CustomEvent<{ id: string }>).detail.id;
    });
    deep(at.start, '.open').click();
    expect(opened).to.equal(demo().id);
  });

  it('deletes, and puts back what was deleted, counts and all', async () => {
    const at = await open();
    button(at.start, 'Delete').click();
    await says(at.start, 'Nettlewick Top is deleted.');
    expect(await titles(at)).to.equal('(Nettlewick Top)');
    button(at.start, 'Put it back').click();
    await until(
      () => at.start.renderRoot.querySelector('.open') !== null,
      () => allText(at.start),
    );
    expect(await titles(at)).to.equal('Nettlewick Top');
    const kept = await at.shelf.read(demo().id);
    expect(isFault(kept)).to.be.false;
    if (!isFault(kept)) expect(Object.keys(kept.readings)).to.have.length(4);
  });

  it('copies under a title of its own and leaves the first alone', async () => {
    const at = await open();
    button(at.start, 'Copy').click();
    await says(at.start, 'Nettlewick Top (copy)');
    const entries = await at.shelf.list();
    expect(new Set(entries.map(({ id }) => id)).size).to.equal(2);
    const first = await at.shelf.read(demo().id);
    if (!isFault(first)) expect(aboutOf(first).title).to.equal('Nettlewick Top');
  });

  it('renames, but not to nothing', async () => {
    const at = await open();
    button(at.start, 'Rename').click();
    const dialog = deep(at.start, 'sd-rename-notebook');
    await until(
      () => deep<HTMLDialogElement>(dialog, 'dialog').open,
      () => allText(dialog),
    );
    const title = deep<HTMLInputElement>(dialog, '[name="title"]');
    title.value = '';
    button(dialog, 'Rename').click();
    await says(dialog, 'A notebook needs a name');
    title.value = 'Nettlewick 2027';
    button(dialog, 'Rename').click();
    await says(at.start, 'Nettlewick 2027');
    expect(await titles(at)).to.equal('Nettlewick 2027');
  });

  it('asks before it deletes for good, and a second Enter keeps the notebook', async () => {
    const at = await openDeleted();
    const before = await ids(at);
    button(at.start, 'Delete for good: Moor').focus();
    await sendKeys({ press: 'Enter' });
    await says(at.start, 'Delete Moor for good? It cannot be brought back.');
    await sendKeys({ press: 'Enter' });
    await focusIs((element) => element?.getAttribute('aria-label') === 'Delete for good: Moor');
    expect(await ids(at)).to.equal(before);
    expect(allText(at.start)).not.to.contain('It cannot be brought back.');
  });

  it('deletes for good the one that was meant, says so, and leaves the focus where Enter deletes nothing', async () => {
    const at = await openDeleted();
    button(at.start, 'Delete for good: Moor').click();
    await says(at.start, 'Delete Moor for good?');
    button(at.start, 'Delete for good: Moor').click();
    await says(at.start, 'Moor is deleted for good.');
    expect(await ids(at)).not.to.contain('moor');
    await focusIs((element) => element?.localName === 'summary');
    const left = await ids(at);
    await sendKeys({ press: 'Enter' });
    await sendKeys({ press: 'Enter' });
    expect(await ids(at)).to.equal(left);
    const said = [...at.start.renderRoot.querySelectorAll('[role="status"]')];
    expect(said.map((one) => one.textContent).join()).to.contain('Moor is deleted for good.');
  });

  it('tells apart two deleted notebooks of one name', async () => {
    const { start } = await openDeleted();
    const list = deep(start, 'sd-deleted-notebooks');
    const lines = [...(list.shadowRoot?.querySelectorAll('li') ?? [])].map((li) =>
      li.textContent.replace(/\s+/g, ' '),
    );
    const hills = lines.filter((line) => line.includes('Hill'));
    expect(hills).to.have.length(2);
    expect(hills.some((line) => line.includes('Garth'))).to.be.true;
    expect(hills.some((line) => line.includes('Skelton'))).to.be.true;
    await expect(start).to.be.accessible();
  });

  it('goes to the heading of the list once the last deleted notebook is gone', async () => {
    const at = await open(true, (shelf) => shelf.add({ ...demo(), id: 'other' }));
    button(at.start, 'Delete').click();
    await says(at.start, 'Deleted (1)');
    button(at.start, 'Delete for good: Nettlewick Top').click();
    await says(at.start, 'It cannot be brought back.');
    const list = deep(at.start, 'sd-deleted-notebooks');
    button(list, 'Delete for good: Nettlewick Top').click();
    await says(at.start, 'Nettlewick Top is deleted for good.');
    expect(allText(at.start)).not.to.contain('Deleted (');
    await focusIs((element) => element?.id === 'yours');
  });

  it('says what was copied and renamed, with the focus on the menu of the notebook that was meant', async () => {
    const at = await open();
    const menu = `[data-notebook="${demo().id}"] sd-menu`;
    const onMenu = (): boolean => {
      const host = at.start.renderRoot.querySelector(menu);
      return host?.shadowRoot?.activeElement?.classList.contains('opener') === true;
    };
    button(deep(at.start, menu), 'Copy').click();
    await says(at.start, 'Nettlewick Top (copy) is in the list now.');
    await focusIs(onMenu);
    button(deep(at.start, menu), 'Rename').click();
    const dialog = deep(at.start, 'sd-rename-notebook');
    await until(
      () => deep<HTMLDialogElement>(dialog, 'dialog').open,
      () => allText(dialog),
    );
    deep<HTMLInputElement>(dialog, '[name="title"]').value = 'Ash';
    button(dialog, 'Rename').click();
    await says(at.start, 'Nettlewick Top is now called Ash.');
    await focusIs(onMenu);
  });

  it('has no barrier that axe can find', async () => {
    const { start } = await open();
    await expect(start).to.be.accessible();
  });
});
