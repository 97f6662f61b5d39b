import { type Box, cellIndex, type FieldShape } from 'tenter';
import type { Level, Prepared } from '../way.ts';
import type { Model } from './model.ts';

/** A swatch closes where its edges differ from what they meet by at most this many times what its lines differ by. */
const AS_INSIDE = 1.25;

/** Whether the swatch is as large as the box and closes over it as it stands: there is nothing to grow. */
export function isClosed({ levels: [level], width, height, box }: Prepared): boolean {
  const close = level.mmPerSample / 2;
  if (Math.abs(width - box.width) > close || Math.abs(height - box.height) > close) return false;
  const shape = wrapOf(level, box);
  if (!shape) return false;
  return [true, false].every(
    (isAcross) => edgeStep(level, shape, isAcross) <= AS_INSIDE * insideStep(level, isAcross),
  );
}

/** The samples of a level as a field that stands in the box's repeat; nothing where a sample would be cut. */
export function wrapOf({ width, height, mmPerSample }: Level, box: Box): FieldShape | undefined {
  const ay = (box.lattice.ay / box.height) * height;
  const bx = (box.lattice.bx / box.width) * width;
  if (Math.abs(ay - Math.round(ay)) > 1e-6 || Math.abs(bx - Math.round(bx)) > 1e-6) return undefined;
  const lattice = { ax: width, ay: Math.round(ay), bx: Math.round(bx), by: height };
  return { width, height, lattice, mmPerCellX: mmPerSample, mmPerCellY: mmPerSample };
}

function edgeStep(level: Level, shape: FieldShape, isAcross: boolean): number {
  const { width, height } = level;
  let sum = 0;
  const count = isAcross ? height : width;
  for (let k = 0; k < count; k++) {
    const own = isAcross ? width - 1 + k * width : k + (height - 1) * width;
    sum += step(level, own, isAcross ? cellIndex(shape, width, k) : cellIndex(shape, k, height));
  }
  return sum / count;
}

function insideStep(level: Level, isAcross: boolean): number {
  const { width, height } = level;
  let sum = 0;
  let count = 0;
  for (let j = 0; j + 1 < height; j++) {
    for (let i = 0; i + 1 < width; i++, count++) {
      const k = i + j * width;
      sum += step(level, k, isAcross ? k + 1 : k + width);
    }
  }
  return sum / Math.max(1, count);
}

function step({ planes }: Level, a: number, b: number): number {
  let sum = 0;
  for (const values of planes)
    sum += (Math.sqrt(Math.max(0, values[a])) - Math.sqrt(Math.max(0, values[b]))) ** 2;
  return sum;
}

/** The model of a swatch that closes: one piece, as it stands. */
export function closedModel({ levels, box }: Prepared): Model {
  const framed = 9;
  return {
    levels,
    box,
    width: 1,
    height: 1,
    mmPerCellX: box.width,
    mmPerCellY: box.height,
    closed: true,
    piece: new Int32Array(framed),
    places: Float64Array.of(1, 0, 0, 0, 1, 0),
    movedX: new Float32Array(framed),
    movedY: new Float32Array(framed),
    gains: levels[0].planes.map(() => new Float32Array(framed).fill(1)),
    comesBack: { nearest: Number.POSITIVE_INFINITY, most: 1, shown: 1 },
  };
}
