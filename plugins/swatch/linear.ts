import { linearOfShortTable, type Picture } from 'tenter';

/** Red, green and blue in linear light, 0..1, on square samples. */
export interface Linear {
  readonly width: number;
  readonly height: number;
  readonly mmPerSample: number;
  readonly planes: readonly [Float32Array, Float32Array, Float32Array];
}

/** Sides of a pixel that differ by less than this share are taken for the same. */
const SQUARE = 1e-3;

/** A picture in linear light, what is transparent laid on white; on squares of its larger side where pixels are none. */
export function linearOf(picture: Picture): Linear {
  const { width, height, mmPerPixelX, mmPerPixelY } = picture;
  const planes = lightOf(picture);
  const mmPerSample = Math.max(mmPerPixelX, mmPerPixelY);
  if (Math.abs(mmPerPixelX / mmPerPixelY - 1) < SQUARE) return { width, height, mmPerSample, planes };
  const across = Math.max(1, Math.floor((width * mmPerPixelX) / mmPerSample + 1e-9));
  const down = Math.max(1, Math.floor((height * mmPerPixelY) / mmPerSample + 1e-9));
  const meansOf = (plane: Float32Array) =>
    meansDown(
      meansAcross(plane, width, height, across, mmPerSample / mmPerPixelX),
      across,
      height,
      down,
      mmPerSample / mmPerPixelY,
    );
  return {
    width: across,
    height: down,
    mmPerSample,
    planes: [meansOf(planes[0]), meansOf(planes[1]), meansOf(planes[2])],
  };
}

function lightOf({ width, height, samples }: Picture): [Float32Array, Float32Array, Float32Array] {
  const table = linearOfShortTable();
  const count = width * height;
  const [red, green, blue] = [new Float32Array(count), new Float32Array(count), new Float32Array(count)];
  for (let k = 0, at = 0; k < count; k++, at += 4) {
    const cover = samples[at + 3] / 65_535;
    red[k] = 1 + cover * (table[samples[at]] - 1);
    green[k] = 1 + cover * (table[samples[at + 1]] - 1);
    blue[k] = 1 + cover * (table[samples[at + 2]] - 1);
  }
  return [red, green, blue];
}

/** Means over `step` numbers of a row each, shares of numbers at either end counted as such. */
function meansAcross(plane: Float32Array, width: number, height: number, across: number, step: number) {
  const means = new Float32Array(across * height);
  for (let i = 0; i < across; i++) {
    const { first, shares } = sharesOf(i, step, width);
    for (let j = 0; j < height; j++) {
      let sum = 0;
      for (let n = 0, at = j * width + first; n < shares.length; n++, at++) sum += shares[n] * plane[at];
      means[j * across + i] = sum;
    }
  }
  return means;
}

function meansDown(plane: Float32Array, width: number, height: number, down: number, step: number) {
  const means = new Float32Array(width * down);
  for (let j = 0; j < down; j++) {
    const { first, shares } = sharesOf(j, step, height);
    for (let n = 0; n < shares.length; n++) {
      for (let i = 0, to = j * width, at = (first + n) * width; i < width; i++, to++, at++) {
        means[to] += shares[n] * plane[at];
      }
    }
  }
  return means;
}

function sharesOf(index: number, step: number, size: number): { first: number; shares: number[] } {
  const from = index * step;
  const to = Math.min(size, from + step);
  const first = Math.min(size - 1, Math.floor(from + 1e-9));
  const last = Math.max(first, Math.min(size - 1, Math.ceil(to - 1e-9) - 1));
  const shares = [];
  for (let k = first; k <= last; k++) shares.push(Math.max(0, Math.min(k + 1, to) - Math.max(k, from)));
  const whole = shares.reduce((sum, share) => sum + share, 0);
  return { first, shares: whole > 0 ? shares.map((share) => share / whole) : [1] };
}
