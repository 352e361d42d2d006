import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Template } from '../../shared/template.ts';
import { isFault } from '../../shared/value.ts';
import { checkTemplate } from '../../src/engine/check-template.ts';
import { readTemplateText } from '../../src/notebook/read-template.ts';

const folder = join(import.meta.dirname, '..', '..', 'templates');
const files = readdirSync(folder);

function read(file: string): Template {
  const template = readTemplateText(readFileSync(join(folder, file), 'utf8'));
  if (isFault(template)) throw new Error(template.sentence);
  return template;
}

const summer = read('summer-grazing.json');

/** A template as a stranger's file might hold it: facts of a wrong kind among them. */
function spoilt(change: (template: Record<string, unknown>) => void): Template {
  const copy = structuredClone(summer) as unknown as Record<string, unknown>;
  change(copy);
  return copy as unknown as Template;
}

describe('checkTemplate(template)', () => {
  it.each(files)('finds nothing wrong in %s', (file) => {
    expect(checkTemplate(read(file))).toBeNull();
  });

  const { columns, figures, criteria } = summer;
  it.each<readonly [string, Partial<Record<keyof Template, unknown>>, RegExp]>([
    [
      'the column whose formula names nothing',
      {
        columns: columns.map((c) => (c.key === 'epg' ? { ...c, formula: 'EPG(egs, factor)' } : c)),
      },
      /column “epg” \(epg\).*egs/,
    ],
    [
      'the column that leads back to itself',
      { columns: columns.map((c) => (c.key === 'epg' ? { ...c, formula: 'epg + 1' } : c)) },
      /column “epg” \(epg\)/,
    ],
    [
      'the formula column without a formula',
      { columns: columns.map((c) => (c.key === 'epg' ? { ...c, formula: '' } : c)) },
      /column “epg” \(epg\) has no formula/,
    ],
    [
      'the figure whose formula is not finished',
      { figures: figures.map((f, i) => (i === 0 ? { ...f, formula: 'HERDMEAN(herd.epg' } : f)) },
      /figure “mean” \(mean_epg\)/,
    ],
    [
      'the criterion that is no condition',
      { criteria: [{ ...criteria[0], reason: 'pale', condition: 'eyelid >=' }] },
      /criterion “pale”/,
    ],
    [
      'the place of a fact of a wrong kind',
      { columns: columns.map((c) => (c.key === 'eyelid' ? { ...c, words: 'red' } : c)) },
      /columns › eyelid › words/,
    ],
    ['a block of an unknown kind', { blocks: [{ kind: 'crystal ball', title: 'x' }] }, /blocks/],
  ])('names %s', (_, parts, sentence) => {
    const found = checkTemplate(spoilt((template) => Object.assign(template, parts)));
    expect(found?.sentence).toMatch(sentence);
  });
});
