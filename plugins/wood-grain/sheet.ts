import { type CellLattice, cellLattice, type RandomStream } from 'tenter';
import type { Detail } from './piece.ts';

/**
 * A sheet of fibres: two numbers of mean 0 and variance 1 per small cell, drawn out along the grain,
 * closing over a lattice of its own. Each further level has cells twice as wide, for larger pixels.
 * Plain data.
 */
export interface Sheet {
  readonly levels: readonly SheetLevel[];
}

/** Cell (i, j), wrapped, stands at i + j * cells.across; its middle lies at u = (i + lead) * cellU. */
export interface SheetLevel {
  readonly cells: CellLattice;
  /** mm */
  readonly cellU: number;
  readonly cellV: number;
  readonly lead: number;
  /** Lightness of the fibres. */
  readonly streak: Float32Array;
  /** How far single fibres lead or lag the growth surface. */
  readonly jitter: Float32Array;
}

/** One octave: fibres about `width` mm wide and `length` mm long, with their share of the variance. */
export interface Octave {
  readonly width: number;
  readonly length: number;
  readonly share: number;
}

export interface SheetHabit {
  readonly streak: readonly Octave[];
  readonly jitter: readonly Octave[];
}

/** Cells of a sheet, mm: a pixel and a half at 300 dpi across the grain. */
const CELL_U = 0.125;
const CELL_V = 1.5;

/** Cells with sides along u and v over a detail lattice, in whole numbers that suit its shear. */
export function uprightCells(
  { lattice, stepU, stepV }: Detail,
  cellU: number,
  cellV: number,
): { readonly cells: CellLattice; readonly cellU: number; readonly cellV: number } {
  const across = Math.max(1, Math.round(lattice.ax / cellU / stepU)) * stepU;
  const down = Math.max(1, Math.round(lattice.by / cellV / stepV)) * stepV;
  const exact = { along: lattice.ax / across, across: lattice.by / down };
  return { cells: cellLattice(lattice, exact), cellU: exact.along, cellV: exact.across };
}

/** The sheet of a habit over a detail lattice. */
export function fibreSheet(detail: Detail, habit: SheetHabit, random: RandomStream): Sheet {
  const divisible = { ...detail, stepU: detail.stepU * 2 ** (LEVELS - 1) };
  const { cells, cellU, cellV } = uprightCells(divisible, CELL_U, CELL_V);
  const channel = (octaves: readonly Octave[]) => {
    const sum = new Float32Array(cells.across * cells.down);
    for (const octave of octaves) addOctave(sum, cells, cellU, cellV, octave, random);
    return sum;
  };
  const levels: SheetLevel[] = [
    { cells, cellU, cellV, lead: 0, streak: channel(habit.streak), jitter: channel(habit.jitter) },
  ];
  while (levels.length < LEVELS) levels.push(halve(levels[levels.length - 1]));
  return { levels };
}

/** Levels of a sheet: the widest cells are 2 mm, a pixel at 13 dpi. */
const LEVELS = 5;

function halve({ cells, cellU, cellV, lead, streak, jitter }: SheetLevel): SheetLevel {
  const pairs = (values: Float32Array) =>
    Float32Array.from({ length: values.length / 2 }, (_, k) => (values[2 * k] + values[2 * k + 1]) / 2);
  return {
    cells: { ...cells, across: cells.across / 2 },
    cellU: cellU * 2,
    cellV,
    lead: (lead + 0.5) / 2,
    streak: pairs(streak),
    jitter: pairs(jitter),
  };
}

/**
 * The level with the widest cells that a pixel still covers. Reading it straight between the middles
 * of cells then leaves 0.92 to 1.07 of the deviation that an exact mean over the pixel would.
 */
export function levelFor({ levels }: Sheet, mmPerPixel: number): SheetLevel {
  return levels.findLast(({ cellU }) => cellU <= mmPerPixel * 1.0001) ?? levels[0];
}

/** Adds a smoothed random walk along each column of cells: fibres of many lengths, with ends. */
function addOctave(
  sum: Float32Array,
  cells: CellLattice,
  cellU: number,
  cellV: number,
  { width, length, share }: Octave,
  random: RandomStream,
): void {
  const { across, down } = cells;
  const field = whiteNoise(across * down, random);
  const keep = Math.exp(-cellV / length);
  // Two laps: the second starts from where the first ended, so that the loop closes.
  const state = new Float32Array(across);
  for (let lap = 0; lap < 2; lap++) {
    for (let j = 0; j < down; j++) {
      for (let i = 0, k = j * across; i < across; i++, k++) {
        state[i] = keep * state[i] + (1 - keep) * field[k];
        if (lap === 1) field[k] = state[i];
      }
    }
  }
  const radius = Math.min(Math.round(width / cellU / 2 - 0.5), (across - 1) >> 1);
  for (let pass = 0; pass < 2; pass++) blurAcross(field, cells, radius);
  let power = 0;
  for (const value of field) power += value * value;
  const gain = Math.sqrt(share / Math.max(1e-12, power / field.length));
  for (let k = 0; k < sum.length; k++) sum[k] += gain * field[k];
}

/** A running mean over 2 * radius + 1 cells of each row, round the torus. */
function blurAcross(field: Float32Array, { across, slip, down }: CellLattice, radius: number): void {
  if (radius < 1) return;
  const source = Float32Array.from(field);
  const line = new Float32Array(across + 2 * radius);
  for (let j = 0; j < down; j++) {
    const before = ((j + slip) % down) * across;
    const after = ((j - slip + down) % down) * across;
    line.set(source.subarray(before + across - radius, before + across), 0);
    line.set(source.subarray(j * across, (j + 1) * across), radius);
    line.set(source.subarray(after, after + radius), radius + across);
    let total = 0;
    for (let k = 0; k < 2 * radius; k++) total += line[k];
    for (let i = 0; i < across; i++) {
      total += line[i + 2 * radius];
      field[i + j * across] = total / (2 * radius + 1);
      total -= line[i];
    }
  }
}

/** Uniform in -1..1 by xorshift32 (G. Marsaglia, *Xorshift RNGs*, 2003), seeded from the stream. */
function whiteNoise(count: number, random: RandomStream): Float32Array {
  const noise = new Float32Array(count);
  let x = random.bits() | 1;
  for (let k = 0; k < count; k++) {
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    noise[k] = x / 2147483648;
  }
  return noise;
}
