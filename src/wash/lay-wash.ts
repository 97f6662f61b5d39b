import { addBilinearRow, type FieldShape, fieldShape, type PeriodicField } from '../field/periodic.ts';
import type { RandomStream } from '../field/random.ts';
import { smoothstep } from '../field/smoothstep.ts';
import type { Box } from '../repeat/repeat.ts';
import { type BackRuns, runBack } from './back-runs.ts';
import { bakeNoise } from './bake.ts';
import { layFilm } from './lay-film.ts';
import { layPaper, type WashPaper } from './paper.ts';
import { mottleOf, settlingOf } from './settling.ts';
import { layStrokes } from './strokes.ts';
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
  /** The tooth of the paper, its bristle tracks and how edges stray in it. */
  readonly paper: WashPaper;
}

/** Cells of a finished wash and of a sketch, mm. */
const CELL = 0.28;
const SKETCH = 0.7;
/** More cells than this are not kept: a wall is laid on larger ones. */
const MOST_CELLS = 7e6;

/** By how much less paint lies where strokes missed each other, where all was wet, and more so where it was not. */
const MISSED = 0.08;
const MISSED_DRY = 0.5;
/** How far heavy paint drew together in clumps, as a share per deviation. */
const CLUMPED = 0.07;
/** What of a lap's overlap counts twice: where both are wet, and where one had dried. */
const WET_LAP = 0.06;
const DRY_LAP = 0.36;

/**
 * Lays a wash over a repeat.
 *
 * @param isSketch Whether coarser cells will do.
 * @param progress Told how far it has come, 0..1.
 */
export function layWash(
  box: Box,
  values: WashValues,
  random: (name: string) => RandomStream,
  isSketch = false,
  progress: (done: number) => void = () => {},
): Wash {
  const least = Math.sqrt((box.width * box.height) / MOST_CELLS);
  const shape = fieldShape(box, Math.max(least, isSketch ? SKETCH : CELL));
  const fray = frayOf(box, shape, random);
  const film = layFilm(shape, layStrokes(box, values, random), values, fray);
  progress(0.5);
  const rough = fieldShape(box, Math.max(2 * least, 1));
  const tone = bakeNoise(
    box,
    rough,
    { along: 64, across: 92, direction: 27 },
    { octaves: 3, gain: 0.5 },
    random('tone'),
  );
  const runs = bakeNoise(
    box,
    rough,
    { along: 110, across: 30, direction: 83 },
    { octaves: 3, gain: 0.55 },
    random('runs'),
  );
  const parted = bakeNoise(
    box,
    rough,
    { along: 105, across: 80, direction: -33 },
    { octaves: 3, gain: 0.5 },
    random('parted'),
  );
  const stain = 1 - MISSED - MISSED_DRY * Math.min(1, 0.7 * values.drying + 0.6 * values.skips);
  const thirst = bakeNoise(
    box,
    rough,
    { along: 75, across: 13, direction: values.direction },
    { octaves: 2, gain: 0.6 },
    random('thirst'),
  );
  const clumped = { ...rough, values: mottleOf(box, rough, random) };
  const dryBrush = { ...rough, values: thirst };
  const pools = { ...rough, values: tone };
  const soft = { ...rough, values: tone.map((value, k) => 0.17 * value + 0.04 * runs[k]) };
  const hue = { ...rough, values: parted };
  const backRuns = runBack(box, values, random);
  progress(0.65);
  const paint = new Float32Array(shape.width * shape.height);
  const heavy = new Float32Array(paint.length);
  const skipped = new Float32Array(paint.length);
  const [toneRow, hueRow, thirstRow, poolRow, clumps, within, strength] = [0, 0, 0, 0, 0, 0, 0].map(
    () => new Float32Array(shape.width),
  );
  for (let j = 0; j < shape.height; j++) {
    const y = (j + 0.5) * shape.mmPerCellY;
    const fill = (field: PeriodicField, row: Float32Array) =>
      addBilinearRow(field, shape.mmPerCellX / 2, shape.mmPerCellX, y, 1, row.fill(0), shape.width);
    fill(soft, toneRow);
    fill(hue, hueRow);
    fill(dryBrush, thirstRow);
    fill(pools, poolRow);
    fill(clumped, clumps);
    if (backRuns) {
      fill(backRuns.within, within);
      fill(backRuns.strength, strength);
    }
    for (let i = 0, k = j * shape.width; i < shape.width; i++, k++) {
      const cover = film.cover[k];
      const covered = 1 - film.bare[k];
      const mean = cover > 0 ? film.paint[k] / cover : 1;
      const dry = cover > 0 ? film.dry[k] / cover : 0;
      film.dry[k] = dry;
      const lapped = Math.max(0, cover - covered) * (WET_LAP + DRY_LAP * dry);
      const tide = tideAt(POOL * (poolRow[i] - SHORE) + fray[k]) * smoothstep(0.5 - 0.9 * hueRow[i]);
      const rim = values.edges * (film.rim[k] + (0.3 + values.drying) * tide);
      const laid = stain * film.bare[k] + mean * (covered + lapped);
      const run = backRuns ? strength[i] : 0;
      const front = backRuns ? frontAt(within[i], values.edges) : NO_FRONT;
      const light = 1 + run * front.light;
      const weight = 1 + run * front.heavy;
      const wandered = Math.exp(values.unevenness * toneRow[i]);
      // Staining paint lies at the very edge, heavy paint a little within and where the wash stood long.
      const part = 0.15 * hueRow[i] + 0.3 * (wandered - 1) + CLUMPED * values.granulation * clumps[i];
      const asHeavy = (laid * wandered ** 1.15 + 1.15 * rim) * weight * Math.max(0.2, 1 + part);
      const asLight = (laid * wandered ** 0.85 + 0.85 * rim) * light * Math.max(0.2, 1 - part);
      paint[k] = 0.5 * (asHeavy + asLight);
      heavy[k] = (asHeavy - asLight) / (asHeavy + asLight);
      const starved = cover > 0 ? film.starved[k] / cover : 0;
      const dryness = 0.9 * starved + 0.45 * film.bare[k] + 0.3 * thirstRow[i];
      skipped[k] = 4.5 - 4.4 * smoothstep((values.skips * dryness * 1.7 - 0.1) / 1.3);
    }
  }
  progress(0.95);
  level(paint, heavy);
  const field = (list: Float32Array) => ({ ...shape, values: list });
  return {
    paint: field(paint),
    heavy: field(heavy),
    skipped: field(skipped),
    settling: settlingOf(
      box,
      rough,
      values.granulation,
      { paint: field(paint), dry: { ...shape, values: film.dry } },
      random,
    ),
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
  const lobes = bakeNoise(
    box,
    shape,
    { along: 11, across: 9 },
    { octaves: 2, gain: 0.6 },
    random('edge lobes'),
  );
  const fine = bakeNoise(
    box,
    shape,
    { along: 2.6, across: 2.6 },
    { octaves: 2, gain: 0.5 },
    random('edge fray'),
  );
  for (let k = 0; k < lobes.length; k++) {
    lobes[k] = 0.8 * (0.75 - Math.abs(lobes[k])) + 0.16 * fine[k];
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
function frontAt(within: number, edges: number): Front {
  if (within < -0.35) return NO_FRONT;
  if (within < 0) {
    front.light = 0.5 * edges * (1 + within / 0.35);
    front.heavy = 0.15 * edges * (1 + within / 0.35);
    return front;
  }
  const crest = Math.exp(-within / 0.75);
  const bank = Math.exp(-within / 2.6);
  const inside = 1 - Math.exp(-within / 3.2);
  const calm = 1 / (1 + (within / 26) ** 2);
  const pale = inside * (0.25 + 0.75 * calm);
  front.light = edges * (0.5 * crest + 0.6 * bank) - 0.72 * pale;
  front.heavy = edges * (0.35 * crest + 0.75 * bank) - 0.5 * pale;
  return front;
}

/** mm for each deviation of the wash's tone, and how deep a pool is that leaves a tide line. */
const POOL = 26;
const SHORE = 0.45;

/** What gathers `within` mm inside the shore of a pool that dried slowly. */
function tideAt(within: number): number {
  if (within < 0 || within > 40) return 0;
  return 0.42 * Math.exp(-within / 0.6) + 0.34 * Math.exp(-within / 3.2) + 0.2 * Math.exp(-within / 12);
}

export type { BackRuns };
