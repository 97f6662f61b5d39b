import { addFractalRow, type Box, bakeField, fractalNoise, type PeriodicField, type Setting } from 'tenter';

/** What the press, the felt and the mould make of a sheet. */
export interface SheetCharacter {
  /** mm from hollow to hollow. */
  readonly tooth: number;
  /** 0 rough .. 1 hot-pressed. */
  readonly pressed: number;
  /** 0 no mark of the felt .. 2 strong ones. */
  readonly felt: number;
}

/** mm: the pulp's finest octave is about twice that. */
const FINEST = 0.16;
/** Cells of the grid to a cell of the finest octave. */
const CELLS_PER_NOISE = 1.75;
/** 32 MB of heights; a fine tooth on a very large tile is drawn a little softer for it. */
const MOST_CELLS = 2 ** 23;
const MOST_CELLS_OF_SKETCH = 2 ** 20;
/** How much fainter each octave is than the one before: a press takes the finest hills first. */
const ROUGH_GAIN = 0.32;
const SMOOTH_GAIN = 0.2;

/** Degrees: the cells of a noise lie askew of the page, so that nothing in the pulp runs level or plumb. */
const PULP_DIRECTION = 19;
/** The felt is woven: its marks lie along two directions, degrees, longer than wide. */
const FELT_MARKS = [
  { direction: 28, along: 3.4, across: 1.2 },
  { direction: -57, along: 2.7, across: 1 },
] as const;
/** Their share beside the tooth's own, at felt 1. */
const FELT_SHARE = 0.75;

/**
 * The height of the sheet: mean 0, deviation 1 for an unpressed sheet and less for a pressed one.
 *
 * Pulp dries in rounded hills and hollows, over which the felt lays its weave; the press then flattens the hills,
 * so that the hollows are left as pits in a plain.
 */
export function mouldSheet(
  box: Box,
  { tooth, pressed, felt }: SheetCharacter,
  { random, quality, progress }: Pick<Setting, 'random' | 'quality' | 'progress'>,
): PeriodicField {
  const { lattice } = box;
  const octaves = Math.max(2, Math.min(4, Math.round(Math.log2(tooth / FINEST))));
  const most = quality === 'sketch' ? MOST_CELLS_OF_SKETCH : MOST_CELLS;
  const cell = Math.max(
    tooth / 2 ** (octaves - 1) / CELLS_PER_NOISE,
    Math.sqrt((box.width * box.height) / most),
  );
  const pulp = fractalNoise(
    lattice,
    { direction: PULP_DIRECTION, along: 1.15 * tooth, across: tooth },
    { octaves, gain: ROUGH_GAIN + (SMOOTH_GAIN - ROUGH_GAIN) * pressed },
    random('pulp'),
  );
  const marks = FELT_MARKS.map(({ direction, along, across }, k) =>
    fractalNoise(
      lattice,
      { direction, along: along * tooth, across: across * tooth },
      { octaves: 2, gain: 0.45, deviation: (FELT_SHARE * felt) / Math.SQRT2 },
      random(`felt ${k}`),
    ),
  );
  const field = bakeField(box, cell, (x0, step, y, row, count, offset) => {
    progress((0.9 * y) / box.height);
    for (const noise of [pulp, ...marks]) addFractalRow(noise, x0, step, y, 1, row, count, offset);
  });
  pressFlat(field.values, Math.hypot(1, FELT_SHARE * felt), pressed);
  return field;
}

/** Height, in deviations, above which the press meets the sheet: far up in a rough one, low in a smooth one. */
const ROUGH_LEVEL = 0.9;
const SMOOTH_LEVEL = -0.8;
/** How softly it gives way, in deviations. */
const SOFTNESS = 0.7;
/** What a hot press leaves of the depth. */
const LEAST_DEPTH = 0.28;

/** Flattens what stands above the press, brings the mean to 0 and the deviation to what is left. */
function pressFlat(heights: Float32Array, deviation: number, pressed: number): void {
  const level = ROUGH_LEVEL + (SMOOTH_LEVEL - ROUGH_LEVEL) * pressed;
  let sum = 0;
  let squares = 0;
  for (let k = 0; k < heights.length; k++) {
    const height = flattened(heights[k] / deviation, level);
    heights[k] = height;
    sum += height;
    squares += height * height;
  }
  const mean = sum / heights.length;
  const spread = Math.sqrt(Math.max(1e-12, squares / heights.length - mean * mean));
  const scale = (1 - (1 - LEAST_DEPTH) * pressed) / spread;
  for (let k = 0; k < heights.length; k++) heights[k] = (heights[k] - mean) * scale;
}

/** The height itself far below the level, the level far above it. */
export function flattened(height: number, level: number): number {
  const over = (level - height) / SOFTNESS;
  return level - SOFTNESS * (over > 20 ? over : Math.log1p(Math.exp(over)));
}
