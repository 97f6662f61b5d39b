import {
  addBicubicRow,
  addBilinearRow,
  addFractalRow,
  type Box,
  fieldShape,
  layWash,
  type PeriodicField,
  type RandomStream,
} from 'tenter';
import { bake, emptyLike, type Noise, roundCell } from './fields.ts';
import type { Values } from './parameters.ts';
import { shoreAt } from './shores.ts';

/** What the flow left, on the cells that it was worked out on. */
export interface Flood {
  /** Natural logarithm of the paint. */
  readonly base: PeriodicField;
  /** Share of edges that are lost, 0..1. */
  readonly lost: PeriodicField;
  /** Where heavy pigment settles, deviation 1. */
  readonly silt: PeriodicField;
}

/** The flood together with the wash that a brush laid, on finer cells. */
export interface Ground {
  /** Natural logarithm of the paint. */
  readonly base: PeriodicField;
  /** How much more of it is heavy pigment than stain, -1..1. */
  readonly heavy: PeriodicField;
}

/** Cells, mm, where no wash says how fine they are. */
const CELL = 0.35;
const SKETCH = 0.8;

/** How much of the brush is lost where the sheet was wettest. */
const LOST = 0.35;
/** Heavy pigment settles in pools; stain goes farthest with the water, into the seams where it stopped. */
const IN_POOL = 0.13;
const IN_SEAM = 0.24;
const IN_SHORE = 0.3;
/** How far heavy paint may outweigh the stain. */
const MOST = 0.75;

/** The wash that the water was let into, as a brush laid it, and the shores of the pools in which it stood. */
export function layGround(
  flood: Flood,
  values: Values,
  box: Box,
  random: (name: string) => RandomStream,
  noise: Noise,
  isSketch: boolean,
): Ground {
  const { brushwork, tooth } = values;
  const wash = brushwork > 0 ? brushed(box, tooth, random, isSketch) : undefined;
  const shape = wash?.paint ?? fieldShape(box, isSketch ? SKETCH : CELL);
  const base = emptyLike({ ...shape });
  const heavy = emptyLike({ ...shape });
  const found = bake(box, 2, noise('found shores', roundCell(46), { octaves: 2, gain: 0.6 }));
  const lobes = noise('shore lobes', roundCell(10), { octaves: 2, gain: 0.6 });
  const fray = noise('shore fray', roundCell(2.4), { octaves: 2, gain: 0.55 });
  const { width, height, mmPerCellX: mmX, mmPerCellY: mmY } = shape;
  const row = () => new Float32Array(width + 1);
  let [here, below] = [row(), row()];
  const [lost, silt, paint, weighed, strength, lobe, fine] = Array.from({ length: 7 }, row);
  const flowed = (y: number, to: Float32Array) =>
    addBicubicRow(flood.base, mmX / 2, mmX, y, 1, to.fill(0), width + 1);
  flowed(mmY / 2, here);
  for (let j = 0; j < height; j++) {
    const y = (j + 0.5) * mmY;
    const fill = (field: PeriodicField, to: Float32Array) =>
      addBilinearRow(field, mmX / 2, mmX, y, 1, to.fill(0), width);
    flowed(y + mmY, below);
    fill(flood.lost, lost);
    fill(flood.silt, silt);
    if (wash) fill(wash.paint, paint);
    if (wash) fill(wash.heavy, weighed);
    fill(found, strength);
    addFractalRow(lobes, mmX / 2, mmX, y, 1, lobe.fill(0), width);
    addFractalRow(fray, mmX / 2, mmX, y, 1, fine.fill(0), width);
    for (let i = 0, k = j * width; i < width; i++, k++) {
      const kept = brushwork * (1 - LOST * lost[i]);
      const depth = here[i];
      const [alongX, alongY] = [(here[i + 1] - depth) / mmX, (below[i] - depth) / mmY];
      const steep = Math.sqrt(alongX * alongX + alongY * alongY);
      const stray = 1.1 * (0.75 - Math.abs(lobe[i])) + 0.28 * fine[i];
      const share = Math.max(0, Math.min(1, 0.62 + 0.75 * strength[i]));
      const shore = kept * share * shoreAt(depth, steep, stray);
      const laid = Math.log(Math.max(0.1, 1 - kept + kept * paint[i]));
      base.values[k] = depth + shore + laid;
      const seam = Math.max(-1, Math.min(1, depth));
      const more = kept * weighed[i] + IN_POOL * silt[i] - IN_SEAM * seam - IN_SHORE * shore;
      heavy.values[k] = Math.max(-MOST, Math.min(MOST, more));
    }
    [here, below] = [below, here];
  }
  return { base, heavy };
}

function brushed(box: Box, tooth: number, random: (name: string) => RandomStream, isSketch: boolean) {
  return layWash(
    box,
    {
      ...{ brush: 72, stroke: 420, direction: -6, drying: 0.2, edges: 0.75, bead: 0.7, unevenness: 0.5 },
      ...{ grading: 0.25, backRuns: 0, skips: 0, granulation: 1, tooth },
    },
    (name) => random(`ground ${name}`),
    isSketch,
  );
}
