import type { FunctionRow } from './function-row.ts';
import { nearest } from './nearest.ts';
import { ORDINARY_FUNCTIONS } from './ordinary-functions.ts';
import { TRADE_FUNCTIONS } from './trade-functions/all-trade-functions.ts';
import type { TradeFunction } from './trade-functions/trade-function.ts';
import { fault, type Fault } from '../../shared/value.ts';
import { place } from './formula-problem.ts';
import { say } from '../text/say.ts';

const byName = new Map<string, FunctionRow>();
for (const row of ORDINARY_FUNCTIONS) byName.set(row.name, row);
for (const trade of TRADE_FUNCTIONS) byName.set(trade.name, rowOf(trade));

const tradeByName = new Map(TRADE_FUNCTIONS.map((trade) => [trade.name, trade]));

/** Why a spreadsheet's function has no place here: it changes by itself, or points to cells. */
type Refusal = 'each time' | 'type the time' | 'type the day' | 'addresses' | 'name the day';

const refused: Readonly<Record<string, Refusal>> = {
  RAND: 'each time',
  RANDBETWEEN: 'each time',
  NOW: 'type the time',
  TODAY: 'type the day',
  INDIRECT: 'addresses',
  OFFSET: 'addresses',
  ADDRESS: 'addresses',
  ROW: 'addresses',
  ROWS: 'addresses',
  COLUMN: 'addresses',
  COLUMNS: 'addresses',
  VLOOKUP: 'name the day',
  HLOOKUP: 'name the day',
  INDEX: 'name the day',
  MATCH: 'name the day',
};

function refusal(why: Refusal, name: string, at: number): string {
  const filling = { name, place: place(at) };
  switch (why) {
    case 'each time':
      return say('“{name}” {place} would give another figure each time.', filling);
    case 'type the time':
      return say('“{name}” {place} would give another figure each time: type the date.', filling);
    case 'type the day':
      return say('“{name}” {place} would give another figure each day: type the date.', filling);
    case 'addresses':
      return say(
        '“{name}” {place} speaks of cell addresses, and here columns have names.',
        filling,
      );
    case 'name the day':
      return say(
        '“{name}” {place} speaks of cell addresses: write herd[2026-05-03].epg or previous.epg.',
        filling,
      );
  }
}

function rowOf(trade: TradeFunction): FunctionRow {
  const firstOptional = trade.params.findIndex((param) => param.optional);
  const least = firstOptional < 0 ? trade.params.length : firstOptional;
  return {
    name: trade.name,
    engineName: trade.name,
    gives: trade.gives,
    takes: trade.params.map((param) => param.takes),
    least: trade.rest ? 1 : least,
    ...(trade.rest ? { rest: trade.rest.map((param) => param.takes) } : {}),
    optionalFrom: least,
  };
}

/** The row of a function, by its name in capitals, or a fault that quotes it and names the nearest known. */
export function functionNamed(name: string, at: number): FunctionRow | Fault {
  const row = byName.get(name);
  if (row) return row;
  const why = Object.hasOwn(refused, name) ? refused[name] : undefined;
  if (why !== undefined) return fault('refused-function', refusal(why, name, at));
  const near = nearest(name, byName.keys());
  return fault(
    'unknown-function',
    near === null
      ? say('“{name}” is not a known function {place}.', { name, place: place(at) })
      : say('“{name}” is not a known function {place}. The nearest known function is {near}.', {
          name,
          place: place(at),
          near,
        }),
  );
}

export function tradeFunction(name: string): TradeFunction | undefined {
  return tradeByName.get(name);
}
