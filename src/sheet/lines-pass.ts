import type { FieldLines } from '../field/lines.ts';
import { movePaint, passPaint, sharesOfFlux } from './carry.ts';
import { solveLoop, solveRun } from './film.ts';
import { openGates } from './gate.ts';
import type { SheetRates } from './rates.ts';
import { MARGIN, openRunStore, type RunStore } from './run-store.ts';
import type { Sheet } from './sheet.ts';
import { moveWays } from './ways.ts';
import { findWetRuns } from './wet-runs.ts';

/** The closed lines of a sheet along one axis, with memory to work in. */
export interface Axis {
  readonly lines: FieldLines;
  readonly isAcross: boolean;
  readonly run: RunStore;
  readonly film: Float64Array;
  readonly found: Int32Array;
}

/** What a step notes of each cell. */
export interface Notes {
  /** Water that passed its faces, in films. */
  readonly flow: Float32Array;
  /** How many of its neighbours are dry. */
  readonly dry: Uint8Array;
}

export function openAxis(lines: FieldLines, isAcross: boolean): Axis {
  const { length } = lines;
  return {
    lines,
    isAcross,
    run: openRunStore(length),
    film: new Float64Array(length),
    found: new Int32Array(length + 2),
  };
}

/** Water and paint of a sheet along one axis. */
export function passLines(
  sheet: Sheet,
  { lines, isAcross, run, film, found }: Axis,
  rates: SheetRates,
  notes: Notes,
): void {
  const { water, paper } = sheet;
  const { cells, length, count } = lines;
  const { capacity } = paper;
  for (let line = 0; line < count; line++) {
    const first = line * length;
    let wet = 0;
    for (let k = 0; k < length; k++) {
      const cell = cells[first + k];
      const above = water[cell] - capacity[cell];
      film[k] = above;
      if (above > 0) wet++;
    }
    if (wet === 0) continue;
    const ends = findWetRuns(film, length, found);
    for (let at = 0; at < ends; at += 2) {
      const size = found[at + 1];
      gatherRun(sheet, run, lines, first, found[at], size);
      passRun(sheet, run, size, size === length, isAcross, rates, notes);
    }
  }
}

/** Brings a run side by side, with what stands before and after it. */
function gatherRun(
  { water, paper }: Sheet,
  run: RunStore,
  { cells, length }: FieldLines,
  first: number,
  start: number,
  count: number,
): void {
  const { capacity, pin, ease } = paper;
  let k = (((start - MARGIN) % length) + length) % length;
  for (let n = 0, end = count + 2 * MARGIN; n < end; n++) {
    const cell = cells[first + k];
    run.cells[n] = cell;
    const above = water[cell] - capacity[cell];
    run.film[n] = above;
    run.depth[n] = Math.max(above, 0);
    run.pin[n] = pin[cell];
    run.ease[n] = ease[cell];
    if (++k === length) k = 0;
  }
}

function passRun(
  sheet: Sheet,
  run: RunStore,
  count: number,
  isLoop: boolean,
  isAcross: boolean,
  rates: SheetRates,
  notes: Notes,
): void {
  openGates(run, count, rates, isAcross ? rates.fallX : rates.fallY);
  levelFilm(sheet, run, count, isLoop, notes);
  sharesOfFlux(run, count);
  gatherPaint(run, count, sheet.afloat.amount);
  gatherWays(run, count, sheet);
  passPaint(run, count, rates.passing, rates.spreading);
  moveWays(run, count, sheet.afloat, isAcross);
  movePaint(run, count, sheet.afloat.amount);
  if (!sheet.second) return;
  gatherPaint(run, count, sheet.second.afloat);
  passPaint(run, count, rates.passing, rates.spreading);
  movePaint(run, count, sheet.second.afloat);
}

/** Water levels itself; `flux` receives all that passed. */
function levelFilm(
  { water }: Sheet,
  run: RunStore,
  count: number,
  isLoop: boolean,
  { flow, dry }: Notes,
): void {
  const { cells, film, depth, mobility, flux, right, level } = run;
  const last = MARGIN + count - 1;
  for (let k = MARGIN; k <= last; k++) right[k] = film[k] + flux[k] - flux[k + 1];
  if (isLoop) solveLoop(MARGIN, last, mobility, right, level, run);
  else solveRun(MARGIN, last, mobility, right, level, run.ratio);
  for (let k = MARGIN + 1; k <= last; k++) flux[k] += mobility[k] * (level[k - 1] - level[k]);
  if (isLoop) {
    flux[MARGIN] += mobility[MARGIN] * (level[last] - level[MARGIN]);
    flux[last + 1] = flux[MARGIN];
  }
  for (let k = MARGIN; k <= last; k++) {
    const cell = cells[k];
    const left = water[cell] + flux[k] - flux[k + 1];
    water[cell] = Math.max(left, 0);
    flow[cell] += Math.abs(flux[k]) + Math.abs(flux[k + 1]);
    if (depth[k] > 0) dry[cell] += (depth[k - 1] > 0 ? 0 : 1) + (depth[k + 1] > 0 ? 0 : 1);
  }
}

function gatherPaint({ cells, amount }: RunStore, count: number, paint: Float32Array): void {
  for (let n = 0, end = count + 2 * MARGIN; n < end; n++) amount[n] = paint[cells[n]];
}

function gatherWays({ cells, wayX, wayY, square }: RunStore, count: number, { afloat }: Sheet): void {
  for (let n = 0, end = count + 2 * MARGIN; n < end; n++) {
    const cell = cells[n];
    wayX[n] = afloat.wayX[cell];
    wayY[n] = afloat.wayY[cell];
    square[n] = afloat.square[cell];
  }
}
