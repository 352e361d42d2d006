import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { blockTitle } from '../../components/block-registry.ts';
import type { Block } from '../../shared/notebook.ts';
import type { Template } from '../../shared/template.ts';

const folder = new URL('../../templates/', import.meta.url);
const figuresOfTemplates = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .map((name) => JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as Template)
  .map(({ blocks }) => blocks.find(({ kind }) => kind === 'figures'));

describe('blockTitle(block, herd)', () => {
  it('calls the animals what the notebook calls them, in the heading of every template', () => {
    expect(figuresOfTemplates.length).toBeGreaterThan(5);
    for (const figures of figuresOfTemplates) {
      const block = { ...figures, id: 'b' } as Block;
      const titles = ['flock', 'herd', 'mob', 'our own'].map((word) => blockTitle(block, word));
      expect(titles).toEqual([
        'The flock today',
        'The herd today',
        'The mob today',
        'The herd today',
      ]);
    }
  });

  it('leaves a heading that a person gave as it is', () => {
    const block = { id: 'b', kind: 'figures', title: 'The herd this evening' } as Block;
    expect(blockTitle(block, 'flock')).toBe('The herd this evening');
    expect(blockTitle({ id: 'c', kind: 'check list' }, 'flock')).toBe('Check list');
  });
});
