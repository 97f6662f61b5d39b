import { forwardTransform, inverseTransform } from 'tenter';
import { wholeOf } from '../pyramid.ts';
import type { Level } from '../way.ts';

/** Where the likeness of a swatch with itself, moved, has fallen to this, its structure ends. */
const ENDS = 0.25;

/** mm over which a swatch is like itself: where its autocorrelation, the worst way, falls below a quarter. */
export function structureLength(levels: readonly Level[]): number {
  const level = wholeOf(levels);
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

/**
 * The autocorrelation of the sum of a level's planes, `width * height` numbers; 1 where it is not moved. Round the
 * swatch lies so much of its mean that the sides are powers of two, which a fast transform asks for, and all wraps.
 *
 * @param clouds Samples, as a standard deviation: what is larger is taken off; nothing where infinite.
 */
export function autocorrelation(level: Level, clouds = Number.POSITIVE_INFINITY): Float32Array {
  const { width, height, mmPerSample, planes } = level;
  const [wide, high] = [powerOfTwo(width), powerOfTwo(height)];
  const field = {
    values: aboutMean(planes, width, height, wide, high),
    width: wide,
    height: high,
    lattice: { ax: wide, ay: 0, bx: 0, by: high },
    mmPerCellX: mmPerSample,
    mmPerCellY: mmPerSample,
  };
  const spectrum = forwardTransform(field);
  const waves = spectrum.waves.slice();
  for (let k = 0, j = 0; j < high; j++) {
    for (let i = 0; i < wide; i++, k += 2) {
      const fine = 1 - cloudShare(clouds, i, wide) * cloudShare(clouds, j, high);
      waves[k] = (waves[k] ** 2 + waves[k + 1] ** 2) * fine ** 2;
      waves[k + 1] = 0;
    }
  }
  const likeness = inverseTransform({ ...spectrum, waves }).values;
  const whole = likeness[0];
  const part = new Float32Array(width * height);
  if (!(whole > 1e-12)) return part;
  for (let j = 0, k = 0; j < height; j++) {
    for (let i = 0; i < width; i++, k++) {
      // Seen from the far side a move to the right is one to the left.
      const column = i <= width >> 1 ? i : i + wide - width;
      const row = j <= height >> 1 ? j : j + high - height;
      part[k] = likeness[row * wide + column] / whole;
    }
  }
  return part;
}

/** What a Gaussian blur of so many samples leaves of a wave that goes `wave` times into `count`. */
function cloudShare(deviation: number, wave: number, count: number): number {
  if (deviation === Number.POSITIVE_INFINITY) return 0;
  const cycles = Math.min(wave, count - wave) / count;
  return Math.exp(-2 * (Math.PI * cycles * deviation) ** 2);
}

function powerOfTwo(count: number): number {
  return 2 ** Math.ceil(Math.log2(count));
}

function aboutMean(
  planes: readonly Float32Array[],
  width: number,
  height: number,
  wide: number,
  high: number,
): Float32Array {
  let mean = 0;
  for (const plane of planes) for (const value of plane) mean += value / (width * height);
  const values = new Float32Array(wide * high);
  for (let j = 0, k = 0; j < height; j++) {
    for (let i = 0; i < width; i++, k++) {
      let sum = -mean;
      for (const plane of planes) sum += plane[k];
      values[j * wide + i] = sum;
    }
  }
  return values;
}
