import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import type { Template } from '../../shared/template.ts';
import { templateInLanguage, templateSentences } from '../../src/notebook/template-in-language.ts';
import { speak } from '../../src/text/say.ts';

const folder = join(import.meta.dirname, '..', '..', 'templates');
const templates = readdirSync(folder).map(
  (file) => JSON.parse(readFileSync(join(folder, file), 'utf8')) as Template,
);

/** A language that has every text of every template, each in brackets. */
function speakBrackets(): void {
  const all = templates.flatMap(templateSentences);
  const sentences = Object.fromEntries(all.map((text) => [text, `«${text}»`]));
  speak({ language: 'es', locale: 'es', sentences });
}

afterEach(() => speak({ language: 'en', locale: 'en-GB', sentences: {} }));

/** Every text of a template by its place, such as `columns.0.label`. */
function textsOf(value: unknown, place = ''): readonly (readonly [string, string])[] {
  if (typeof value === 'string') return [[place, value]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    textsOf(inner, place === '' ? key : `${place}.${key}`),
  );
}

/** Places whose texts are names for programs, or formulas. */
const forPrograms =
  /^(format|id|protocol\.fluidIs)$|\.(key|kind|about|formula|condition|ready|species|shownAs|classes\.\d+)$/;

describe('templateInLanguage(template)', () => {
  it.each(templates)('puts what people read of $id into the language, and nothing else', (one) => {
    speakBrackets();
    const said = new Map(textsOf(templateInLanguage(one)));
    const isStatus = (place: string): boolean => {
      const column = /^columns\.(\d+)\.words\./.exec(place)?.[1];
      return column !== undefined && one.columns[Number(column)]?.key === 'status';
    };
    for (const [place, text] of textsOf(one)) {
      const stays = forPrograms.test(place) || isStatus(place);
      expect(said.get(place), place).toBe(stays ? text : `«${text}»`);
    }
    expect(said.size).toBe(textsOf(one).length);
  });

  it('keeps numbers, and a text that the language lacks', () => {
    for (const one of templates) expect(templateInLanguage(one)).toEqual(one);
  });
});

describe('templateSentences(template)', () => {
  it('lists each text once, formulas and status words not among them', () => {
    const sentences = templates
      .filter(({ id }) => id === 'summer-grazing')
      .flatMap(templateSentences);
    expect(new Set(sentences).size).toBe(sentences.length);
    expect(sentences).toContain('Summer grazing');
    expect(sentences).toContain('sugar solution');
    expect(sentences).toContain('red-pink');
    expect(sentences).not.toContain('not sampled');
    expect(sentences).not.toContain('EPG(eggs, factor)');
  });
});
