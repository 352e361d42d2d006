import { type DateOrder, type DateReading, dateReadings } from '../text/date-reading.ts';

/** What the dates of one column, or of all headings, say together about their order. */
export interface OrderFound {
  /** The order that holds: the only one that fits, or `any` where every date is clear by itself. */
  readonly order: DateOrder | 'any' | null;
  /** More than one order fits, or none fits all: the person is asked once, among these. */
  readonly choices: readonly DateOrder[];
  /** The first text that is read in two ways, to show in the question. */
  readonly example: { readonly at: number; readonly readings: readonly DateReading[] } | null;
}

const orders: readonly DateOrder[] = ['dmy', 'mdy', 'ymd'];

/**
 * Settles the order of dates from all of them: one `13/04/2026` says that a column of doubtful dates
 * has the day first. Texts that are no dates have no voice here.
 */
export function findOrder(texts: Iterable<string>): OrderFound {
  const known = new Map<string, readonly DateReading[]>();
  return orderOfReadings(
    Array.from(texts, (text) => {
      const readings = known.get(text) ?? dateReadings(text);
      known.set(text, readings);
      return readings;
    }),
  );
}

/** The same for dates already read in all their ways. */
export function orderOfReadings(dates: readonly (readonly DateReading[])[]): OrderFound {
  const fits = new Map<DateOrder, number>();
  let doubtful = 0;
  let example: OrderFound['example'] = null;
  dates.forEach((readings, at) => {
    if (readings.length === 0 || readings.some(({ order }) => order === 'any')) return;
    doubtful++;
    if (example === null && readings.length > 1) example = { at, readings };
    for (const { order } of readings) {
      if (order !== 'any') fits.set(order, (fits.get(order) ?? 0) + 1);
    }
  });
  if (doubtful === 0) return { order: 'any', choices: [], example: null };
  const fitting = orders.filter((order) => fits.get(order) === doubtful);
  const [only] = fitting;
  if (only !== undefined && fitting.length === 1) return { order: only, choices: [], example };
  const choices = fitting.length > 1 ? fitting : orders.filter((order) => fits.has(order));
  return { order: null, choices, example };
}
