import type { Notebook } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { herdWordOf, markOf } from '../src/notebook/read.ts';
import type { CupSureness } from '../src/stats/cup-sureness.ts';
import type { PriorFound } from '../src/stats/herd-prior.ts';
import type { MeanSureness } from '../src/stats/mean-sureness.ts';
import type { BoundEpg } from './bound-epg.ts';
import { figureText } from './figure-text.ts';
import type { RowMethod } from './row-method.ts';
import { say } from '../src/text/say.ts';

/** A statement: what it is about, the figure, and what has to be said with it. */
export interface Statement {
  readonly about: string;
  readonly figure: string;
  readonly rest: string;
  /** Instead of `rest` where there is one line only. */
  readonly short?: string;
  /** The limits of the count, which another place may give already. */
  readonly isLimits?: true;
  /** Whether the chambers agree. */
  readonly isChambers?: true;
  /** Something to do about it. */
  readonly isWarning?: true;
}

type Mark = '.' | ',';

/** How this notebook writes decimals, and what it calls its animals together. */
export interface Wording {
  readonly mark: Mark;
  readonly herd: string;
}

export function wordingOf(notebook: Notebook): Wording {
  return { mark: markOf(notebook), herd: herdWordOf(notebook) };
}

/** How sure one count is, in sentences that stand by themselves on screen, on paper and for the ear. */
export function cupStatements(
  sure: CupSureness,
  prior: PriorFound | undefined,
  method: RowMethod | null,
  wording: Wording,
): readonly Statement[] {
  const { mark, herd } = wording;
  const epg = (value: number): string => figureText(value, 0, mark);
  const found: Statement[] = [];
  if (sure.limits)
    found.push({
      about: say('95 % limits'),
      figure: say('{low} to {high} epg', {
        low: epg(sure.limits.low),
        high: epg(sure.limits.high),
      }),
      rest: say('the luck of the count only'),
      isLimits: true,
    });
  if (sure.under !== null)
    found.push({
      about: say('no egg seen'),
      figure: say('probably under {figure} epg', { figure: epg(sure.under) }),
      rest: say('not free of worms'),
      isLimits: true,
    });
  if (sure.over && prior)
    found.push({
      about: say('chance to be at {limit} epg or more', { limit: epg(sure.over.limit) }),
      figure: percentText(sure.over.chance, mark),
      rest: say('{how}; dung varies from day to day beyond that', {
        how: priorWords(prior, wording),
      }),
      short: say('{how}; dung varies from day to day beyond that', {
        how: shortPrior(prior, herd),
      }),
    });
  if (sure.chambers) found.push(chamberStatement(sure.chambers, mark));
  found.push(...methodStatements(sure.factor, method, mark));
  return found;
}

function chamberStatement({ p, agree }: { p: number; agree: boolean }, mark: Mark): Statement {
  return agree
    ? {
        about: say('chambers'),
        figure: say('agree'),
        rest: pText(p, mark),
        isChambers: true,
      }
    : {
        about: say('chambers'),
        figure: say('differ more than luck explains'),
        rest: say('{p}: stir, refill, recount, or check the typing', { p: pText(p, mark) }),
        isChambers: true,
        isWarning: true,
      };
}

function methodStatements(factor: number, method: RowMethod | null, mark: Mark): Statement[] {
  const figure = say('{figure} epg', { figure: figureText(factor, undefined, mark) });
  const rest = method?.isTyped ? say('factor typed in this row') : (method?.sum?.words ?? '');
  const found: Statement[] = [{ about: say('one egg stands for'), figure, rest }];
  if (method?.warning)
    found.push({
      about: say('factor'),
      figure: '',
      rest: method.warning.sentence,
      isWarning: true,
    });
  return found;
}

/** A count that is a bound has no limits: what it is, and how to get a figure. */
export function boundStatements(bound: BoundEpg | null, mark: Mark): readonly Statement[] {
  if (bound === null || bound.is === 'not settled') return [];
  const figure = boundFigure(bound.is, bound.epg === null ? null : figureText(bound.epg, 0, mark));
  const rest =
    bound.is === 'at most'
      ? say('a bound, in no mean and no list')
      : say('a bound, in no mean and no list: count a part of the grid for a figure');
  return [{ about: say('this count is'), figure, rest }];
}

function boundFigure(is: 'at least' | 'at most' | 'too many', figure: string | null): string {
  if (is === 'too many') return say('too many');
  if (is === 'at least')
    return figure === null ? say('at least') : say('at least {figure} epg', { figure });
  return figure === null ? say('at most') : say('at most {figure} epg', { figure });
}

/** What a chance was reckoned with: "with the flock's own spread (19 counted, k 0.62)". */
export function priorWords(prior: PriorFound, { mark, herd }: Wording): string {
  if (prior.is === 'herd')
    return say(
      "with the {herd, select, flock {flock's} mob {mob's} other {herd's}} own spread ({counted} counted, k {k})",
      {
        herd,
        counted: prior.counted,
        k: figureText(prior.prior.k, 2, mark),
      },
    );
  const why = {
    'few counted': say('fewer than 10 counted, so from this count alone'),
    'no eggs': say(
      'no eggs in the {herd, select, flock {flock} mob {mob} other {herd}}, so from this count alone',
      { herd },
    ),
    'no spread': say(
      "the {herd, select, flock {flock's} mob {mob's} other {herd's}} counts differ no more than chance, so from this count alone",
      { herd },
    ),
  };
  return why[prior.because];
}

function shortPrior(prior: PriorFound, herd: string): string {
  if (prior.is !== 'herd') return say('by this count alone');
  return say("by the {herd, select, flock {flock's} mob {mob's} other {herd's}} own spread", {
    herd,
  });
}

/** A share as percent: `7.1 %`, `62 %`, `under 0.1 %`, `over 99.9 %`. */
export function percentText(share: number, mark: Mark): string {
  const percent = share * 100;
  if (percent > 0 && percent < 0.1)
    return say('under {percent} %', { percent: figureText(0.1, 1, mark) });
  if (percent < 100 && percent > 99.9)
    return say('over {percent} %', { percent: figureText(99.9, 1, mark) });
  const isFine = percent !== 0 && percent !== 100 && (percent < 10 || percent > 90);
  return `${figureText(percent, isFine ? 1 : 0, mark)} %`;
}

/** `p 0.70`, `p 0.004`, `p under 0.001`. */
export function pText(p: number, mark: Mark): string {
  if (p < 0.001) return say('p under {p}', { p: figureText(0.001, 3, mark) });
  return `p ${figureText(p, p < 0.1 ? 3 : 2, mark)}`;
}

/** One kind of limits of a mean, named for the question it answers. */
export interface MeanLine extends Statement {
  readonly question: 'these' | 'herd';
  /** The question most likely meant. */
  readonly isAsked: boolean;
}

/**
 * The two kinds of limits of the mean, the one most likely asked for first, and the row that pulls the
 * mean out of the model's limits. `tagOf` gives the tag of a row of the lists.
 */
export function meanLines(
  sure: MeanSureness,
  tagOf: (row: number) => string,
  { mark, herd }: Wording,
): { readonly lines: readonly MeanLine[]; readonly pulled: string | null } {
  const epg = (value: number): string => figureText(value, 0, mark);
  const lines: MeanLine[] = [
    {
      question: 'these',
      isAsked: sure.asked === 'these',
      about: say('the mean of these animals'),
      figure: isFault(sure.these)
        ? ''
        : say('{low} to {high} epg', { low: epg(sure.these.low), high: epg(sure.these.high) }),
      rest: isFault(sure.these) ? sure.these.sentence : say('the luck of the counts only'),
    },
    {
      question: 'herd',
      isAsked: sure.asked === 'herd',
      about: herdMean(herd),
      ...herdLimits(sure, mark),
    },
  ];
  lines.sort((a, b) => Number(b.isAsked) - Number(a.isAsked));
  const row = isFault(sure.herd) ? null : sure.herd.pullingRow;
  const pulled =
    row === null || isFault(sure.herd)
      ? null
      : say(
          "The plain mean, {mean} epg, lies outside these limits, which belong to the model's mean of {model}: {tag} pulls it there with a count at another factor.",
          { mean: epg(sure.mean), model: epg(sure.herd.modelMean), tag: tagOf(row) },
        );
  return { lines, pulled };
}

function herdMean(herd: string): string {
  return say(
    'the mean of the {herd, select, flock {flock} mob {mob} other {herd}} they were drawn from',
    { herd },
  );
}

function herdLimits(sure: MeanSureness, mark: Mark): { figure: string; rest: string } {
  const { herd } = sure;
  if (isFault(herd)) return { figure: '', rest: herd.sentence };
  const epg = (value: number): string => figureText(value, 0, mark);
  return herd.usefulHigh
    ? {
        figure: say('{low} to {high} epg', { low: epg(herd.low), high: epg(herd.high) }),
        rest: say(
          'counting luck and the differences between animals, if they were drawn at random',
        ),
      }
    : {
        figure: say('{low} epg or more', { low: epg(herd.low) }),
        rest: say(
          'no useful upper limit; counting luck and the differences between animals, if they were drawn at random',
        ),
      };
}
