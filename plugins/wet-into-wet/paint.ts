import {
  addBilinearRow,
  addFractalRow,
  type Band,
  type FractalNoise,
  fractalOnPixels,
  fractalVariance,
  type PeriodicField,
  STRIP,
  stripsOf,
  type TextureLayer,
} from 'tenter';
import type { Edge } from './edges.ts';
import type { Parted, WetModel } from './model.ts';
import { edgeLoad, loadOf } from './profile.ts';

type Planes = 'load' | 'parting' | 'shift' | 'tint' | 'bleed';

/** Rows of numbers that a band works in. */
interface Rows {
  readonly edges: Float64Array;
  readonly lobes: Float64Array;
  readonly feathers: Float64Array;
  readonly tooth: Float64Array;
  /** What settles in the hollows, as a logarithm. */
  readonly grain: Float64Array;
  readonly teeth: Float64Array;
  readonly a: Float64Array;
  readonly b: Float64Array;
  readonly settled: Float64Array;
  readonly sharpness: Float64Array;
  readonly load: Float64Array;
}

interface Brush {
  readonly model: WetModel;
  readonly lobes: FractalNoise;
  readonly feathers: FractalNoise;
  readonly tooth: FractalNoise;
  readonly rows: Rows;
  readonly step: number;
  /** The colours of the second paint's heavy pigment and of its stain by their amount, three numbers each. */
  readonly heavyInk: Float32Array;
  readonly stainInk: Float32Array;
}

const PER_AMOUNT = 64;
const LAST_AMOUNT = 6 * PER_AMOUNT;

/**
 * A transparent paint's colour to the power of its amount (Beer and Lambert), from none to six times.
 *
 * @param hues How much more of it there is in red, green and blue light.
 */
function inkTable(colour: readonly number[], hues: readonly number[]): Float32Array {
  const table = new Float32Array(3 * (LAST_AMOUNT + 1));
  for (let k = 0; k < table.length; k++)
    table[k] = Math.max(1 / 255, colour[k % 3]) ** ((1 + hues[k % 3]) * (Math.floor(k / 3) / PER_AMOUNT));
  return table;
}

/** Where in the planes a run of pixels goes. */
interface Run {
  /** mm of the first pixel that is worked out. */
  readonly x0: number;
  readonly y: number;
  /** The first pixel wanted, counted from there, and how many in all are worked out. */
  readonly skip: number;
  readonly count: number;
  /** Where the first wanted pixel stands in the band. */
  readonly at: number;
}

/** Fills the planes of a band: each pixel looks up smooth fields and draws the edges itself, so none shows its cells. */
export function paintWet(model: WetModel, band: Band, layer: TextureLayer<Planes>): void {
  const brush = openBrush(model, band.mmPerPixelX, band.mmPerPixelY, STRIP);
  for (const { x0, y: top, skip, count, height, at } of stripsOf(band, model.lattice)) {
    for (let j = 0; j < height; j++) {
      const y = (top + j + 0.5) * band.mmPerPixelY;
      paintRun(brush, layer, { x0, y, skip, count, at: at + j * band.width });
    }
  }
}

function paintRun(brush: Brush, layer: TextureLayer<Planes>, run: Run): void {
  sharedRows(brush, run.x0, run.y, run.count);
  // A layer holds only the planes that were asked for.
  if (layer.load || layer.parting || layer.tint) edgeRow(brush, run.x0, run.y, run.count);
  if (layer.load || layer.parting) loadRow(brush, run);
  if (layer.load) keepLoad(brush, run, layer.load);
  if (layer.parting && brush.model.parted) partRow(brush, brush.model.parted, run, layer.parting);
  if (layer.shift) shiftRow(brush, run, layer.shift);
  if (layer.bleed) bleedRow(brush, run, layer.bleed);
  if (layer.tint && brush.model.second) tintRow(brush, brush.model.second.amount, run, layer.tint);
}

export function openBrush(model: WetModel, mmPerPixelX: number, mmPerPixelY: number, count: number): Brush {
  const fine = (noise: FractalNoise) => fractalOnPixels(noise, mmPerPixelX, mmPerPixelY);
  const row = () => new Float64Array(count + 1);
  const colour = model.second?.colour ?? [1, 1, 1];
  const hues = model.parted?.hues ?? [0, 0, 0];
  return {
    model,
    lobes: fine(model.lobes),
    feathers: fine(model.feathers),
    tooth: fine(model.tooth),
    rows: {
      edges: row(),
      lobes: row(),
      feathers: row(),
      tooth: row(),
      grain: row(),
      teeth: row(),
      a: row(),
      b: row(),
      settled: row(),
      sharpness: row(),
      load: row(),
    },
    step: mmPerPixelX,
    heavyInk: inkTable(colour, hues),
    stainInk: inkTable(
      colour,
      hues.map((hue) => -hue),
    ),
  };
}

/** Hollows are deeper than hills are high. */
const PITTED = 0.22;

/** The rows that several planes share. */
export function sharedRows(
  { model, lobes, feathers, tooth, rows, step }: Brush,
  x0: number,
  y: number,
  count: number,
): void {
  for (const [noise, row] of [
    [lobes, rows.lobes],
    [feathers, rows.feathers],
    [tooth, rows.tooth],
  ] as const) {
    row.fill(0, 0, count);
    addFractalRow(noise, x0, step, y, 1, row, count);
  }
  rows.sharpness.fill(0, 0, count);
  addBilinearRow(model.sharpness, x0, step, y, 1, rows.sharpness, count);
  rows.settled.fill(0, 0, count);
  addBilinearRow(model.settled, x0, step, y, 1, rows.settled, count);
  const { tooth: hollow, grain, settled } = rows;
  const shown = fractalVariance(tooth);
  for (let k = 0; k < count; k++)
    grain[k] = settled[k] * (hollow[k] + PITTED * (hollow[k] * hollow[k] - shown));
}

/** What the fronts leave, as a logarithm, in `rows.edges`. */
export function edgeRow({ model, rows, step }: Brush, x0: number, y: number, count: number): void {
  const sum = rows.edges.fill(0, 0, count);
  const teeth = rows.teeth.fill(0, 0, count);
  addBilinearRow(model.teeth, x0, step, y, 1, teeth, count);
  for (const edge of model.edges) {
    const strength = rows.b.fill(0, 0, count);
    addBilinearRow(edge.strength, x0, step, y, 1, strength, count);
    if (!isAny(strength, count)) continue;
    const level = rows.a.fill(0, 0, count);
    // Its creases between cells are lost in the feathers.
    addBilinearRow(edge.level, x0, step, y, 1, level, count);
    addEdge(rows, sum, level, strength, edge, count);
  }
}

/** mm that edges stray in the tooth of the paper. */
const STRAY = 0.13;
/** Beyond this the first order is no longer to be trusted. */
const MOST_STRAYED = 0.5;

export function loadRow(
  { model, rows, step }: Brush,
  { x0, y, skip, count }: Pick<Run, 'x0' | 'y' | 'skip' | 'count'>,
): void {
  const base = rows.a.fill(0, 0, count + 1);
  const below = rows.b.fill(0, 0, count);
  addBilinearRow(model.base, x0, step, y, 1, base, count + 1);
  addBilinearRow(model.base, x0, step, y + step, 1, below, count);
  const { grain, edges, load, feathers, tooth } = rows;
  const per = STRAY / step;
  const { level } = model;
  for (let k = skip; k < count; k++) {
    const here = base[k];
    const across = (base[k + 1] - here) * (feathers[k] + 0.6 * tooth[k]);
    const strayed = per * (across + (below[k] - here) * (tooth[k] - 0.6 * feathers[k]));
    const kept = strayed > MOST_STRAYED ? MOST_STRAYED : Math.max(strayed, -MOST_STRAYED);
    load[k] = loadOf(level + here + kept + edges[k] + grain[k]);
  }
}

function keepLoad({ rows: { load: row } }: Brush, { skip, count, at }: Run, load: Float32Array): void {
  for (let k = skip, to = at; k < count; k++, to++) load[to] = row[k];
}

/** Heavy paint stays where water ran back, per unit of what was cleared; stain is swept into the fringe. */
const IN_BACK_RUN = 0.8;
const IN_FRINGE = 1.1;
/** How much farther heavy paint settles in the hollows than stain does, of what both settle together. */
const GRAIN = 0.7;
/** How far heavy paint may outweigh the stain, of what both come to; the strongest hue leaves some of each then. */
const MOST_PARTED = 1.5;

/** How much more heavy pigment than stain there is along a row, of load 1 each, in `rows.a`. */
export function heavyRow({ rows, step }: Brush, parted: Parted, x0: number, y: number, count: number): void {
  const heavy = rows.a.fill(0, 0, count);
  addBilinearRow(parted.heavy, x0, step, y, 2, heavy, count);
  const { grain, edges, load } = rows;
  for (let k = 0; k < count; k++) {
    const ran = edges[k] < 0 ? IN_BACK_RUN : IN_FRINGE;
    const more = heavy[k] - ran * edges[k] + GRAIN * grain[k];
    heavy[k] = load[k] * (Math.max(-MOST_PARTED, Math.min(MOST_PARTED, more)) + parted.level);
  }
}

function partRow(brush: Brush, parted: Parted, { x0, y, skip, count, at }: Run, parting: Float32Array): void {
  heavyRow(brush, parted, x0, y, count);
  const heavy = brush.rows.a;
  const [red, green, blue] = parted.hues;
  for (let k = skip, to = 3 * at; k < count; k++, to += 3) {
    parting[to] = red * heavy[k];
    parting[to + 1] = green * heavy[k];
    parting[to + 2] = blue * heavy[k];
  }
}

function isAny(row: Float64Array, count: number): boolean {
  for (let k = 0; k < count; k++) if (row[k] !== 0) return true;
  return false;
}

/** Lobes swell outward and meet in creases: the outline of a back-run. */
function addEdge(
  { lobes, feathers, teeth, sharpness }: Rows,
  sum: Float64Array,
  level: Float64Array,
  strength: Float64Array,
  { crinkle, crisp }: Edge,
  count: number,
): void {
  for (let k = 0; k < count; k++) {
    if (strength[k] === 0) continue;
    const u = level[k] + crinkle * teeth[k] * (Math.abs(lobes[k]) - 0.7 + 0.28 * feathers[k]);
    sum[k] += strength[k] * edgeLoad(u * crisp * sharpness[k]);
  }
}

/** mm that the artwork's own edges fray. */
const FRAY = 0.045;

function shiftRow({ model, rows, step }: Brush, { x0, y, skip, count, at }: Run, shift: Float32Array): void {
  const dx = rows.a.fill(0, 0, count);
  const dy = rows.b.fill(0, 0, count);
  addBilinearRow(model.moveX, x0, step, y, 1, dx, count);
  addBilinearRow(model.moveY, x0, step, y, 1, dy, count);
  const { feathers, tooth } = rows;
  for (let k = skip, to = 2 * at; k < count; k++, to += 2) {
    shift[to] = dx[k] + FRAY * (feathers[k] + 0.6 * tooth[k]);
    shift[to + 1] = dy[k] + FRAY * (tooth[k] - 0.6 * feathers[k]);
  }
}

function bleedRow({ model, rows, step }: Brush, { x0, y, skip, count, at }: Run, bleed: Float32Array): void {
  const spread = rows.a.fill(0, 0, count);
  addBilinearRow(model.bleed, x0, step, y, 1, spread, count);
  for (let k = skip, to = at; k < count; k++, to++) bleed[to] = Math.max(spread[k], 0);
}

/** How far the heavy pigment of the second paint may outweigh its stain. */
const MOST_HEAVY = 0.9;

function tintRow(
  { model, rows, step: mm, heavyInk, stainInk }: Brush,
  amount: PeriodicField,
  { x0, y, skip, count, at }: Run,
  tint: Float32Array,
): void {
  const sum = rows.a.fill(0, 0, count);
  addBilinearRow(amount, x0, mm, y, 1, sum, count);
  const heavy = rows.b.fill(0, 0, count);
  if (model.parted) addBilinearRow(model.parted.heavy, x0, mm, y, 1.6, heavy, count);
  const { grain, edges } = rows;
  for (let k = skip, to = 4 * at; k < count; k++, to += 4) {
    tint[to] = tint[to + 1] = tint[to + 2] = tint[to + 3] = 1;
    if (sum[k] <= 0) continue;
    const there = sum[k] * loadOf(0.75 * edges[k] + grain[k]);
    const share = 0.5 * Math.max(-MOST_HEAVY, Math.min(MOST_HEAVY, heavy[k] + GRAIN * grain[k]));
    lay(heavyInk, there * (0.5 + share), tint, to);
    lay(stainInk, there * (0.5 - share), tint, to);
  }
}

/** Multiplies a colour by that of an ink, straight between the amounts of its table. */
function lay(ink: Float32Array, amount: number, tint: Float32Array, to: number): void {
  // More than the table holds is as good as all.
  const at = Math.min(amount * PER_AMOUNT, LAST_AMOUNT - 1e-3);
  const step = at | 0;
  const share = at - step;
  const entry = 3 * step;
  tint[to] *= ink[entry] + share * (ink[entry + 3] - ink[entry]);
  tint[to + 1] *= ink[entry + 1] + share * (ink[entry + 4] - ink[entry + 1]);
  tint[to + 2] *= ink[entry + 2] + share * (ink[entry + 5] - ink[entry + 2]);
}
