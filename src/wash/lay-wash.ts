import { addBilinearRow, type FieldShape, fieldShape, type PeriodicField } from '../field/periodic.ts';
import type { RandomStream } from '../field/random.ts';
import type { Box } from '../repeat/repeat.ts';
import { type BackRuns, runBack } from './back-runs.ts';
import { bakeNoise } from './bake.ts';
import { layFilm } from './lay-film.ts';
import { layPaper, type WashPaper } from './paper.ts';
import { layStrokes, ramp } from './strokes.ts';
import type { WashValues } from './wash-values.ts';

/** A wash that has dried, ready to be painted. Plain data. */
export interface Wash {
  /** Paint on each cell, mean 1. */
  readonly paint: PeriodicField;
  /** How much more of it is heavy pigment than staining, -1..1; paint times it has mean 0. */
  readonly heavy: PeriodicField;
  /** How high hills of the paper must stand to be skipped by the brush, in deviations. */
  readonly skipped: PeriodicField;
  /** How strongly paint settles in the hollows. */
  readonly settling: PeriodicField;
  readonly paper: WashPaper;
}

/** Cells of a finished wash and of a sketch, mm. */
const CELL = 0.28;
const SKETCH = 0.7;
/** More cells than this are not kept: a wall is laid on larger ones. */
const MOST_CELLS = 7e6;

/** Paint of the damp first stain under everything, as a share. */
const STAIN = 0.5;
/** What of a lap's overlap counts twice: where both are wet, and where one had dried. */
const WET_LAP = 0.06;
const DRY_LAP = 0.5;

/** Lays a wash over a repeat. */
export function layWash(
  box: Box,
  values: WashValues,
  random: (name: string) => RandomStream,
  isSketch = false,
): Wash {
  const least = Math.sqrt((box.width * box.height) / MOST_CELLS);
  const shape = fieldShape(box, Math.max(least, isSketch ? SKETCH : CELL));
  const film = layFilm(shape, layStrokes(box, values, random), values, frayOf(box, shape, random));
  const rough = fieldShape(box, Math.max(2 * least, 1));
  const tone = bakeNoise(box, rough, { along: 62, across: 88 }, { octaves: 4, gain: 0.55 }, random('tone'));
  const runs = bakeNoise(box, rough, { along: 12, across: 75 }, { octaves: 3, gain: 0.6 }, random('runs'));
  const parted = bakeNoise(box, rough, { along: 70, across: 70 }, { octaves: 3, gain: 0.55 }, random('parted'));
  const soft = { ...rough, values: tone.map((value, k) => 0.17 * value + 0.05 * runs[k]) };
  const hue = { ...rough, values: parted };
  const backRuns = runBack(box, values, random);
  const paint = new Float32Array(shape.width * shape.height);
  const heavy = new Float32Array(paint.length);
  const skipped = new Float32Array(paint.length);
  const [toneRow, hueRow, within, strength] = [0, 0, 0, 0].map(() => new Float32Array(shape.width));
  for (let j = 0; j < shape.height; j++) {
    const y = (j + 0.5) * shape.mmPerCellY;
    const fill = (field: PeriodicField, row: Float32Array) =>
      addBilinearRow(field, shape.mmPerCellX / 2, shape.mmPerCellX, y, 1, row.fill(0), shape.width);
    fill(soft, toneRow);
    fill(hue, hueRow);
    if (backRuns) {
      fill(backRuns.within, within);
      fill(backRuns.strength, strength);
    }
    for (let i = 0, k = j * shape.width; i < shape.width; i++, k++) {
      const cover = film.cover[k];
      const covered = 1 - film.bare[k];
      const mean = cover > 0 ? film.paint[k] / cover : 1;
      const dry = cover > 0 ? film.dry[k] / cover : 0;
      const lapped = Math.max(0, cover - covered) * (WET_LAP + DRY_LAP * dry);
      const rim = values.edges * film.rim[k];
      const laid = STAIN * film.bare[k] + mean * (covered + lapped);
      const run = backRuns ? strength[i] * values.edges : 0;
      const front = backRuns ? frontAt(within[i]) : NO_FRONT;
      const light = 1 + run * front.light;
      const weight = 1 + run * front.heavy;
      const wandered = Math.exp(values.unevenness * toneRow[i]);
      // Staining paint lies at the very edge, heavy paint a little within and where the wash stood long.
      const part = 0.28 * hueRow[i] + 0.35 * (wandered - 1);
      const asHeavy = (laid * wandered ** 1.15 + 1.15 * rim) * weight * Math.max(0.2, 1 + part);
      const asLight = (laid * wandered ** 0.85 + 0.85 * rim) * light * Math.max(0.2, 1 - part);
      paint[k] = 0.5 * (asHeavy + asLight);
      heavy[k] = (asHeavy - asLight) / (asHeavy + asLight);
      const starved = cover > 0 ? film.starved[k] / cover : 0;
      skipped[k] = 4.5 - 4.2 * ramp((values.skips * (0.55 * starved + 0.75 * film.bare[k]) * 2 - 0.1) / 1.2);
    }
  }
  level(paint, heavy);
  const field = (list: Float32Array) => ({ ...shape, values: list });
  return {
    paint: field(paint),
    heavy: field(heavy),
    skipped: field(skipped),
    settling: settlingOf(box, rough, values, random),
    paper: layPaper(values.tooth, values.direction, box, random),
  };
}

/** Paint is moved, not lost, of either pigment. */
function level(paint: Float32Array, heavy: Float32Array): void {
  let [all, more] = [0, 0];
  for (let k = 0; k < paint.length; k++) {
    all += paint[k];
    more += paint[k] * heavy[k];
  }
  const [heavyShare, lightShare] = [paint.length / (all + more), paint.length / (all - more)];
  for (let k = 0; k < paint.length; k++) {
    const [h, l] = [paint[k] * (1 + heavy[k]) * heavyShare, paint[k] * (1 - heavy[k]) * lightShare];
    paint[k] = 0.5 * (h + l);
    heavy[k] = (h - l) / (h + l);
  }
}

/** How far edges stray in the paper, mm: lobes and creases, as paper lets go and holds. */
function frayOf(box: Box, shape: FieldShape, random: (name: string) => RandomStream): Float32Array {
  const lobes = bakeNoise(box, shape, { along: 11, across: 9 }, { octaves: 2, gain: 0.6 }, random('edge lobes'));
  const fine = bakeNoise(box, shape, { along: 2.4, across: 2.4 }, { octaves: 2, gain: 0.6 }, random('edge fray'));
  for (let k = 0; k < lobes.length; k++) {
    lobes[k] = 0.9 * (0.75 - Math.abs(lobes[k])) + 0.34 * (0.75 - Math.abs(fine[k]));
  }
  return lobes;
}

interface Front {
  light: number;
  heavy: number;
}
const NO_FRONT: Front = { light: 0, heavy: 0 };
const front: Front = { light: 0, heavy: 0 };

/** What a back-run did to either pigment `within` mm inside its front: crisp on its outer side alone. */
function frontAt(within: number): Front {
  if (within < -0.35) return NO_FRONT;
  if (within < 0) {
    front.light = 0.5 * (1 + within / 0.35);
    front.heavy = 0.15 * (1 + within / 0.35);
    return front;
  }
  const crest = Math.exp(-within / 0.55);
  const bank = Math.exp(-within / 2.6);
  const inside = 1 - Math.exp(-within / 4.5);
  const calm = 1 / (1 + (within / 26) ** 2);
  front.light = 0.75 * crest + 0.5 * bank - 0.62 * inside * (0.35 + 0.65 * calm);
  front.heavy = 0.55 * crest + 0.55 * bank - 0.42 * inside * (0.35 + 0.65 * calm);
  return front;
}

/** Paint settles more where the wash stood longest: in patches of some centimetres. */
function settlingOf(
  box: Box,
  shape: FieldShape,
  values: WashValues,
  random: (name: string) => RandomStream,
): PeriodicField {
  const patches = bakeNoise(
    box,
    shape,
    { along: 48, across: 40 },
    { octaves: 3, gain: 0.55, deviation: 0.4 },
    random('patches'),
  );
  return { ...shape, values: patches.map((value) => values.granulation * Math.exp(Math.min(0.8, value)) * 0.9) };
}

export type { BackRuns };
