import { CellError, EmptyValue, SimpleRangeValue } from 'hyperformula';
import { fault, isFault } from '../../shared/value.ts';
import { noAnswer, toCellError } from './cell-faults.ts';
import {
  entries,
  isMissing,
  known,
  type Args,
  type EngineValue,
  type Scalar,
} from './engine-values.ts';
import type { Given, List, Param, TradeFunction } from './trade-functions/trade-function.ts';
import { say } from '../text/say.ts';

type Read = number | string | List | undefined;

/**
 * Calls a trade function with the engine's values: reads each argument as its row says, answers "no answer"
 * where something needed is missing, and turns faults into errors of the engine. Never throws.
 */
export function callTrade(trade: TradeFunction, args: Args): EngineValue {
  const read: Read[] = [];
  for (let i = 0; i < Math.max(args.count, trade.params.length); i++) {
    const param = paramAt(trade, i);
    if (!param) return tooMany(trade);
    const arg = readArg(trade.name, param, i < args.count ? args.at(i) : EmptyValue);
    if (arg instanceof CellError) return arg;
    if (arg === undefined && !param.optional) return noAnswer();
    read.push(arg);
  }
  if (nothingCounted(trade, read)) return noAnswer();
  const answer = trade.call(new ReadArguments(trade, read));
  if (answer === null) return noAnswer();
  if (isFault(answer)) return toCellError(answer);
  if (typeof answer === 'number' && !Number.isFinite(answer)) return notFinite(trade);
  return answer;
}

function paramAt(trade: TradeFunction, index: number): Param | undefined {
  const rest = trade.rest ?? [];
  return (
    trade.params[index] ??
    (rest.length > 0 ? rest[(index - trade.params.length) % rest.length] : undefined)
  );
}

/** Nothing is known in any list that is needed: no counts yet, rather than a fault. */
function nothingCounted(trade: TradeFunction, read: readonly Read[]): boolean {
  return trade.params.some((param, i) => {
    const list = read[i];
    return param.takes === 'list' && Array.isArray(list) && list.every((entry) => entry === null);
  });
}

function readArg(name: string, param: Param, value: EngineValue): Read | CellError {
  if (param.takes === 'list') return readList(name, param, value);
  if (!(value instanceof SimpleRangeValue)) return readScalar(name, param, value);
  const list = entries(value);
  if (param.takes === 'list or number' && list.length !== 1) return readList(name, param, value);
  const [single] = list;
  if (single === undefined) return undefined;
  if (list.length === 1) return readScalar(name, param, single);
  return toCellError(
    fault(
      'wrong-kind',
      say(
        '{name} needs {takes, select, text {one text} other {one number}} for {argument}, not a list.',
        { name, takes: param.takes, argument: param.name },
      ),
    ),
  );
}

function readScalar(name: string, param: Param, single: Scalar): Read | CellError {
  if (isMissing(single)) return undefined;
  const found = known(single);
  if (found instanceof CellError) return found;
  if (param.takes === 'text') {
    return typeof found === 'string' ? found : wrongKind(name, param, 'text', found);
  }
  return typeof found === 'number' ? found : wrongKind(name, param, 'number', found);
}

function readList(name: string, param: Param, value: EngineValue): List | CellError {
  const list: (number | null)[] = [];
  for (const entry of entries(value)) {
    if (isMissing(entry)) {
      list.push(null);
      continue;
    }
    const found = known(entry);
    if (found instanceof CellError) return found;
    if (typeof found !== 'number') return wrongKind(name, param, 'list', found);
    list.push(found);
  }
  return list;
}

function wrongKind(
  name: string,
  param: Param,
  takes: 'text' | 'number' | 'list',
  found: unknown,
): CellError {
  return toCellError(
    fault(
      'wrong-kind',
      say(
        '{name} needs {takes, select, text {a text} list {numbers} other {a number}} for {argument}, not “{found}”.',
        { name, takes, argument: param.name, found: String(found) },
      ),
    ),
  );
}

function tooMany(trade: TradeFunction): CellError {
  return toCellError(
    fault('arguments', say('{name} was given too many arguments.', { name: trade.name })),
  );
}

function notFinite(trade: TradeFunction): CellError {
  return toCellError(
    fault(
      'no-number',
      say('{name} has no finite answer for these values. Check them.', { name: trade.name }),
    ),
  );
}

/** Typed access to arguments that have been read as their row says; anything else is our own bug. */
class ReadArguments implements Given {
  constructor(
    private readonly trade: TradeFunction,
    private readonly read: readonly Read[],
  ) {}

  numberIf(index: number): number | undefined {
    const arg = this.read[index];
    return arg === undefined || typeof arg === 'number' ? arg : this.wrong(index);
  }

  textIf(index: number): string | undefined {
    const arg = this.read[index];
    return arg === undefined || typeof arg === 'string' ? arg : this.wrong(index);
  }

  listOrNumberIf(index: number): List | number | undefined {
    const arg = this.read[index];
    return typeof arg === 'string' ? this.wrong(index) : arg;
  }

  number(index: number): number {
    return this.numberIf(index) ?? this.wrong(index);
  }

  text(index: number): string {
    return this.textIf(index) ?? this.wrong(index);
  }

  list(index: number): List {
    const arg = this.listOrNumberIf(index);
    return arg === undefined || typeof arg === 'number' ? this.wrong(index) : arg;
  }

  numbers(): readonly (number | undefined)[] {
    return this.read.map((_, index) => this.numberIf(index));
  }

  private wrong(index: number): never {
    throw new Error(`${this.trade.name}: argument ${index} read as ${typeof this.read[index]}`);
  }
}
