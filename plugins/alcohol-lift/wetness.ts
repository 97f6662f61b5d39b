import { type Box, type FractalNoise, fractalAt, fractalNoise, type RandomStream } from 'tenter';

/** How wet the wash is from place to place, and how densely drops fell. */
export interface Ground {
  /** 0 nearly dry to 1 flooded. */
  wetnessAt(x: number, y: number): number;
  /** Relative, mean about 1. */
  densityAt(x: number, y: number): number;
}

/**
 * @param wetness   Mean, 0..1.
 * @param gathering 0 drops anywhere, 1 drops in drifts with bare passages between.
 */
export function layGround(box: Box, wetness: number, gathering: number, random: RandomStream): Ground {
  const wet = cloud(box, 70, 2, random);
  const drift = cloud(box, 110, 3, random);
  return {
    wetnessAt: (x, y) => clamp(wetness + 0.16 * fractalAt(wet, x, y)),
    densityAt: (x, y) => Math.exp(2.2 * gathering * fractalAt(drift, x, y) - 2.4 * gathering ** 2),
  };
}

function cloud({ lattice }: Box, size: number, octaves: number, random: RandomStream): FractalNoise {
  return fractalNoise(lattice, { along: size, across: size }, { octaves, gain: 0.6 }, random);
}

export function clamp(value: number, least = 0, most = 1): number {
  return Math.min(most, Math.max(least, value));
}
