import { describe, expect, it } from 'vitest';
import { readPastedAnimals, speciesOfClass } from '../../src/notebook/pasted-animals.ts';
import { summerNotebook } from '../build-notebook.ts';

const notebook = summerNotebook({ animals: { 'W-101': {}, '0123': {} } });

function read(text: string) {
  return readPastedAnimals(notebook, text).map(({ line, tag, isNew }) => [line, tag, isNew]);
}

describe('readPastedAnimals(notebook, text)', () => {
  it('takes one tag on each line, whatever ends the lines, and makes no animal of blank ones', () => {
    expect(read('K-1\r\n\r\nK-2\rK-3\n   \n')).toEqual([
      [1, 'K-1', true],
      [3, 'K-2', true],
      [4, 'K-3', true],
    ]);
  });

  it('takes tags parted by commas or semicolons, but leaves the spaces inside a tag', () => {
    expect(read('K-1, K-2;982 000123456781').map(([, tag]) => tag)).toEqual([
      'K-1',
      'K-2',
      '982 000123456781',
    ]);
  });

  it('keeps every tag as text: zeros, exponents, dates and truth values', () => {
    const tags = ['0012', '9E5', '1.5.2', '3-4-26', 'TRUE', '982000123456781', '982000123456782'];
    const found = readPastedAnimals(notebook, tags.join('\n'));
    expect(found.map(({ tag }) => tag)).toEqual(tags);
    expect(found.every(({ isNew }) => isNew)).toBe(true);
  });

  it('reads group and class from the columns of a sheet, and says when a class is none', () => {
    const [one, two] = readPastedAnimals(notebook, 'K-1\tlambs\tlambs\nK-2\tgoats\tbilly');
    expect(one).toMatchObject({ tag: 'K-1', group: 'lambs', class: 'lamb', remark: '' });
    expect(two).toMatchObject({ tag: 'K-2', group: 'goats', class: null, isNew: true });
    expect(two?.remark).toContain('"billy"');
  });

  it('says which columns after the third are left out, beside all else there is to say', () => {
    const [one, two, three] = readPastedAnimals(
      notebook,
      'K-1\tlambs\tlamb\tBella\t\tlame\nw-101\t\tbilly\tBo\nK-2\tlambs\tlamb\t\t',
    );
    expect(one).toMatchObject({ isNew: true, class: 'lamb' });
    expect(one?.remark).toBe('Columns after the third are left out: Bella, lame.');
    expect(two?.remark).toMatch(/capital and small letters.*"billy" is no class.*left out: Bo\.$/);
    expect(three?.remark).toBe('');
  });

  it('names a line without a tag among those left out, and none that holds nothing', () => {
    const found = readPastedAnimals(notebook, '\tlambs\tlamb\ntag\tgroup\n\t\t\nK-1,\n,');
    expect(found.map(({ line, tag, isNew }) => [line, tag, isNew])).toEqual([
      [1, '', false],
      [2, 'tag', false],
      [4, 'K-1', true],
    ]);
    expect(found[0]?.remark).toBe('There is no tag on this line.');
    expect(found[1]?.remark).toContain('heading');
  });

  it('leaves out a heading, an animal that is here, and one that comes twice, and says so', () => {
    const found = readPastedAnimals(notebook, 'tag\nW-101\nK-1\nK-1');
    expect(found.map(({ isNew }) => isNew)).toEqual([false, false, true, false]);
    expect(found.map(({ remark }) => remark)).toEqual([
      expect.stringContaining('heading'),
      expect.stringContaining('in the notebook'),
      '',
      expect.stringContaining('on line 3'),
    ]);
  });

  it('refuses what a spreadsheet made of a long number', () => {
    const [one] = readPastedAnimals(notebook, '9.82E+14');
    expect(one?.isNew).toBe(false);
    expect(one?.remark).toContain('spreadsheet');
  });

  it('takes a tag that differs from another by zeros or case alone, and points it out', () => {
    const found = readPastedAnimals(notebook, '123\nw-101\nK-9');
    expect(found.map(({ isNew }) => isNew)).toEqual([true, true, true]);
    expect(found[0]?.remark).toContain('leading zeros');
    expect(found[1]?.remark).toContain('capital and small letters');
    expect(found[2]?.remark).toBe('');
  });
});

describe('speciesOfClass(class)', () => {
  it('knows sheep and goats by their words, and that a wether may be either', () => {
    expect(speciesOfClass('ewe')).toBe('sheep');
    expect(speciesOfClass('kid')).toBe('goat');
    expect(speciesOfClass('wether')).toBeNull();
  });
});
