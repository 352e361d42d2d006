import { promisifyRequest, type UseStore } from 'idb-keyval';
import type { Template } from '../../shared/template.ts';
import { isFault } from '../../shared/value.ts';
import { readTemplateText } from '../notebook/read-template.ts';
import { under, type Key } from './keys.ts';
import { write } from './strict-store.ts';

const keyOf = (id: string): Key => ['template', id];

/** The templates a person made or was given, kept in this browser beside the notebooks. */
export class OwnTemplates {
  constructor(private readonly use: UseStore) {}

  /** By name. One that can no longer be read is passed over, and stays where it is. */
  async list(): Promise<readonly Template[]> {
    const texts = await this.use('readonly', (store) =>
      promisifyRequest<unknown[]>(store.getAll(under('template'))),
    );
    return texts
      .flatMap((text) => {
        const read = typeof text === 'string' ? readTemplateText(text) : null;
        return read === null || isFault(read) ? [] : [read];
      })
      .sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
  }

  /** Keeps a template, in place of one with the same id; rejects with a sentence. */
  async keep(template: Template): Promise<void> {
    const text = JSON.stringify(template);
    await write(this.use, (store) => store.put(text, keyOf(template.id)));
  }

  async remove(id: string): Promise<void> {
    await write(this.use, (store) => store.delete(keyOf(id)));
  }
}
