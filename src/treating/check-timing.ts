import type { Product } from '../../shared/notebook.ts';
import type { CheckPair } from './check-pairs.ts';
import { sampleWindow, windowWords, type SampleWindow } from './sample-window.ts';
import { daysWords } from './short-number.ts';
import { say } from '../text/say.ts';

/** Days from treatment to the second sample, held against what is usual for the product. */
export interface CheckTiming {
  /** Null without a pair. */
  readonly least: number | null;
  readonly most: number | null;
  readonly window: SampleWindow;
  readonly isEarly: boolean;
  readonly isLate: boolean;
  readonly sentence: string;
}

/** Compares each pair's days from treatment to second sample with the window of the product. */
export function checkTiming(
  product: Product | undefined,
  pairs: readonly CheckPair[],
): CheckTiming {
  const window = sampleWindow(product);
  const usual = say('{days} ({why})', { days: windowWords(window), why: window.why });
  if (pairs.length === 0)
    return {
      ...{ least: null, most: null, window, isEarly: false, isLate: false },
      sentence: say('The second sample is taken after {usual}.', { usual }),
    };
  const days = pairs.map((pair) => pair.days);
  const least = Math.min(...days);
  const most = Math.max(...days);
  const isEarly = least < window.fromDays;
  const isLate = most > window.toDays;
  const took = daysWords(least, most);
  const verdict =
    isEarly && isLate
      ? say('partly too early and partly too late')
      : isEarly
        ? say('too early: eggs laid before may still come, and egg laying may only be held back')
        : isLate
          ? say('late: worms taken up since may already lay')
          : say('as usual');
  return {
    least,
    most,
    window,
    isEarly,
    isLate,
    sentence: say(
      'The second sample was taken {took} after treatment, against {usual}: {verdict}.',
      { took, usual, verdict },
    ),
  };
}
