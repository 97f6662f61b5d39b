import {
  addBicubicRow,
  addBilinearRow,
  addFractalRow,
  type Band,
  type FractalNoise,
  fractalOnPixels,
  fractalVariance,
  SHARE_LAST,
  SHARE_MIDDLE,
  SHARE_SCALE,
  SHARES,
  STRIP,
  type Strip,
  stripsOf,
  type TextureLayer,
} from 'tenter';
import { type CrackedRow, crackRow, FlakeFinder } from './crack-row.ts';
import type { WornModel } from './model.ts';
import { drawScratches } from './scratches.ts';
import { weaveRow } from './threads.ts';
import { UNTOUCHED } from './wear.ts';

/** What pixels of one size show of a model. */
interface View {
  readonly tooth: FractalNoise;
  readonly streaks: FractalNoise;
  /** How much of the weave is seen, 0..1. */
  readonly weave: number;
  /** Deviation over which paint ends, what the pixels hide with it. */
  readonly soft: number;
}

/** Fills the load of a band. */
export function paintWorn(model: WornModel, band: Band, layer: TextureLayer<'load'>): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  const view = openView(model, mmPerPixelX, mmPerPixelY);
  const rows = openRows();
  for (const strip of stripsOf(band, model.lattice)) {
    const depths = scratchesOver(model, strip, band);
    for (let j = 0; j < strip.height; j++) {
      const y = (strip.y + j + 0.5) * mmPerPixelY;
      fillRows(model, view, rows, strip, mmPerPixelX, y);
      if (depths) addScratches(rows.wear, depths, strip.count, j);
      wearRow(model, view, rows, strip, layer.load, strip.at + j * band.width);
    }
  }
}

function openView(model: WornModel, mmX: number, mmY: number): View {
  const { threads, parts } = model;
  const tooth = fractalOnPixels(model.tooth, mmX, mmY);
  const streaks = fractalOnPixels(model.streaks, mmX, mmY);
  const weave = threads
    ? meanOfWave(mmX / threads.grid.mmPerCellX) * meanOfWave(mmY / threads.grid.mmPerCellY)
    : 0;
  const hidden =
    parts.threads ** 2 * (1 - weave ** 2) +
    parts.tooth ** 2 * (1 - fractalVariance(tooth) / fractalVariance(model.tooth)) +
    parts.streaks ** 2 * (1 - fractalVariance(streaks) / fractalVariance(model.streaks));
  return {
    tooth,
    streaks,
    weave,
    soft: Math.sqrt(model.soft ** 2 + Math.max(0, hidden)),
  };
}

/** How much of a wave is left in the mean over so many of its lengths. */
function meanOfWave(lengths: number): number {
  if (lengths >= 1) return 0;
  const angle = Math.PI * lengths;
  return Math.sin(angle) / angle;
}

type Rows = ReturnType<typeof openRows>;

function openRows() {
  const row = () => new Float32Array(STRIP);
  return {
    wear: row(),
    left: row(),
    height: row(),
    weave: row(),
    endsWander: row(),
    picksWander: row(),
    bendS: row(),
    bendT: row(),
    gone: row(),
    finder: undefined as FlakeFinder | undefined,
  };
}

function fillRows(model: WornModel, view: View, rows: Rows, { x0, count }: Strip, mm: number, y: number) {
  const { threads, parts, flakes } = model;
  const { wear, left, height, weave } = rows;
  addBicubicRow(model.wear, x0, mm, y, 1, wear.fill(0, 0, count), count);
  addBilinearRow(model.left, x0, mm, y, 1, left.fill(0, 0, count), count);
  addFractalRow(view.tooth, x0, mm, y, parts.tooth, height.fill(0, 0, count), count);
  addFractalRow(view.streaks, x0, mm, y, parts.streaks, height, count);
  if (threads && view.weave > 0.01) {
    addBilinearRow(threads.endsWander, x0, mm, y, 1, rows.endsWander.fill(0, 0, count), count);
    addBilinearRow(threads.picksWander, x0, mm, y, 1, rows.picksWander.fill(0, 0, count), count);
    weaveRow(threads, rows, x0, mm, y, count, view.weave, weave);
    for (let k = 0; k < count; k++) height[k] += parts.threads * weave[k];
  }
  if (!flakes) return;
  addFractalRow(flakes.bendS, x0, mm, y, 1, rows.bendS.fill(0, 0, count), count);
  addFractalRow(flakes.bendT, x0, mm, y, 1, rows.bendT.fill(0, 0, count), count);
  rows.finder ??= new FlakeFinder(flakes);
  crackRow(flakes, rows.finder, rows as CrackedRow, x0, mm, y, count);
}

function scratchesOver({ scratches, lattice }: WornModel, { x0, y, count, height }: Strip, band: Band) {
  if (scratches.length === 0) return undefined;
  const { mmPerPixelX: mmX, mmPerPixelY: mmY } = band;
  const depths = new Float32Array(count * height);
  drawScratches(scratches, lattice, { depths, x0, y0: (y + 0.5) * mmY, width: count, height, mmX, mmY });
  return depths;
}

function addScratches(wear: Float32Array, depths: Float32Array, count: number, j: number) {
  for (let k = 0; k < count; k++) wear[k] += depths[j * count + k];
}

function wearRow(
  { bare, wash, flakes }: WornModel,
  { soft }: View,
  { wear, left, height, gone }: Rows,
  { skip, count }: Strip,
  load: Float32Array,
  at: number,
): void {
  const scale = SHARE_SCALE / soft;
  for (let k = skip, to = at; k < count; k++, to++) {
    const entry = Math.max(0, Math.min(SHARE_LAST, ((wear[k] + height[k]) * scale + SHARE_MIDDLE) | 0));
    // What nobody touched has lost nothing, however high it stands.
    const touched = Math.max(0, Math.min(1, 1.4 * (wear[k] - UNTOUCHED)));
    const kept = 1 - touched * SHARES[entry];
    const whole = flakes ? kept * (1 - gone[k]) : kept;
    const paint = left[k] - wash * height[k];
    load[to] = Math.max(0, Math.min(1, paint)) * (1 - bare * (1 - whole));
  }
}
