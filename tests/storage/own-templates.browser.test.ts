import { expect } from '@open-wc/testing';
import type { Template } from '../../shared/template.ts';
import { readTemplate } from '../../src/notebook/read-template.ts';
import { openStore } from '../../src/storage/store.ts';
import summer from '../../templates/summer-grazing.json' with { type: 'json' };
import { freshStore, herd, raw, sound } from './kept-notebook.ts';

const template: Template = { ...sound(readTemplate(summer)), id: 'own-1', name: 'Hill flock' };

describe('own templates', () => {
  it('are there after reopening, by name, each kept once', async () => {
    const { store, name } = await freshStore();
    await store.templates.keep(template);
    await store.templates.keep({ ...template, id: 'own-2', name: 'Goats' });
    await store.templates.keep({ ...template, purpose: 'For the hill.' });
    const again = sound(await openStore({ name }));
    const list = await again.templates.list();
    expect(list.map(({ name: one, purpose }) => [one, purpose])).to.deep.equal([
      ['Goats', template.purpose],
      ['Hill flock', 'For the hill.'],
    ]);
    expect(list[0]).to.deep.equal({ ...template, id: 'own-2', name: 'Goats' });
  });

  it('are no notebooks: neither listed among them nor purged with one of the same id', async () => {
    const { store } = await freshStore();
    await store.add(herd('own-1', 1));
    await store.templates.keep(template);
    expect((await store.list()).map(({ id }) => id)).to.deep.equal(['own-1']);
    await store.purge('own-1');
    expect(await store.templates.list()).to.have.length(1);
  });

  it('go when deleted; one that cannot be read is passed over, not lost', async () => {
    const { store, name } = await freshStore();
    await store.templates.keep(template);
    await raw(name, 'readwrite', (s) => s.put('{"format": "odd"', ['template', 'broken']));
    expect(await store.templates.list()).to.deep.equal([template]);
    await store.templates.remove('own-1');
    expect(await store.templates.list()).to.deep.equal([]);
    expect(await raw(name, 'readonly', (s) => s.get(['template', 'broken']))).to.contain('odd');
  });
});
