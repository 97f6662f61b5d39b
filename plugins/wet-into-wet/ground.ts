import {
  type Box,
  type FieldShape,
  fieldShape,
  layWash,
  type PeriodicField,
  type RandomStream,
} from 'tenter';
import { emptyLike, type Noise, roundCell } from './fields.ts';
import type { Flood } from './flooded.ts';
import { openRows } from './ground-rows.ts';
import type { Values } from './parameters.ts';
import { shoreAt } from './shores.ts';
import { drawStreaks } from './streaks.ts';

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
const FILAMENTS = 0.5;

/** Heavy pigment settles in pools; stain goes farthest with the water, into the seams where it stopped. */
const IN_POOL = 0.13;
const IN_SEAM = 0.24;
const IN_SHORE = 0.3;
/** How far heavy paint may outweigh the stain. */
const MOST = 0.75;
/** How strongly filaments show where the water ran far. */
const FILAMENT = 0.075;

/** How strong the artwork's own colour is touched in, of what lies there. */
const OWN = 0.85;
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
  const wash = values.brushwork > 0 ? brushed(box, values.tooth, random, isSketch) : undefined;
  const shape: FieldShape = wash?.paint ?? fieldShape(box, isSketch ? SKETCH : CELL);
  const threads = fieldShape(box, isSketch ? SKETCH : FILAMENTS);
  const filaments = noise('filaments', roundCell(7), { octaves: 4, gain: 0.7 });
  const streaks = drawStreaks(threads, flood.stream, filaments, values.tilt);
  const settling = values.granulation / (40 + 0.5 * values.granulation);
  const rows = openRows(flood, streaks, wash, values.tooth, shape, box, noise);
  const base = emptyLike(shape);
  const heavy = emptyLike(shape);
  const touched = flood.touched && emptyLike(shape);
  const { here, kept } = rows;
  for (let j = 0; j < shape.height; j++) {
    rows.go(j, values.brushwork);
    for (let i = 0, k = j * shape.width; i < shape.width; i++, k++) {
      const share = Math.max(0, Math.min(1, 0.62 + 0.75 * rows.found[i]));
      const stray = 1.1 * (0.75 - Math.abs(rows.lobe[i])) + 0.28 * rows.fray[i];
      const shore = kept[i] * share * shoreAt(here[i], rows.steep[i], stray);
      const laid = Math.log(Math.max(0.1, 1 - kept[i] + kept[i] * rows.paint[i]));
      const thread = FILAMENT * rows.pace[i] * rows.feathered[i] * rows.streak[i];
      const flocked = CLUMPED * settling * rows.stood[i] ** 2 * clumpAt(rows.clump[i]);
      base.values[k] = here[i] + shore + laid + rows.ran[i] + thread + flocked;
      const seam = Math.max(-1, Math.min(1, here[i]));
      const more = kept[i] * rows.weighed[i] + IN_POOL * rows.silt[i] - IN_SEAM * seam - IN_SHORE * shore;
      heavy.values[k] = Math.max(-MOST, Math.min(MOST, more));
      if (touched) touched.values[k] = rows.touchedAt(i, j);
    }
  }
  if (!touched) return { base, heavy };
  scaleToMeanOf(touched, flood.touched!, flood.isSecond ? values.secondAmount / 100 : OWN);
  if (flood.isSecond) return { base, heavy, second: touched };
  for (let k = 0; k < base.values.length; k++)
    base.values[k] = Math.log(Math.exp(base.values[k]) + touched.values[k]);
  return { base, heavy };
}

/** Paint that flocks together: grains of it, dark and apart. */
function clumpAt(noise: number): number {
  return noise > 0.3 ? noise - 0.3 : 0.12 * (noise - 0.3);
}

/**
 * The flow kept its total; so do its fronts. How strong the paint is comes last: a front stands where it stands, however
 * thin the paint is.
 */
function scaleToMeanOf(field: PeriodicField, of: PeriodicField, strength: number): void {
  const mean = ({ values }: PeriodicField) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const scale = (strength * mean(of)) / Math.max(1e-9, mean(field));
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
