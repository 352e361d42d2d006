import type { Product } from '../../shared/notebook.ts';
import { say } from '../text/say.ts';
import { daysWords } from './short-number.ts';

/** Days from treatment to the second sample of a dewormer check, and who says so. */
export interface SampleWindow {
  readonly fromDays: number;
  readonly toDays: number;
  /** "usual for the benzimidazole group, from memory: check with your vet". */
  readonly why: string;
}

/** The day that serves several groups at once, or one that is not known. */
export const COMMON_DAYS = 14;

const longest = 'milbemycin';

/**
 * Usual days by the words for an active group, English or Spanish: groups only, no drug is named here.
 *
 * Source: Coles et al. 2006, Vet Parasitol 136:167–185 (memory); the last line: cattle literature and the
 * 2023 guideline (memory). Editable on each product.
 */
const GROUPS: readonly {
  readonly name: string;
  readonly words: RegExp;
  readonly fromDays: number;
  readonly toDays: number;
}[] = [
  { name: 'imidazothiazole', words: /imidazoth?iazol|\blv\b|\blev\b/i, fromDays: 3, toDays: 7 },
  { name: 'benzimidazole', words: /ben[zc]imidazol|\bbz\b/i, fromDays: 8, toDays: 10 },
  {
    name: 'macrocyclic lactone',
    words: /macrocyclic|macroc[ií]clic|avermectin|\b(mls?|lm)\b/i,
    fromDays: 14,
    toDays: 17,
  },
  {
    name: longest,
    words:
      /milbem[iy]cin|long[- ]acting|(larga|prolongada) acci[oó]n|acci[oó]n (larga|prolongada)/i,
    fromDays: 17,
    toDays: 21,
  },
];

/** The groups as people call them. */
const groupWords: Readonly<Record<string, string>> = {
  imidazothiazole: say('imidazothiazole'),
  benzimidazole: say('benzimidazole'),
  'macrocyclic lactone': say('macrocyclic lactone'),
  milbemycin: say('milbemycin'),
};

/**
 * The usual window for the second sample after a product: the person's own days where they typed them,
 * else those of its active group; 14 days for several groups together or one that is not known. A
 * product called both a macrocyclic lactone and its longest-lived kind takes the latter's later days.
 */
export function sampleWindow(product: Product | undefined): SampleWindow {
  const from = product?.sampleFromDays ?? product?.sampleToDays;
  const to = product?.sampleToDays ?? product?.sampleFromDays;
  if (from !== undefined && to !== undefined)
    return { fromDays: from, toDays: to, why: say('as you set it on the product') };
  const typed = product?.activeGroup ?? '';
  const all = GROUPS.filter((group) => group.words.test(typed));
  const hasLongest = all.some((group) => group.name === longest);
  const found = hasLongest ? all.filter((group) => group.name !== 'macrocyclic lactone') : all;
  const [only] = found;
  if (found.length === 1 && only)
    return {
      fromDays: only.fromDays,
      toDays: only.toDays,
      why: say('usual for the {group} group, from memory: check with your vet', {
        group: groupWords[only.name] ?? only.name,
      }),
    };
  return {
    fromDays: COMMON_DAYS,
    toDays: COMMON_DAYS,
    why:
      found.length > 1
        ? say('the common day for several active groups at once, from memory: check with your vet')
        : say(
            'the common day for an active group not known here, from memory: check with your vet',
          ),
  };
}

/** The window in words: `8 to 10 days`, `14 days`. */
export function windowWords({ fromDays, toDays }: SampleWindow): string {
  return daysWords(fromDays, toDays);
}
