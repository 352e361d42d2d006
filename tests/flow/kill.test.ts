import { expect, inject, it } from 'vitest';
import { killRounds } from './kill-rounds.ts';

it('keeps every count that was called saved when the browser is killed, and no edit by half', async () => {
  const report = await killRounds(inject('pageAddress'), 10, 20260503);
  expect(report.lost).toEqual([]);
  expect(report.half).toEqual([]);
  // Else nothing was typed, and the comparison above says nothing.
  expect(report.claimed).toBeGreaterThan(20);
}, 240_000);
