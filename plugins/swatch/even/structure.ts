import { forwardTransform, inverseTransform } from 'tenter';
import type { Level } from '../way.ts';

/** The level that is looked at has so many samples at most. */
const MOST = 300 * 300;
/** Where the likeness of a swatch with itself, moved, has fallen to this, its structure ends. */
const ENDS = 0.25;

/** mm over which a swatch is like itself: where its autocorrelation, the worst way, falls below a quarter. */
export function structureLength(levels: readonly Level[]): number {
  const level = levels.find(({ width, height }) => width * height <= MOST) ?? levels[levels.length - 1];
  const { width, height, mmPerSample } = level;
  const likeness = autocorrelation(level);
  const most = Math.floor(Math.min(width, height) / 3);
  let reach = 1;
  for (let r = 1; r <= most; r++) {
    const steps = [likeness[r], likeness[r * width]];
    if (Math.max(...steps) > ENDS) reach = r + 1;
    else if (r > 2 * reach + 4) break;
  }
  return reach * mmPerSample;
}

/** The autocorrelation of the sum of a level's planes, taken to wrap round; 1 where it is not moved. */
export function autocorrelation({ width, height, mmPerSample, planes }: Level): Float32Array {
  const values = new Float32Array(width * height);
  for (const plane of planes) for (let k = 0; k < values.length; k++) values[k] += plane[k];
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const field = {
    values: values.map((value) => value - mean),
    width,
    height,
    lattice: { ax: width, ay: 0, bx: 0, by: height },
    mmPerCellX: mmPerSample,
    mmPerCellY: mmPerSample,
  };
  const spectrum = forwardTransform(field);
  const waves = spectrum.waves.slice();
  for (let k = 0; k < waves.length; k += 2) {
    waves[k] = waves[k] ** 2 + waves[k + 1] ** 2;
    waves[k + 1] = 0;
  }
  const likeness = inverseTransform({ ...spectrum, waves }).values;
  const whole = likeness[0];
  return likeness.map((value) => (whole > 1e-12 ? value / whole : 0));
}
