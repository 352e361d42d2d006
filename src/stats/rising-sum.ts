import { stirlingRest } from './stirling.ts';

/**
 * Sums over a run of whole numbers j = from … to − 1, as the negative binomial likelihood needs them:
 * lnΓ(k + to) − lnΓ(k + from) and its derivative, without the loss of figures that a difference of two
 * large log-gammas brings when k is large. Short runs are added up, long ones closed by Stirling's series.
 */
const SHORT = 24;
/** From here on Stirling's series is good to the last figure. */
const FAR = 12;

/** Σ 1/(k + j). */
export function sumOfReciprocals(k: number, from: number, to: number): number {
  let j = from;
  let total = 0;
  const end = to - from <= SHORT ? to : Math.min(to, Math.max(from, Math.ceil(FAR - k)));
  for (; j < end; j++) total += 1 / (k + j);
  if (j === to) return total;
  const z = k + j;
  return total + Math.log1p((to - j) / z) + digammaRest(k + to) - digammaRest(z);
}

/** Σ ln(1 + j/k). */
export function sumOfLogs(k: number, from: number, to: number): number {
  let j = from;
  let total = 0;
  const end = to - from <= SHORT ? to : Math.min(to, Math.max(from, Math.ceil(FAR - k)));
  for (; j < end; j++) total += Math.log1p(j / k);
  if (j === to) return total;
  const z = k + j;
  const run = to - j;
  return (
    total +
    (z - 0.5) * Math.log1p(run / z) +
    run * Math.log1p(to / k) -
    run +
    stirlingRest(k + to) -
    stirlingRest(z)
  );
}

/** ψ(z) − ln z for z of 12 or more. */
function digammaRest(z: number): number {
  const r = 1 / (z * z);
  return -0.5 / z - r * (1 / 12 - r * (1 / 120 - r * (1 / 252 - r * (1 / 240 - r / 132))));
}
