/**
 * A place between `a` and `b` where `f` crosses zero; `f(a)` and `f(b)` must differ in sign (or one be 0).
 *
 * Chandrupatla's hybrid of inverse quadratic steps and halving: it never leaves the bracket, so it
 * cannot run away as a plain Newton step does on flat likelihoods. Stops when the bracket is shorter than
 * `tolerance` (in the unit of x) or the root is hit. Throws when the bracket holds no sign change: that is our bug,
 * not a person's.
 *
 * Source: Chandrupatla 1997, Adv Eng Software 28:145–149 (memory).
 */
export function bracketedRoot(
  f: (x: number) => number,
  a: number,
  b: number,
  tolerance = 1e-12,
  atA: number = f(a),
  atB: number = f(b),
): number {
  if (atA === 0) return a;
  if (atB === 0) return b;
  if (!(atA < 0 !== atB < 0) || Number.isNaN(atA) || Number.isNaN(atB)) {
    throw new Error(`bracketedRoot: no sign change between ${a} (${atA}) and ${b} (${atB})`);
  }
  // x1 is the newest point, x2 the other end of the bracket, x3 the point dropped last.
  let [x1, f1, x2, f2] = [b, atB, a, atA];
  let x3: number;
  let f3: number;
  let t = 0.5;
  for (let step = 0; step < 200; step++) {
    const x = x1 + t * (x2 - x1);
    const fx = f(x);
    if (fx < 0 === f1 < 0) [x3, f3] = [x1, f1];
    else [x3, f3, x2, f2] = [x2, f2, x1, f1];
    [x1, f1] = [x, fx];
    const [best, atBest] = Math.abs(f2) < Math.abs(f1) ? [x2, f2] : [x1, f1];
    const closest = (2 * Number.EPSILON * Math.abs(best) + tolerance / 2) / Math.abs(x2 - x1);
    if (closest > 0.5 || atBest === 0) return best;
    const xi = (x1 - x2) / (x3 - x2);
    const phi = (f1 - f2) / (f3 - f2);
    const quadratic = phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi;
    t = quadratic
      ? (f1 / (f2 - f1)) * (f3 / (f2 - f3)) +
        ((x3 - x1) / (x2 - x1)) * (f1 / (f3 - f1)) * (f2 / (f3 - f2))
      : 0.5;
    t = Math.min(1 - closest, Math.max(closest, t));
  }
  return x1;
}
