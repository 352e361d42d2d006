import { IntlMessageFormat } from 'intl-messageformat';

/** The sentences of one language, each under the English sentence that stands in the source. */
export type Sentences = Readonly<Record<string, string>>;

/** What fills the places of a sentence. `{n, plural, …}` takes a number; all else stands as it is given, a missing value as nothing. */
export type Filling = Readonly<Record<string, string | number | null | undefined>>;

/** How the program speaks, fixed for as long as it runs. */
export interface Speech {
  /** Language of the sentences and of the plural rules, such as `es`. */
  readonly language: string;
  /** How dates are written, such as `es-PE`. */
  readonly locale: string;
  readonly sentences: Sentences;
}

/** Before anything else is said the program speaks the language of its source. */
let speech: Speech = { language: 'en', locale: 'en-GB', sentences: {} };
let formats = new Map<string, IntlMessageFormat>();

/**
 * Fixes the language. Called once, before the modules that hold sentences are loaded: many of them keep
 * their sentences in constants. Another language takes a page loaded anew.
 */
export function speak(chosen: Speech): void {
  speech = chosen;
  formats = new Map();
}

/** The language spoken, such as `en`. */
export function spokenLanguage(): string {
  return speech.language;
}

/** The locale in which dates are shown, such as `en-GB`. */
export function spokenLocale(): string {
  return speech.locale;
}

/** The sentence as the language has it; one it lacks stays English, so nothing is ever left unsaid. */
function inLanguage(english: string): string {
  return Object.hasOwn(speech.sentences, english)
    ? (speech.sentences[english] ?? english)
    : english;
}

function formatOf(english: string): IntlMessageFormat {
  let format = formats.get(english);
  if (!format) {
    const isTranslated = Object.hasOwn(speech.sentences, english);
    const language = isTranslated ? speech.language : 'en';
    format = new IntlMessageFormat(inLanguage(english), language, undefined, { ignoreTag: true });
    formats.set(english, format);
  }
  return format;
}

/**
 * A sentence for people, in the language spoken. The first argument is the English sentence, written out in
 * the source so that the list of all sentences can be gathered from it. With a filling it is a message in
 * ICU form: `{tag}` stands for a value, `{n, plural, one {# animal} other {# animals}}` follows the plural
 * rules of the language. Without one it is taken letter by letter.
 *
 * @throws where a place of the sentence has no value, or its form cannot be read: our own mistake.
 */
export function say(english: string, filling?: Filling): string {
  if (!filling) return inLanguage(english);
  return String(formatOf(english).format(filling));
}

/** The same in the words of the source, whatever language is spoken: for files that programs read. */
export function sayInEnglish(english: string, filling?: Filling): string {
  if (!filling) return english;
  return String(
    new IntlMessageFormat(english, 'en', undefined, { ignoreTag: true }).format(filling),
  );
}

/**
 * The same with things that are no text in it, such as a piece of a page: the parts in the order of the
 * language.
 */
export function sayParts<T extends object>(
  english: string,
  filling: Readonly<Record<string, string | number | T | null | undefined>>,
): readonly (string | T)[] {
  return formatOf(english)
    .formatToParts<T>(filling)
    .map(({ value }) => (typeof value === 'object' ? value : String(value)));
}

/** The same for a sentence that stands in a file of data, such as a season template, and has no places. */
export function sayData(english: string): string {
  return inLanguage(english);
}
