/**
 * Exact arithmetic on typed decimals. A typed 0.15 is fifteen hundredths, not the binary number nearest
 * to it; sums, products and quotients of such numbers are kept as fractions of whole numbers, and
 * become a binary number once, at the end. So 45 mL ÷ (3 g × 0.3 mL) is 50 and 3 kg × 0.4 ÷ 0.8 is 1.5.
 */
export interface ExactDecimal {
  readonly over: bigint;
  /** Always positive. */
  readonly under: bigint;
}

/** The decimal that a finite number is written as: 0.15 → 15/100. Throws on NaN and infinities. */
export function exact(value: number): ExactDecimal {
  if (!Number.isFinite(value)) throw new Error(`exact: not a finite number: ${value}`);
  if (Number.isSafeInteger(value)) return { over: BigInt(value), under: 1n };
  const [digits = '0', power = '0'] = String(value).split('e');
  const [whole = '0', part = ''] = digits.split('.');
  const scale = part.length - Number(power);
  const over = BigInt(whole + part);
  return scale >= 0
    ? { over, under: 10n ** BigInt(scale) }
    : { over: over * 10n ** BigInt(-scale), under: 1n };
}

export function sum(a: ExactDecimal, b: ExactDecimal): ExactDecimal {
  return { over: a.over * b.under + b.over * a.under, under: a.under * b.under };
}

export function product(a: ExactDecimal, b: ExactDecimal): ExactDecimal {
  return { over: a.over * b.over, under: a.under * b.under };
}

/** `a / b`; throws where b is 0, which callers rule out. */
export function quotient(a: ExactDecimal, b: ExactDecimal): ExactDecimal {
  if (b.over === 0n) throw new Error('quotient: division by 0');
  const sign = b.over < 0n ? -1n : 1n;
  return { over: sign * a.over * b.under, under: sign * a.under * b.over };
}

/** -1, 0 or 1 as `a` is below, equal to or above `b`. */
export function compare(a: ExactDecimal, b: ExactDecimal): -1 | 0 | 1 {
  const left = a.over * b.under;
  const right = b.over * a.under;
  return left < right ? -1 : left > right ? 1 : 0;
}

/** Smallest whole number not below `a`. */
export function ceiling(a: ExactDecimal): bigint {
  const floor = a.over / a.under;
  return a.over > 0n && floor * a.under !== a.over ? floor + 1n : floor;
}

/** The binary number nearest to `a` (to within the last digit for fractions of very long numbers). */
export function toNumber(a: ExactDecimal): number {
  const over = Number(a.over);
  const under = Number(a.under);
  if (Number.isSafeInteger(over) && Number.isSafeInteger(under)) return over / under;
  const negative = a.over < 0n;
  const size = negative ? -a.over : a.over;
  const places = Math.max(0, 30 + String(a.under).length - String(size).length);
  const digits = (size * 10n ** BigInt(places)) / a.under;
  const value = Number(`${digits}e-${places}`);
  return negative ? -value : value;
}
