import alea from 'seedrandom/lib/alea.js';

/** A named stream of random numbers: the same seed and name give the same numbers, whatever else was drawn. */
export interface RandomStream {
  /** Uniform in 0 <= r < 1. */
  next(): number;
  /** Uniform in `low` <= r < `high`. */
  between(low: number, high: number): number;
  /** Whole, uniform in 0 <= r < `count`. */
  below(count: number): number;
  /** Normal with mean 0 and standard deviation 1. */
  normal(): number;
  /** 32 random bits as a whole number, for seeding a noise. */
  bits(): number;
}

/** Opens the stream `name` of `seed`. Ask for a stream per purpose, so that one more draw here moves nothing there. */
export function randomStream(seed: string, name: string): RandomStream {
  const generator = alea(`${seed}\u0000${name}`);
  const next = () => generator();
  return {
    next,
    between: (low, high) => low + (high - low) * next(),
    below: (count) => Math.floor(next() * count),
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    bits: () => generator.int32() >>> 0,
  };
}
