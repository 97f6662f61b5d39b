import { type AnyLayer, PLANE_CHANNELS, type PlaneName } from '../effect/layer.ts';

/** What the numbers of one channel of a plane came to. */
export interface PlaneRange {
  readonly plane: PlaneName;
  /** `red`, `alpha`, `x` and so on; empty where the plane has one channel. */
  readonly channel: string;
  readonly low: number;
  readonly high: number;
  readonly sum: number;
  readonly count: number;
  /** How many were no finite numbers; they count nowhere else. */
  readonly strange: number;
}

const CHANNELS: Readonly<Record<PlaneName, readonly string[]>> = {
  load: [''],
  parting: ['red', 'green', 'blue'],
  tint: ['red', 'green', 'blue', 'alpha'],
  shade: [''],
  shift: ['x', 'y'],
  bleed: [''],
  relief: [''],
};

/** Measures every channel of the planes of a layer. */
export function measureLayer(layer: AnyLayer, planes: readonly PlaneName[]): PlaneRange[] {
  return planes.flatMap((plane) =>
    CHANNELS[plane].map((channel, offset) => measureChannel(layer[plane]!, plane, channel, offset)),
  );
}

/** The ranges of two parts of one layer together; either list may be empty. */
export function joinRanges(a: readonly PlaneRange[], b: readonly PlaneRange[]): readonly PlaneRange[] {
  if (a.length === 0 || b.length === 0) return a.length === 0 ? b : a;
  return a.map((one, index) => ({
    ...one,
    low: Math.min(one.low, b[index].low),
    high: Math.max(one.high, b[index].high),
    sum: one.sum + b[index].sum,
    count: one.count + b[index].count,
    strange: one.strange + b[index].strange,
  }));
}

function measureChannel(values: Float32Array, plane: PlaneName, channel: string, offset: number): PlaneRange {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let sum = 0;
  let count = 0;
  let strange = 0;
  for (let k = offset; k < values.length; k += PLANE_CHANNELS[plane]) {
    const value = values[k];
    if (!Number.isFinite(value)) {
      strange++;
      continue;
    }
    low = Math.min(low, value);
    high = Math.max(high, value);
    sum += value;
    count++;
  }
  return { plane, channel, low, high, sum, count, strange };
}
