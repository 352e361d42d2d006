/**
 * What Stirling's formula leaves out: lnΓ(z) − [(z − ½) ln z − z + ½ ln 2π], for any z above 0.
 *
 * Log-gammas of large numbers are themselves large, and differences of them lose figures; this rest is
 * small and exact, so likelihoods and distributions are built on it. Series from 12 on, below that by
 * stepping up; Abramowitz & Stegun 6.1.41 (memory).
 */
export function stirlingRest(z: number): number {
  let rest = 0;
  let at = z;
  for (; at < 12; at += 1) rest += (at + 0.5) * Math.log1p(1 / at) - 1;
  const r = 1 / (at * at);
  return rest + (1 / 12 - r * (1 / 360 - r * (1 / 1260 - r * (1 / 1680 - r / 1188)))) / at;
}

/** v − ln(1 + v) for v above −1, without the loss of figures near 0 (exact there; plain arithmetic from 0.3 on). */
export function logGap(v: number): number {
  if (Math.abs(v) > 0.3) return v - Math.log1p(v);
  // ln(1 + v) = 2(r + r³/3 + r⁵/5 + …) with r = v/(2 + v); the leading v cancels on paper, not in the machine.
  const r = v / (2 + v);
  const square = r * r;
  let sum = 0;
  let power = 1;
  for (let n = 3; n < 40; n += 2) {
    const term = power / n;
    sum += term;
    if (term < 1e-17 * sum) break;
    power *= square;
  }
  return r * (v - 2 * square * sum);
}
