import {
  addBilinearRow,
  addFractalRow,
  bilinearAt,
  type FieldShape,
  type FractalNoise,
  fractalOnPixels,
  gaussianBlur,
  type PeriodicField,
} from 'tenter';
import type { Flowed } from './flow.ts';

/** Which way the water went while the sheet dried. */
export interface Stream {
  /** A vector of length 0..1: shorter where currents part or meet. */
  readonly x: PeriodicField;
  readonly y: PeriodicField;
  /** How far it went, 0..1: 0 stood, 1 ran for many mm. */
  readonly pace: PeriodicField;
}

/** mm over which a current is told. */
const WIDE = 1.2;
/** mm that count as half of the way. */
const HALF = 2.5;
/** mm that touched paint creeps outward per unit of the slope of its logarithm. */
const CREPT = 6;

/**
 * The currents that the flow had, and the way that touched paint crept down its own slope, together.
 *
 * @param downhill Degrees, where nothing else says which way.
 */
export function streamOf(shape: FieldShape, flowed: Flowed, tilt: number, downhill: number): Stream {
  const blurred = (values: Float32Array) => gaussianBlur({ ...shape, values }, WIDE).values;
  const [x, y] = [blurred(flowed.movedX), blurred(flowed.movedY)];
  // Where all runs downhill alike nothing is drawn out against its neighbour.
  const [meanX, meanY] = [0.75 * (1 - tilt) * meanOf(x), 0.75 * (1 - tilt) * meanOf(y)];
  for (let k = 0; k < x.length; k++) {
    x[k] -= meanX;
    y[k] -= meanY;
  }
  if (flowed.second) addCreep(shape, flowed.second, x, y);
  const pace = new Float32Array(x.length);
  const lean = (downhill * Math.PI) / 180;
  const [downX, downY] = [(0.02 + 0.5 * tilt) * Math.cos(lean), (0.02 + 0.5 * tilt) * Math.sin(lean)];
  for (let k = 0; k < x.length; k++) {
    const far = Math.hypot(x[k], y[k]);
    pace[k] = far / (far + HALF);
    const length = Math.hypot(x[k] + downX, y[k] + downY) + 1e-6;
    x[k] = (x[k] + downX) / length;
    y[k] = (y[k] + downY) / length;
  }
  const field = (values: Float32Array) => ({ ...shape, values });
  return { x: field(x), y: field(y), pace: field(pace) };
}

function meanOf(values: Float32Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function addCreep(shape: FieldShape, amount: Float64Array, x: Float32Array, y: Float32Array): void {
  const { width, height, mmPerCellX, mmPerCellY } = shape;
  const slopes = gaussianBlur(
    { ...shape, values: Float32Array.from(amount, (value) => Math.sqrt(Math.max(0, value))) },
    WIDE,
  );
  for (let j = 0, k = 0; j < height; j++) {
    for (let i = 0; i < width; i++, k++) {
      const [left, top] = [(i - 0.5) * mmPerCellX, (j - 0.5) * mmPerCellY];
      const at = (dx: number, dy: number) =>
        bilinearAt(slopes, left + dx * mmPerCellX, top + dy * mmPerCellY);
      x[k] -= CREPT * 2 * (at(2, 1) - at(0, 1));
      y[k] -= CREPT * 2 * (at(1, 2) - at(1, 0));
    }
  }
}

/** Taps of the mean along a current: 2 to the power of the passes. */
const PASSES = 4;
/** mm between the taps, where water ran farthest and where it stood. */
const RAN = 0.26;
const RAN_DOWN = 0.6;
const STOOD = 0.05;

/**
 * A fine noise drawn out along the currents, of deviation 1: filaments of paint. The mean over 16 places
 * along each current, by doubling: the mean of two, of two such means, and so on (a line integral
 * convolution: B. Cabral and L. Leedom, *Imaging vector fields using line integral convolution*, 1993).
 */
export function drawStreaks(
  shape: FieldShape,
  stream: Stream,
  noise: FractalNoise,
  tilt: number,
): PeriodicField {
  const { width, height, mmPerCellX, mmPerCellY } = shape;
  const ran = RAN + RAN_DOWN * tilt * tilt;
  let from = new Float32Array(width * height);
  let to = new Float32Array(from.length);
  const seen = fractalOnPixels(noise, mmPerCellX, mmPerCellY);
  for (let j = 0; j < height; j++)
    addFractalRow(seen, mmPerCellX / 2, mmPerCellX, (j + 0.5) * mmPerCellY, 1, from, width, j * width);
  const [alongX, alongY, pace] = [0, 0, 0].map(() => new Float32Array(width));
  for (let pass = 0; pass < PASSES; pass++) {
    const field = { ...shape, values: from };
    for (let j = 0; j < height; j++) {
      const y = (j + 0.5) * mmPerCellY;
      const fill = (of: PeriodicField, row: Float32Array) =>
        addBilinearRow(of, mmPerCellX / 2, mmPerCellX, y, 1, row.fill(0), width);
      fill(stream.x, alongX);
      fill(stream.y, alongY);
      fill(stream.pace, pace);
      for (let i = 0, k = j * width; i < width; i++, k++) {
        const reach = 2 ** pass * 0.5 * (STOOD + (ran - STOOD) * Math.min(1, 1.5 * pace[i]));
        const [dx, dy] = [reach * alongX[i], reach * alongY[i]];
        const x = (i + 0.5) * mmPerCellX;
        to[k] = 0.5 * (bilinearAt(field, x + dx, y + dy) + bilinearAt(field, x - dx, y - dy));
      }
    }
    [from, to] = [to, from];
  }
  return { ...shape, values: ofDeviationOne(from) };
}

function ofDeviationOne(values: Float32Array): Float32Array {
  let sum = 0;
  for (const value of values) sum += value * value;
  const scale = 1 / Math.sqrt(sum / values.length + 1e-12);
  for (let k = 0; k < values.length; k++) values[k] *= scale;
  return values;
}
