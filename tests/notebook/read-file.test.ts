import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { isFault } from '../../shared/value.ts';
import { emptyNotebook } from '../../src/notebook/from-template.ts';
import { writeNotebookText } from '../../src/notebook/notebook-file.ts';
import { readFileText } from '../../src/notebook/read-file.ts';

const template = readFileSync(
  join(import.meta.dirname, '..', '..', 'templates', 'quarantine.json'),
  'utf8',
);

describe('readFileText(text)', () => {
  it('knows a notebook and a template by what they say of themselves', () => {
    const notebook = emptyNotebook('n');
    expect(readFileText(writeNotebookText(notebook))).toEqual({ kind: 'notebook', notebook });
    expect(readFileText(template)).toMatchObject({
      kind: 'template',
      template: { id: 'quarantine' },
    });
    expect(readFileText(`\ufeff${template}`)).toMatchObject({ kind: 'template' });
  });

  it('is not misled by a note that speaks of templates', () => {
    const notebook = {
      ...emptyNotebook('n'),
      about: { notebook: { title: [['sampling-daybook-template', [1, 0, 'bench']]] } },
    };
    expect(readFileText(JSON.stringify(notebook))).toMatchObject({ kind: 'notebook' });
  });

  it.each([
    ['nothing', '', /empty/],
    ['a letter', 'Dear Sir', /not a notebook file/],
    ['half a notebook', writeNotebookText(emptyNotebook('n')).slice(0, 80), /damaged/],
    ['half a template', template.slice(0, 400), /damaged|not a notebook file/],
    ['a template of a newer version', template.replace('"version": 1', '"version": 9'), /newer/],
    ['another kind of JSON', '{"rows": []}', /\.$/],
  ])('gives a sentence for %s', (_, text, sentence) => {
    const read = readFileText(text);
    expect(isFault(read) && read.sentence).toMatch(sentence);
  });
});
