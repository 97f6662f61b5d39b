import { addFractalRow, fractalNoise } from '../field/fractal.ts';
import { march } from '../field/march.ts';
import { type FieldShape, fieldShape, type PeriodicField } from '../field/periodic.ts';
import type { RandomStream } from '../field/random.ts';
import type { Box } from '../repeat/repeat.ts';
import type { WashValues } from './wash-values.ts';

/** Where water crept back: mm within its front on each cell (below 0 outside), and how strong it is there. */
export interface BackRuns {
  readonly within: PeriodicField;
  readonly strength: PeriodicField;
}

/** mm */
const CELL = 0.6;
/** How far outside a front is still told, mm. */
const OUTSIDE = 4;

/** Water dropped or drawn back into the wash: fronts that the paper holds here and lets run there. */
export function runBack(
  box: Box,
  values: WashValues,
  random: (name: string) => RandomStream,
): BackRuns | undefined {
  const count = Math.round((values.backRuns * box.width * box.height) / 1e4);
  if (count === 0) return undefined;
  const side = Math.sqrt(box.width * box.height);
  const shape = fieldShape(box, Math.max(CELL, side / 1400));
  const places = random('back-runs');
  const [xs, ys, starts]: number[][] = [[], [], []];
  let farthest = 0;
  for (let k = 0; k < count; k++) {
    const [x, y] = [places.between(0, box.width), places.between(0, box.height)];
    const reach = Math.min(
      0.22 * side,
      34 * Math.exp(0.55 * places.normal()) * (0.55 + 0.45 * places.next()),
    );
    farthest = Math.max(farthest, reach);
    // A chain of sources: water lies in a streak, not at a point.
    const lean = places.between(-0.5, 0.5) * Math.PI * 0.4;
    const links = 1 + places.below(6);
    for (let link = 0; link < links; link++) {
      const away = reach * 0.5 * (link - (links - 1) / 2) + 2 * places.normal();
      xs.push(x + away * Math.cos(lean) + 3 * places.normal());
      ys.push(y + away * Math.sin(lean) + 3 * places.normal());
      starts.push(-reach * (0.45 + 0.55 * places.next()));
    }
  }
  const { times } = march(
    shape,
    slowness(box, shape, random),
    { x: xs, y: ys, start: starts },
    { until: OUTSIDE },
  );
  const within = new Float32Array(times.length);
  for (let k = 0; k < within.length; k++) within[k] = Math.max(-OUTSIDE, -times[k]);
  return { within: { ...shape, values: within }, strength: strengthOf(box, random) };
}

/** Lobes and creases: water runs along ridges of the paper's own noise, and hardly across the hollows between. */
function slowness(box: Box, shape: FieldShape, random: (name: string) => RandomStream): Float32Array {
  const values = new Float32Array(shape.width * shape.height);
  const add = (cell: number, gain: number, ridged: boolean, name: string) => {
    const noise = fractalNoise(
      box.lattice,
      { along: cell, across: cell },
      { octaves: 2, gain: 0.6 },
      random(name),
    );
    const row = new Float32Array(shape.width);
    for (let j = 0; j < shape.height; j++) {
      row.fill(0);
      addFractalRow(
        noise,
        shape.mmPerCellX / 2,
        shape.mmPerCellX,
        (j + 0.5) * shape.mmPerCellY,
        1,
        row,
        shape.width,
      );
      const at = j * shape.width;
      for (let i = 0; i < shape.width; i++) {
        values[at + i] += gain * (ridged ? Math.abs(row[i]) - 0.8 : row[i]);
      }
    }
  };
  add(3.6, 0.36, true, 'creases');
  add(13, 0.75, true, 'lobes');
  add(45, 0.3, false, 'shores');
  for (let k = 0; k < values.length; k++) values[k] = Math.exp(values[k]);
  return values;
}

function strengthOf(box: Box, random: (name: string) => RandomStream): PeriodicField {
  const shape = fieldShape(box, 4);
  const noise = fractalNoise(
    box.lattice,
    { along: 50, across: 50 },
    { octaves: 2, gain: 0.6 },
    random('found edges'),
  );
  const values = new Float32Array(shape.width * shape.height);
  for (let j = 0; j < shape.height; j++) {
    addFractalRow(
      noise,
      shape.mmPerCellX / 2,
      shape.mmPerCellX,
      (j + 0.5) * shape.mmPerCellY,
      1,
      values,
      shape.width,
      j * shape.width,
    );
  }
  for (let k = 0; k < values.length; k++) values[k] = 1 / (1 + Math.exp(-2.2 * (values[k] + 0.25)));
  return { ...shape, values };
}
