import type { RandomStream } from 'tenter';

/** A smooth function of one variable as a sum of cosines. Plain data: frequency, amplitude, phase in turn. */
export type Wave = Float64Array;

/**
 * A wave of mean 0 and about the standard deviation `size`, closing after `period`.
 *
 * @param period  mm.
 * @param longest mm, the longest wavelength; the period where that is shorter.
 * @param parts   How many harmonics, each at about two thirds of the wavelength before it.
 */
export function closedWave(
  period: number,
  longest: number,
  parts: number,
  size: number,
  random: RandomStream,
): Wave {
  const wave = new Float64Array(parts * 3);
  const first = Math.max(1, Math.round(period / longest));
  let power = 0;
  for (let k = 0; k < parts; k++) {
    const harmonic = Math.max(first + k, Math.round(first * 1.5 ** k));
    const amplitude = first / harmonic;
    power += (amplitude * amplitude) / 2;
    wave.set([(2 * Math.PI * harmonic) / period, amplitude, random.between(0, 2 * Math.PI)], k * 3);
  }
  const scale = size / Math.sqrt(power);
  for (let k = 0; k < parts; k++) wave[k * 3 + 1] *= scale;
  return wave;
}

/** The value of a wave at `v`, mm. */
export function waveAt(wave: Wave, v: number): number {
  let sum = 0;
  for (let k = 0; k < wave.length; k += 3) sum += wave[k + 1] * Math.cos(wave[k] * v + wave[k + 2]);
  return sum;
}
