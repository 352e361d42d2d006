import { isFault, type Fault } from '../shared/value.ts';
import { markOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { shedderCaution, shedderLuck } from '../src/stats/shedder-luck.ts';
import { sheddingOrder, type SheddingOrder } from '../src/stats/shedding-order.ts';
import { boundEpg } from './bound-epg.ts';
import { figureText } from './figure-text.ts';
import { herdLists, herdReady, type HerdLists } from './herd-lists.ts';
import { valueByKey } from './row-values.ts';
import type { LeftOut, Shedding } from './shedding-words.ts';
import { say } from '../src/text/say.ts';

/** The share of the eggs that the fewest animals are looked for. */
const SHARE = 0.8;
/** How finely the luck line is drawn. */
const LUCK_STEPS = 50;

/** The open day's shedding: its order, what it comes to, and the line that luck alone would draw. */
export interface SheddingOfDay extends Shedding {
  readonly day: string;
  readonly lists: HerdLists;
  readonly order: SheddingOrder;
  /** `animals` from the top hold `share` % of the eggs. */
  readonly luckLine: readonly { readonly animals: number; readonly share: number }[];
}

/** Of one group or (null) all animals present; null while no day is open, a fault without eggs. */
export async function sheddingOf(
  session: Session,
  group: string | null,
  signal: AbortSignal,
): Promise<SheddingOfDay | Fault | null> {
  await herdReady(session, signal);
  const { openDay } = session;
  const lists = herdLists(session, group);
  if (openDay === null || lists === null) return null;
  let shedding = ofLists.get(lists);
  if (!shedding) ofLists.set(lists, (shedding = sheddingNow(session, openDay, lists)));
  return shedding;
}

/** Asked for by the plot and by the notes beside the figures. */
const ofLists = new WeakMap<HerdLists, SheddingOfDay | Fault>();

function sheddingNow(session: Session, openDay: string, lists: HerdLists): SheddingOfDay | Fault {
  const order = sheddingOrder(lists.epgs, SHARE);
  if (isFault(order)) return order;
  const counted = order.reached.counted;
  const luckLine = Array.from({ length: LUCK_STEPS }, (_, i) => (i + 1) / LUCK_STEPS).flatMap(
    (share) => {
      const animals = shedderLuck(lists.eggs, share);
      return isFault(animals) ? [] : [{ animals: animals * counted, share: share * 100 }];
    },
  );
  return {
    day: openDay,
    lists,
    order,
    reached: order.reached,
    share: SHARE,
    luck: shedderLuck(lists.eggs, SHARE),
    caution: shedderCaution(lists.eggs),
    leftOut: leftOut(session, openDay, lists),
    luckLine: luckLine.length === 0 ? [] : [{ animals: 0, share: 0 }, ...luckLine],
  };
}

function leftOut(session: Session, day: string, { tooMany }: HerdLists): readonly LeftOut[] {
  const mark = markOf(session.notebook);
  return tooMany.map(({ id, tag }) => {
    const bound = boundEpg(session.notebook, day, id, valueByKey(session, id));
    const epg = bound?.epg ?? null;
    return {
      tag,
      bound: epg === null ? '' : say('at least {epg} epg', { epg: figureText(epg, 0, mark) }),
    };
  });
}
