/** A stream of numbers, each from 0 (included) to 1 (excluded). */
export type Random = () => number;

/**
 * A stream that is the same for the same seed, on every machine and in every browser: simulations must
 * give the answer again. `seed` is any number; its lower 64 bits of pattern matter (whole numbers differ from each other).
 *
 * xoshiro128** of Blackman & Vigna 2021, ACM Trans Math Softw 47:36 (memory), started from the seed by the
 * splitmix mixing step; two 32-bit draws make one number of 53 bits.
 */
export function seededRandom(seed: number): Random {
  const mix = mixedBits(seed);
  let [a, b, c, d] = [mix(), mix(), mix(), mix()];
  const bits = (): number => {
    const result = Math.imul(rotate(Math.imul(b, 5), 7), 9) >>> 0;
    const t = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= t;
    d = rotate(d, 11);
    return result;
  };
  return () => ((bits() >>> 5) * 67108864 + (bits() >>> 6)) / 9007199254740992;
}

/** A seed for part `part` of a larger run, so that each part stands alone and gives its answer again. */
export function seedOfPart(seed: number, part: number): number {
  const whole = mixedBits(seed)();
  const own = mixedBits(part)();
  // Not a plain xor of the two: that would give part 4 of seed 3 and part 3 of seed 4 the same stream.
  return mixedBits(Math.imul(whole, 0x2c1b3c6d) + own)() >>> 0;
}

function rotate(x: number, places: number): number {
  return (x << places) | (x >>> (32 - places));
}

/** Well mixed 32-bit words from a seed. */
function mixedBits(seed: number): () => number {
  const words = new Uint32Array(new Float64Array([seed + 0]).buffer);
  let state = ((words[0] ?? 0) ^ Math.imul(words[1] ?? 0, 0x9e3779b1)) | 0;
  return () => {
    state = (state + 0x9e3779b9) | 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return (z ^ (z >>> 15)) | 0;
  };
}
