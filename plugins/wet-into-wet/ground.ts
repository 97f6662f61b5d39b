import {
  addBilinearRow,
  addFractalRow,
  type Box,
  bicubicAt,
  fieldShape,
  layWash,
  type PeriodicField,
  type RandomStream,
  type Wash,
} from 'tenter';
import { bake, emptyLike, type Noise, roundCell } from './fields.ts';
import type { Values } from './parameters.ts';
import { shoreAt } from './shores.ts';
import { drawStreaks, type Stream } from './streaks.ts';
import { touchedAt } from './touched.ts';

/** What the flow left, on the cells that it was worked out on. */
export interface Flood {
  /** Natural logarithm of the first wash's paint. */
  readonly base: PeriodicField;
  /** What was touched in, if anything. */
  readonly touched?: PeriodicField;
  /** Natural logarithm of the load where the artwork's paint ran. */
  readonly feathered?: PeriodicField;
  /** Whether that is another colour. */
  readonly isSecond: boolean;
  /** Share of edges that are lost, 0..1. */
  readonly lost: PeriodicField;
  /** Where heavy pigment settles, deviation 1. */
  readonly silt: PeriodicField;
  readonly stream: Stream;
  /** Where puddles stood long, 0..1. */
  readonly stood: PeriodicField;
}

/** The flood together with the wash that a brush laid, on finer cells. */
export interface Ground {
  /** Natural logarithm of the paint. */
  readonly base: PeriodicField;
  /** How much more of it is heavy pigment than stain, -1..1. */
  readonly heavy: PeriodicField;
  /** Paint of another colour. */
  readonly second?: PeriodicField;
}

/** Cells, mm. */
const CELL = 0.28;
const SKETCH = 0.8;

/** How much of the brush is lost where the sheet was wettest. */
const LOST = 0.35;
/** Heavy pigment settles in pools; stain goes farthest with the water, into the seams where it stopped. */
const IN_POOL = 0.13;
const IN_SEAM = 0.24;
const IN_SHORE = 0.3;
/** How far heavy paint may outweigh the stain. */
const MOST = 0.75;
/** mm that filaments of the wash, and of what is touched in, run ahead of the rest. */
const FINGER = 3.4;
const TOUCHED_FINGER = 4;
/** How strongly filaments show where the water ran far. */
const FILAMENT = 0.075;

/** How dark clumps of grain are in pools. */
const CLUMPED = 0.12;

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
  const settling = values.granulation / (40 + 0.5 * values.granulation);
  const wash = brushwork > 0 ? brushed(box, tooth, random, isSketch) : undefined;
  const shape = wash ? shapeOf(wash.paint) : fieldShape(box, isSketch ? SKETCH : CELL);
  const { stream } = flood;
  const streaks = drawStreaks(
    shape,
    stream,
    noise('filaments', roundCell(7), { octaves: 4, gain: 0.7 }),
    values.tilt,
  );
  const base = emptyLike(shape);
  const heavy = emptyLike(shape);
  const touched = flood.touched && emptyLike(shape);
  const found = bake(box, 2, noise('found shores', roundCell(46), { octaves: 2, gain: 0.6 }));
  const lobes = noise('shore lobes', roundCell(10), { octaves: 2, gain: 0.6 });
  const clumps = noise('clumps', { along: 2.6 * tooth, across: 2.1 * tooth, direction: 12 }, { octaves: 2, gain: 0.75 });
  const fray = noise('shore fray', roundCell(2.4), { octaves: 2, gain: 0.55 });
  const { width, height, mmPerCellX: mmX, mmPerCellY: mmY } = shape;
  const row = () => new Float32Array(width + 1);
  let [here, below] = [row(), row()];
  const [stood, clump, lost, silt, paint, weighed, strength, lobe, fine, alongX, alongY, pace] = Array.from({ length: 12 }, row);
  const [drawn, seldom, billow, ran] = [row(), row(), row(), row()];
  const patches = bake(box, 2, noise('feathered places', roundCell(26), { octaves: 2, gain: 0.6 }));
  const billows = noise('billows', roundCell(17), { octaves: 3, gain: 0.6 });
  const run = (y: number, to: Float32Array) => {
    const fill = (field: PeriodicField, row: Float32Array) =>
      addBilinearRow(field, mmX / 2, mmX, y, 1, row.fill(0), width + 1);
    fill(stream.x, alongX);
    fill(stream.y, alongY);
    fill(stream.pace, pace);
    fill(streaks, drawn);
    fill(patches, seldom);
    for (let i = 0; i <= width; i++) {
      const ahead = FINGER * pace[i] * feathered(seldom[i]) * drawn[i];
      to[i] = bicubicAt(flood.base, (i + 0.5) * mmX - ahead * alongX[i], y - ahead * alongY[i]);
    }
  };
  run(mmY / 2, here);
  for (let j = 0; j < height; j++) {
    const y = (j + 0.5) * mmY;
    const fill = (field: PeriodicField, to: Float32Array) =>
      addBilinearRow(field, mmX / 2, mmX, y, 1, to.fill(0), width);
    run(y + mmY, below);
    fill(stream.x, alongX);
    fill(stream.y, alongY);
    fill(stream.pace, pace);
    fill(streaks, drawn);
    fill(patches, seldom);
    fill(flood.lost, lost);
    fill(flood.silt, silt);
    fill(flood.stood, stood);
    if (flood.feathered) fill(flood.feathered, ran);
    addFractalRow(clumps, mmX / 2, mmX, y, 1, clump.fill(0), width);
    if (wash) fill(wash.paint, paint);
    if (wash) fill(wash.heavy, weighed);
    fill(found, strength);
    addFractalRow(lobes, mmX / 2, mmX, y, 1, lobe.fill(0), width);
    if (touched) addFractalRow(billows, mmX / 2, mmX, y, 1, billow.fill(0), width);
    addFractalRow(fray, mmX / 2, mmX, y, 1, fine.fill(0), width);
    for (let i = 0, k = j * width; i < width; i++, k++) {
      const kept = brushwork * (1 - LOST * lost[i]);
      const depth = here[i];
      const [slopeX, slopeY] = [(here[i + 1] - depth) / mmX, (below[i] - depth) / mmY];
      const steep = Math.sqrt(slopeX * slopeX + slopeY * slopeY);
      const stray = 1.1 * (0.75 - Math.abs(lobe[i])) + 0.28 * fine[i];
      const share = Math.max(0, Math.min(1, 0.62 + 0.75 * strength[i]));
      const shore = kept * share * shoreAt(depth, steep, stray);
      const laid = Math.log(Math.max(0.1, 1 - kept + kept * paint[i]));
      base.values[k] = depth + shore + laid + ran[i] + FILAMENT * pace[i] * feathered(seldom[i]) * drawn[i] + CLUMPED * settling * stood[i] * stood[i] * clumpAt(clump[i]);
      const seam = Math.max(-1, Math.min(1, depth));
      const more = kept * weighed[i] + IN_POOL * silt[i] - IN_SEAM * seam - IN_SHORE * shore;
      heavy.values[k] = Math.max(-MOST, Math.min(MOST, more));
      if (!touched) continue;
      const fingers = TOUCHED_FINGER * (0.3 + 0.7 * feathered(seldom[i])) * pace[i] * drawn[i];
      const ahead = fingers + 3.4 * (Math.abs(billow[i]) - 0.75) + 0.3 * fine[i];
      const amount = bicubicAt(
        flood.touched!,
        (i + 0.5) * mmX - ahead * alongX[i],
        y - ahead * alongY[i],
      );
      touched.values[k] = touchedAt(amount, drawn[i], lost[i], pace[i]);
    }
    [here, below] = [below, here];
  }
  if (!touched) return { base, heavy };
  scaleToMeanOf(touched, flood.touched!);
  if (flood.isSecond) return { base, heavy, second: touched };
  for (let k = 0; k < base.values.length; k++)
    base.values[k] = Math.log(Math.exp(base.values[k]) + touched.values[k]);
  return { base, heavy };
}

/** Paint that flocks together: grains of it, dark and apart. */
function clumpAt(noise: number): number {
  return noise > 0.3 ? noise - 0.3 : 0.12 * (noise - 0.3);
}

/** Where currents left filaments, 0..1, of a noise. */
function feathered(noise: number): number {
  return Math.max(0, Math.min(1, 0.4 + 0.5 * noise));
}

function shapeOf({ width, height, lattice, mmPerCellX, mmPerCellY }: Wash['paint']) {
  return { width, height, lattice, mmPerCellX, mmPerCellY };
}

/** The flow kept its total; so do its fronts. */
function scaleToMeanOf(field: PeriodicField, of: PeriodicField): void {
  const mean = ({ values }: PeriodicField) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const scale = mean(of) / Math.max(1e-9, mean(field));
  for (let k = 0; k < field.values.length; k++) field.values[k] *= scale;
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
