import type { Template } from '../../shared/template.ts';
import { sayData, spokenLanguage } from '../text/say.ts';

/**
 * A template with each text for people put through `change`: names, labels, hints, reasons, units and words
 * to choose from. Formulas, keys, kinds and ids are names for programs and stay. So do the words of a
 * cup's status: they are kept in English in every notebook and shown in the language spoken.
 */
function withTexts(template: Template, change: (text: string) => string): Template {
  const texts = <T extends object, K extends keyof T>(record: T, ...fields: readonly K[]): T => {
    const changed = fields.flatMap((field) => {
      const text = record[field];
      return typeof text === 'string' ? [[field, change(text)] as const] : [];
    });
    return { ...record, ...Object.fromEntries(changed) };
  };
  return {
    ...texts(template, 'name', 'purpose', 'nextSample'),
    checkList: template.checkList.map(change),
    protocol: texts(template.protocol, 'fluid'),
    columns: template.columns.map((column) => {
      const said = texts(column, 'label', 'help', 'unit');
      return column.words && column.key !== 'status'
        ? { ...said, words: column.words.map(change) }
        : said;
    }),
    limits: template.limits.map((limit) => texts(limit, 'label', 'unit', 'help', 'saidBy')),
    criteria: template.criteria.map((criterion) => texts(criterion, 'reason', 'saidBy')),
    figures: template.figures.map((figure) => texts(figure, 'label', 'unit')),
    blocks: template.blocks.map((block) => texts(block, 'title', 'text')),
  };
}

/** A template that comes with the program, in the language spoken: a notebook started from it keeps these texts. */
export function templateInLanguage(template: Template): Template {
  const said = withTexts(template, (text) => (text === '' ? text : sayData(text)));
  if (spokenLanguage() === 'en') return said;
  // The widths are those of the English labels; another language's take what they need.
  const columns = said.columns.map(({ width: _, ...column }) => column);
  return { ...said, columns };
}

/** Every text for people in a template, each once, in order: what a language has to have. */
export function templateSentences(template: Template): readonly string[] {
  const found = new Set<string>();
  withTexts(template, (text) => {
    if (text !== '') found.add(text);
    return text;
  });
  return [...found];
}
