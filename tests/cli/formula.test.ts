import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { main } from '../../src/cli/formula.ts';

function run(...formulas: string[]): { status: number; out: string[]; errors: string[] } {
  const out: string[] = [];
  const errors: string[] = [];
  const status = main(
    formulas,
    (line) => out.push(line),
    (line) => errors.push(line),
  );
  return { status, out, errors };
}

describe('formula', () => {
  it('prints one line for each formula, with or without the sign before it', () => {
    // 12 and 15 eggs in two grids, factor 50: worked example of the RVC/FAO guide to faecal examination.
    expect(run('=EPG(27, 50)', 'EGGFACTOR(2, 28, 0.15, 2)')).toEqual({
      status: 0,
      out: ['1350', '50'],
      errors: [],
    });
  });

  it('prints TRUE and FALSE in capitals, and text as it is', () => {
    expect(run('=2 > 1', '=500.0000000000001 > 500', '="a" & "b"').out).toEqual([
      'TRUE',
      'FALSE',
      'ab',
    ]);
  });

  it('takes lists in braces, blanks missing', () => {
    const { out, status } = run(
      '=FECR({500,300},{10,0})',
      '=FECR({500;300;50},{10;0;})',
      '=HERDMEAN({1,2;3,6})',
      '=HERDMEAN({4,"",2})',
      '=COUNT({1,,2})',
    );
    expect(out).toEqual(['98.75', '98.75', '3', '3', '2']);
    expect(status).toBe(0);
  });

  it('prints a number so that it reads back the same', () => {
    const [line = ''] = run('=EPGLOW(30, 50)').out;
    // Exact lower 95 % limit of 30 (Garwood 1936, Biometrika 28:437-442), by R: qchisq(0.025, 60) / 2.
    expect(Number(line)).toBeCloseTo(50 * 20.2408740214209, 8);
    expect(String(Number(line))).toBe(line);
  });

  it('prints error and its sentence, goes on, and ends with status 1', () => {
    const { status, out, errors } = run('=1/0', '=NOSUCH(1)', '=EPG(27, 50)');
    expect(out).toEqual(['error', 'error', '1350']);
    expect(errors[0]).toMatch(/^This divides by 0\./);
    expect(errors[1]).toContain('“NOSUCH”');
    expect(status).toBe(1);
  });

  it('says that no answer is missing, not 0', () => {
    expect(run('=HERDMEAN({"",""})', '=MISSING()').out).toEqual(['missing', 'missing']);
  });

  it('refuses a list with nothing in it, with a sentence', () => {
    for (const formula of ['=HERDMEAN({})', '=FECR({},{})', '=SHEDDERSHARE({,})']) {
      const { out, errors, status } = run(formula);
      expect(out).toEqual(['error']);
      expect(errors[0]).toMatch(/is empty\. Put at least one figure in it/);
      expect(status).toBe(1);
    }
  });

  it('asks for a formula where none was given', () => {
    expect(run()).toMatchObject({ status: 1, out: [] });
  });

  it('runs from the command line, unbuilt', async () => {
    const cwd = fileURLToPath(new URL('../..', import.meta.url));
    const script = ['--import', 'tsx', 'src/cli/formula.ts', '=EPG(27, 50)', '=1/0'];
    const result = await new Promise<{ code: number; out: string; err: string }>((resolve) => {
      execFile(process.execPath, script, { cwd }, (error, out, err) =>
        resolve({ code: typeof error?.code === 'number' ? error.code : 0, out, err }),
      );
    });
    expect(result.out).toBe('1350\nerror\n');
    expect(result.err).toMatch(/divides by 0/);
    expect(result.code).toBe(1);
  }, 30_000);
});
