import { gaussianBlur, hashUnit } from 'tenter';
import { autocorrelation } from './even/structure.ts';
import type { Level } from './way.ts';

/** Swatches and measures for the tests of this folder. */

/** Fine clouds, 0.2 to 0.8, about `size` mm large. */
export function clouds(side: number, mmPerSample: number, size: number, seed = 1): Level {
  const values = Float32Array.from({ length: side * side }, (_, k) =>
    hashUnit(seed, k % side, (k / side) | 0),
  );
  const field = {
    values,
    width: side,
    height: side,
    lattice: { ax: side, ay: 0, bx: 0, by: side },
    mmPerCellX: mmPerSample,
    mmPerCellY: mmPerSample,
  };
  const soft = gaussianBlur(field, size / 3).values;
  const deviation = Math.sqrt(soft.reduce((sum, value) => sum + (value - 0.5) ** 2, 0) / soft.length);
  const plane = soft.map((value) => 0.5 + (0.3 * Math.tanh((value - 0.5) / deviation)) / 1);
  return { width: side, height: side, mmPerSample, planes: [plane] };
}

/** A dark ground with pale spots: two tones and soft edges, as salt leaves them; far from any bell curve. */
export function spotted(side: number, mmPerSample: number): Level {
  const soft = clouds(side, mmPerSample, 2.5, 3);
  const plane = soft.planes[0].map((value) => 0.12 + 0.7 / (1 + Math.exp(-(value - 0.68) * 60)));
  return { ...soft, planes: [plane] };
}

/** Wasserstein's distance of the histograms: how far numbers have to be moved on average. */
export function distance(first: Float32Array, second: Float32Array): number {
  const [a, b] = [Float32Array.from(first).sort(), Float32Array.from(second).sort()];
  const steps = 2000;
  let sum = 0;
  for (let k = 0; k < steps; k++) {
    const place = (k + 0.5) / steps;
    sum += Math.abs(a[Math.floor(place * a.length)] - b[Math.floor(place * b.length)]);
  }
  return sum / steps;
}

/** The autocorrelation to the right and down, up to 24 samples. */
export function likenessOf(plane: Float32Array, side: number): number[] {
  const likeness = autocorrelation({ width: side, height: side, mmPerSample: 1, planes: [plane] });
  return Array.from({ length: 24 }, (_, k) => (likeness[k + 1] + likeness[(k + 1) * side]) / 2);
}

/** The logarithm of the power in rings of frequencies, coarse to fine, by differences over 1, 2, 4, ... samples. */
export function spectrumOf(plane: Float32Array, side: number): number[] {
  const powers: number[] = [];
  for (let step = 1; step <= 16; step *= 2) {
    let [sum, count] = [0, 0];
    for (let j = 0; j + step < side; j++) {
      for (let i = 0; i + step < side; i++, count++) {
        const at = j * side + i;
        sum += (plane[at] - plane[at + step]) ** 2 + (plane[at] - plane[at + step * side]) ** 2;
      }
    }
    powers.push(Math.log(sum / count));
  }
  return powers;
}
