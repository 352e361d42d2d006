import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { say, sayData, sayParts, speak, spokenLanguage, spokenLocale } from '../../src/text/say.ts';

const english = { language: 'en', locale: 'en-GB', sentences: {} };
const counted = '{n, plural, one {# animal} other {# animals}} counted';

afterEach(() => speak(english));

describe('say(english, filling)', () => {
  it('says the sentence of the source as it stands, braces and quotes too', () => {
    expect(say('Type {2,0,5}, the vet’s "own" words.')).toBe(
      'Type {2,0,5}, the vet’s "own" words.',
    );
  });

  it('fills the places by name, a missing value with nothing', () => {
    expect(say('{tag} got {ml} mL{note}.', { tag: 'L-1', ml: 4.5, note: undefined })).toBe(
      'L-1 got 4.5 mL.',
    );
  });

  it('follows the plural rules of the language, with its marks between thousands', () => {
    expect(say(counted, { n: 1 })).toBe('1 animal counted');
    expect(say(counted, { n: 1200 })).toBe('1,200 animals counted');
  });

  it('throws where a place has no value: a mistake of ours that must not be shown half', () => {
    expect(() => say('{tag} left.', {})).toThrow(/tag/);
  });
});

describe('another language', () => {
  beforeEach(() =>
    speak({
      // Polish has three plurals for whole numbers: CLDR one, few, many.
      language: 'pl',
      locale: 'pl-PL',
      sentences: {
        [counted]:
          '{n, plural, one {# zwierzę} few {# zwierzęta} many {# zwierząt} other {# zwierzęcia}}',
        '{day}: sampled by {who}.': '{who} · {day}',
        Undo: 'Cofnij',
      },
    }),
  );

  it('orders and inflects as it does', () => {
    expect(say('Undo')).toBe('Cofnij');
    expect(say('{day}: sampled by {who}.', { day: '3 maja', who: 'Ann' })).toBe('Ann · 3 maja');
    expect([1, 3, 5].map((n) => say(counted, { n }))).toEqual([
      '1 zwierzę',
      '3 zwierzęta',
      '5 zwierząt',
    ]);
    expect([spokenLanguage(), spokenLocale()]).toEqual(['pl', 'pl-PL']);
  });

  it('leaves nothing unsaid: a sentence it lacks is said in English, by English plurals', () => {
    expect(say('Redo')).toBe('Redo');
    expect(say('{n, plural, one {# cup} other {# cups}}', { n: 2 })).toBe('2 cups');
    expect(sayData('constructor')).toBe('constructor');
  });

  it('gives pieces of a page in the order of the language', () => {
    const who = { piece: 'b' };
    expect(sayParts('{day}: sampled by {who}.', { day: '3 maja', who })).toEqual([
      who,
      ' · 3 maja',
    ]);
  });
});
