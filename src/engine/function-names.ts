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

/** What changes or points by itself, and why it has no place here. */
const refused: Readonly<Record<string, string>> = {
  RAND: say('would give another figure each time'),
  RANDBETWEEN: say('would give another figure each time'),
  NOW: say('would give another figure each time: type the date'),
  TODAY: say('would give another figure each day: type the date'),
  INDIRECT: say('speaks of cell addresses, and here columns have names'),
  OFFSET: say('speaks of cell addresses, and here columns have names'),
  ADDRESS: say('speaks of cell addresses, and here columns have names'),
  ROW: say('speaks of cell addresses, and here columns have names'),
  ROWS: say('speaks of cell addresses, and here columns have names'),
  COLUMN: say('speaks of cell addresses, and here columns have names'),
  COLUMNS: say('speaks of cell addresses, and here columns have names'),
  VLOOKUP: say('speaks of cell addresses: write herd[2026-05-03].epg or previous.epg'),
  HLOOKUP: say('speaks of cell addresses: write herd[2026-05-03].epg or previous.epg'),
  INDEX: say('speaks of cell addresses: write herd[2026-05-03].epg or previous.epg'),
  MATCH: say('speaks of cell addresses: write herd[2026-05-03].epg or previous.epg'),
};

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
  const near = nearest(name, byName.keys());
  const hint = near === null ? '' : say(' The nearest known function is {near}.', { near });
  const why = Object.hasOwn(refused, name) ? refused[name] : undefined;
  return why === undefined
    ? fault(
        'unknown-function',
        say('“{name}” is not a known function {place}.{hint}', { name, place: place(at), hint }),
      )
    : fault('refused-function', say('“{name}” {place} {why}.', { name, place: place(at), why }));
}

export function tradeFunction(name: string): TradeFunction | undefined {
  return tradeByName.get(name);
}
