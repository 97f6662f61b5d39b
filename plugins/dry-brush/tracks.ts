import { addNoiseRow, type LatticeNoise, latticeNoise, NOISE_DEVIATION, type RandomStream } from 'tenter';
import type { Stroke, TrackTables } from './model.ts';
import type { BrushValues } from './parameters.ts';

export const WET_SCALE = 28;

/** Columns per bristle track, mm between rows, and the widest columns, mm. */
const COLUMNS_PER_TRACK = 2.5;
const ROW_STEP = 2;
const WIDEST_COLUMN = 4;
/** Hairs, tufts, clumps, and the uneven pressure of the hand: widths in tracks, lengths in mm, strengths. */
const TUFTS = [
  { width: 1, length: 26, strength: 0.62 },
  { width: 2.7, length: 38, strength: 0.55 },
  { width: 8, length: 60, strength: 0.5 },
  { width: 26, length: 70, strength: 0.45 },
] as const;
/** A sheet of drawn-out brush marks so large that no two strokes are likely to be cut from one place. */
const SHEET_TRACKS = 8192;
const SHEET_LENGTH = 4000;

/** Tables at full fineness first, then with columns twice as wide each. */
export function drawTracks(
  strokes: readonly Stroke[],
  values: BrushValues,
  random: RandomStream,
  progress: (done: number) => void,
): TrackTables[] {
  const sheet = openSheet(values.bristle, random);
  const fine = emptyTables(strokes, values.bristle / COLUMNS_PER_TRACK, ROW_STEP);
  for (let k = 0; k < strokes.length; k++) {
    fillTable(fine, k, strokes[k], values, sheet, random);
    progress(k / strokes.length);
  }
  const levels = [fine];
  while (levels[levels.length - 1].across * 2 <= WIDEST_COLUMN)
    levels.push(halved(levels[levels.length - 1]));
  return levels;
}

function openSheet(track: number, random: RandomStream): LatticeNoise[] {
  const lattice = { ax: SHEET_TRACKS * track, ay: 0, bx: 0, by: SHEET_LENGTH };
  return TUFTS.map(({ width, length }) =>
    latticeNoise(lattice, { along: width * track, across: length }, random),
  );
}

function emptyTables(strokes: readonly Stroke[], across: number, along: number): TrackTables {
  const count = strokes.length;
  const starts = new Int32Array(count + 1);
  const rows = new Int32Array(count);
  const columns = new Int32Array(count);
  for (let k = 0; k < count; k++) {
    rows[k] = Math.ceil(strokes[k].length / along) + 2;
    columns[k] = Math.ceil(strokes[k].width / across) + 2;
    starts[k + 1] = starts[k] + rows[k] * columns[k];
  }
  return { wet: new Int8Array(starts[count]), starts, rows, columns, along, across, lost: 0 };
}

function fillTable(
  tables: TrackTables,
  k: number,
  stroke: Stroke,
  values: BrushValues,
  sheet: readonly LatticeNoise[],
  random: RandomStream,
): void {
  const { wet, starts, along, across } = tables;
  const rows = tables.rows[k];
  const columns = tables.columns[k];
  const row = new Float64Array(columns);
  const cutX = random.between(0, SHEET_TRACKS * values.bristle);
  const cutY = random.between(0, SHEET_LENGTH);
  const wander = openWander(random);
  const ends = endsOf(stroke, columns, across, values, sheet[2], cutX, cutY);
  const full = 2.5 - 3 * values.dryness + (0.3 + 0.4 * values.dryness) * stroke.fill;
  const spent = 0.4 + 2.2 * values.dryness * random.between(0.7, 1.3);
  for (let j = 0; j < rows; j++) {
    const s = (j - 0.5) * along;
    row.fill(0);
    for (let n = 0; n < sheet.length; n++) {
      const gain = TUFTS[n].strength / NOISE_DEVIATION;
      addNoiseRow(sheet[n], cutX + wander(s), across, cutY + s, gain, row, columns);
    }
    const run = Math.min(1, Math.max(0, s / stroke.length));
    const level = full - spent * run ** 1.4;
    for (let i = 0; i < columns; i++) {
      const z = level + row[i] - ends.edge[i] - lift(s - ends.touch[i]) - lift(ends.leave[i] - s);
      wet[starts[k] + j * columns + i] = Math.max(-127, Math.min(127, Math.round(z * WET_SCALE)));
    }
  }
}

/** What is wanting where a hair has not quite come down, `inside` mm after it should. */
function lift(inside: number): number {
  return inside > LIFT_LENGTH ? 0 : 5 * (1 - Math.max(0, inside / LIFT_LENGTH)) ** 2;
}

const LIFT_LENGTH = 5;

/** Where each hair comes down and leaves, and how lightly those at the edges press. */
function endsOf(
  { length, width }: Stroke,
  columns: number,
  across: number,
  { dryness }: BrushValues,
  noise: LatticeNoise,
  cutX: number,
  cutY: number,
) {
  const edge = new Float64Array(columns);
  const touch = new Float64Array(columns);
  const leave = new Float64Array(columns);
  addNoiseRow(noise, cutX, across, cutY - 300, 1 / NOISE_DEVIATION, touch, columns);
  addNoiseRow(noise, cutX, across, cutY - 600, 1 / NOISE_DEVIATION, leave, columns);
  for (let i = 0; i < columns; i++) {
    const t = Math.min(1, Math.abs(((i - 0.5) * across * 2) / width - 1));
    edge[i] = t < 0.7 ? 0 : 4.5 * ((t - 0.7) / 0.3) ** 2;
    touch[i] = 0.05 * width + 0.055 * width * touch[i] + 0.12 * width * t * t;
    leave[i] = length * (0.93 + (0.03 + 0.06 * dryness) * leave[i]) - 0.1 * width * t * t;
  }
  return { edge, touch, leave };
}

/** How far the hand strays sideways, mm, at `s` mm along a stroke. */
function openWander(random: RandomStream): (s: number) => number {
  const waves = [34, 61, 120].map((length) => ({
    size: length * 0.005 * random.normal(),
    turn: (2 * Math.PI) / (length * random.between(0.8, 1.25)),
    phase: random.between(0, 2 * Math.PI),
  }));
  return (s) => waves.reduce((sum, { size, turn, phase }) => sum + size * Math.sin(turn * s + phase), 0);
}

/** The same strokes in columns twice as wide. */
function halved(finer: TrackTables): TrackTables {
  const count = finer.rows.length;
  const starts = new Int32Array(count + 1);
  const columns = new Int32Array(count);
  for (let k = 0; k < count; k++) {
    // Column 0 stands half a step outside the stroke; pairs are taken from there on.
    columns[k] = (finer.columns[k] >> 1) + 2;
    starts[k + 1] = starts[k] + finer.rows[k] * columns[k];
  }
  const wet = new Int8Array(starts[count]);
  let squares = 0;
  for (let k = 0; k < count; k++) {
    const wide = finer.columns[k];
    for (let j = 0; j < finer.rows[k]; j++) {
      const from = finer.starts[k] + j * wide;
      const to = starts[k] + j * columns[k];
      for (let i = 0; i < columns[k]; i++) {
        const a = finer.wet[from + Math.min(wide - 1, Math.max(0, 2 * i - 1))];
        const b = finer.wet[from + Math.min(wide - 1, 2 * i)];
        squares += (a - b) ** 2 / 4;
        wet[to + i] = Math.round((a + b) / 2);
      }
    }
  }
  const lost = finer.lost + squares / Math.max(1, wet.length) / WET_SCALE ** 2;
  return { wet, starts, rows: finer.rows, columns, along: finer.along, across: 2 * finer.across, lost };
}
