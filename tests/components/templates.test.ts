import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Template } from '../../shared/template.ts';
import { templates } from '../../components/templates.ts';

const folder = join(import.meta.dirname, '..', '..', 'templates');

describe('the list of season templates', () => {
  it('has a line for every file', () => {
    const files = readdirSync(folder).map((file) => file.replace('.json', ''));
    expect(templates.map(({ id }) => id).sort()).toEqual(files.sort());
  });

  it.each(templates)('says of $id what its file says, and fetches that file', async (line) => {
    const file = JSON.parse(readFileSync(join(folder, `${line.id}.json`), 'utf8')) as Template;
    const { id, name, purpose } = file;
    expect(line).toMatchObject({ id, name, purpose });
    expect(await line.load()).toEqual(file);
  });
});
