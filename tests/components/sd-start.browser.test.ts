import { ContextProvider } from '@lit/context';
import { expect, fixture } from '@open-wc/testing';
import { html } from 'lit';
import { MemoryShelf } from '../../components/memory-shelf.ts';
import { MemoryTemplates } from '../../components/memory-templates.ts';
import type { SdStart } from '../../components/sd-start.ts';
import '../../components/sd-start.ts';
import { servicesContext, type Services } from '../../components/services.ts';
import { isFault } from '../../shared/value.ts';
import { aboutOf } from '../../src/notebook/read.ts';
import { demo } from './open-notebook.ts';
import { allText, button, deep, says, until } from './treating-page.ts';

interface Open {
  readonly start: SdStart;
  readonly shelf: MemoryShelf;
}

async function open(hasNotebook = true): Promise<Open> {
  let ids = 0;
  const shelf = new MemoryShelf(
    () => Date.UTC(2026, 6, 19, 12),
    () => `id-${(ids += 1)}`,
  );
  if (hasNotebook) await shelf.add(demo());
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

  it('has no barrier that axe can find', async () => {
    const { start } = await open();
    await expect(start).to.be.accessible();
  });
});
