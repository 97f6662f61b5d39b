import type { FractalNoise } from 'tenter';
import type { Noise } from './fields.ts';

/**
 * The hollows of the paper. The coarsest octave lies aslant, so that no grid shows; the finer one lies
 * along the rows, where it costs a quarter.
 */
export function paperTooth(size: number, noise: Noise): FractalNoise {
  const coarse = noise(
    'tooth',
    { along: size, across: size, direction: 33 },
    { octaves: 1, gain: 1, deviation: 0.7 },
  );
  const fine = noise(
    'fine tooth',
    { along: size / 2.6, across: size / 2.6 },
    { octaves: 1, gain: 1, deviation: 0.7 },
  );
  return { octaves: [...coarse.octaves, ...fine.octaves], gains: [...coarse.gains, ...fine.gains] };
}

/** Pigment settles in pools, of some centimetres, and hardly where the wash ran. */
export const SILT = { along: 60, across: 40, direction: 20 };
