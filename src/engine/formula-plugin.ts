import {
  type CellError,
  EmptyValue,
  FunctionPlugin,
  HyperFormula,
  SimpleRangeValue,
} from 'hyperformula';
import { fault } from '../../shared/value.ts';
import { toCellError } from './cell-faults.ts';
import { readBy, type Args, type EngineValue, type Scalar } from './engine-values.ts';
import { tradeFunction } from './function-names.ts';
import { GUARDS } from './guards.ts';
import { callTrade } from './trade-call.ts';
import { TRADE_FUNCTIONS } from './trade-functions/all-trade-functions.ts';
import { say } from '../text/say.ts';

type Parsed = Parameters<FunctionPlugin['evaluateAst']>;

interface Call {
  readonly procedureName: string;
  readonly args: readonly Parsed[0][];
}

const names = [...GUARDS.keys(), ...TRADE_FUNCTIONS.map((trade) => trade.name)];

/** All our functions at one door: the name says which; arguments are worked out only when asked for. */
class FormulaPlugin extends FunctionPlugin {
  static override implementedFunctions = Object.fromEntries(
    names.map((name) => [name, { method: 'call' }]),
  );

  call(ast: Call, state: Parsed[1]): EngineValue {
    const args: Args = {
      count: ast.args.length,
      at: (index) => {
        const arg = ast.args[index];
        return arg ? this.readable(this.evaluateAst(arg, state)) : EmptyValue;
      },
    };
    const guard = GUARDS.get(ast.procedureName);
    if (guard) return guard(args);
    const trade = tradeFunction(ast.procedureName);
    return trade ? callTrade(trade, args) : unknown(ast.procedureName);
  }

  /** A list of cells is read cell by cell when its entries are asked for; all else stays as it is. */
  private readable(value: EngineValue): EngineValue {
    if (!(value instanceof SimpleRangeValue) || !value.range) return value;
    const { range } = value;
    return readBy(value, () => {
      const { dependencyGraph } = this;
      const [lastRow, lastColumn] = [
        range.effectiveEndRow(dependencyGraph),
        range.effectiveEndColumn(dependencyGraph),
      ];
      const found: Scalar[] = [];
      const address = { ...range.start };
      for (; address.row <= lastRow; address.row += 1) {
        for (address.col = range.start.col; address.col <= lastColumn; address.col += 1)
          found.push(dependencyGraph.getScalarValue(address));
      }
      return found;
    });
  }
}

function unknown(name: string): CellError {
  return toCellError(fault('unknown-function', say('“{name}” is not a known function.', { name })));
}

HyperFormula.registerFunctionPlugin(FormulaPlugin, {
  enGB: Object.fromEntries(names.map((name) => [name, name])),
});

/** A fresh calculating engine with our functions, set so that it guesses at no text and keeps no undo. */
export function newCalculator(): HyperFormula {
  return HyperFormula.buildEmpty({
    licenseKey: 'gpl-v3',
    dateFormats: [],
    timeFormats: [],
    undoLimit: 0,
    precisionRounding: 14,
    smartRounding: true,
    maxRows: 1_000_000,
  });
}
