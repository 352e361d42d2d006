import type { FigureAnswer, FigureAsked } from '../../shared/derived.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { isFault, type Fault } from '../../shared/value.ts';
import type { Book } from './book.ts';
import type { Compiled, NamedList } from './compiled.ts';
import { looseFigure, looseText } from './loose-formula.ts';
import type { DayNode } from './node.ts';
import { quoted } from './quoted.ts';
import { parseStored } from './stored-formula.ts';

/** A figure asked for, compiled against a book: the formula or what is wrong with it. */
export interface FigureWork {
  readonly compiled: Compiled | Fault;
  /** The animals that the answer's n of N is about: the first list named, or all of the day or group. */
  readonly about: NamedList;
}

export function figureWork(notebook: Notebook, book: Book, asked: FigureAsked): FigureWork {
  const { kinds } = book.plan;
  const { day, group } = asked;
  const syntax = parseStored(notebook, asked.formula);
  const compiled = isFault(syntax)
    ? syntax
    : looseFigure(syntax, { notebook, kinds, layout: book.layout, day }, group);
  const first = isFault(compiled) ? undefined : compiled.lists[0];
  return { compiled, about: first ?? { day, node: 't:tag', group } };
}

/** What must stand in the book before the figure can be answered. */
export function figureNeeds({ compiled, about }: FigureWork): readonly DayNode[] {
  return [
    { day: about.day, node: 't:tag' },
    { day: about.day, node: 't:group' },
    ...(isFault(compiled) ? [] : compiled.needs),
  ];
}

/** Answers a figure from a book in which all it needs stands. */
export function answerFigure(book: Book, { compiled, about }: FigureWork): FigureAnswer {
  const count = (node: NamedList['node']): number => {
    const list = book.layout.range(about.day, node, null);
    const groups = book.layout.range(about.day, 't:group', null);
    const kept =
      about.group === null ? list : `KEEPGROUP(${list},${groups},${quoted(about.group)})`;
    const known = book.ask(about.day, `COUNTKNOWN(${kept})`);
    return typeof known === 'number' ? known : 0;
  };
  const present = count('t:tag');
  if (isFault(compiled)) return { value: compiled, counted: null, present };
  return {
    value: book.ask(about.day, looseText(compiled, null)),
    counted: compiled.lists.length === 0 ? null : count(about.node),
    present,
  };
}
