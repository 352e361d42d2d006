import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import type { Template } from '../shared/template.ts';
import { templateSentences } from '../src/notebook/template-in-language.ts';
import { languages } from '../components/language.ts';
import { readSources } from './import-graph.ts';
import { gatherSentences, placesOf, unfilledPlaces, unsaidWords } from './sentences.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const sources = readSources(root, ['shared', 'src', 'components']);
const { sentences, faults } = gatherSentences(sources);
const templates = readdirSync(`${root}/templates`).flatMap((name) => {
  const template = JSON.parse(readFileSync(`${root}/templates/${name}`, 'utf8')) as Template;
  return templateSentences(template).map((sentence) => [sentence, `templates/${name}`] as const);
});
const english = new Map([
  ...templates,
  ...sentences.map((sentence) => [sentence.english, sentence.place] as const),
]);
/** Of a template's texts no place is filled: they may hold any sign. */
const withPlaces = new Set(sentences.map((sentence) => sentence.english));

describe('the sentences of the source', () => {
  it('were found', () => {
    expect(english.size).toBeGreaterThan(1500);
  });

  it('are written out where they are said', () => {
    expect(faults).toEqual([]);
  });

  it('have every place of theirs filled, and no other', () => {
    expect(unfilledPlaces(sources)).toEqual([]);
  });

  it('leave no word of a page unsaid', () => {
    expect(unsaidWords(sources)).toEqual([]);
  });
});

const files = readdirSync(`${root}/languages`).map((name) => name.replace('.json', ''));

it('every language has a file, and every file a language', () => {
  expect(files.sort()).toEqual(
    languages
      .map(({ code }) => code)
      .filter((code) => code !== 'en')
      .sort(),
  );
});

describe.each(files)('%s', (code) => {
  const words = JSON.parse(readFileSync(`${root}/languages/${code}.json`, 'utf8')) as Readonly<
    Record<string, string>
  >;

  it('has every sentence of the source, and none that is gone', () => {
    const missing = [...english].filter(([sentence]) => !Object.hasOwn(words, sentence));
    expect(missing.map(([sentence, place]) => `${place}: ${sentence}`)).toEqual([]);
    const gone = Object.keys(words).filter((sentence) => !english.has(sentence));
    expect(gone).toEqual([]);
  });

  it('leaves no sentence empty', () => {
    expect(Object.entries(words).filter(([, said]) => said.trim() === '')).toEqual([]);
  });

  it('has the same places in each sentence', () => {
    const other = [...withPlaces]
      .filter((sentence) => sentence.includes('{') && Object.hasOwn(words, sentence))
      .filter((sentence) => {
        const said = words[sentence] ?? '';
        return placesOf(said).join() !== placesOf(sentence).join();
      });
    expect(other).toEqual([]);
  });
});
