import {
  addBicubicRow,
  addFractalRow,
  addInRuns,
  type Band,
  type FractalNoise,
  fractalOnPixels,
  type HomePart,
  homeParts,
  runLength,
  type TextureLayer,
} from 'tenter';
import { drawCracks, type Sheet } from './cracks.ts';
import { type DyeTable, dyeTable, TABLE_LAST, TABLE_SCALE } from './dye-table.ts';
import type { WaxModel } from './model.ts';

/**
 * How unevenly dye creeps from thread to thread, and how unevenly a crack takes it: the cloth is seen in every
 * crack, and in a cloud of dye no more than there.
 */
const CREEP = 0.07;
const TAKE = 0.34;
/** What an even thread leaves of `TAKE`: only threads that stand higher than it are dyed in full. */
const EVEN = 0.4;

export function paintWax(model: WaxModel, band: Band, layer: TextureLayer<'tint' | 'load'>): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  const onPixels = (noise: FractalNoise) => fractalOnPixels(noise, mmPerPixelX, mmPerPixelY);
  const [frayX, frayY] = model.fray.map(onPixels);
  const threads = onPixels(model.threads);
  const row = new Float32Array(runLength(band.width));
  const table = dyeTable(model.dye, model.strength);
  for (const part of homeParts(band, model.lattice)) {
    const sheet = openSheet(part);
    fillRows(frayX, part, band, row, sheet.moveX);
    fillRows(frayY, part, band, row, sheet.moveY);
    drawCracks(model, part, band, sheet);
    fillRows(threads, part, band, row, sheet.moveX);
    for (let j = 0; j < part.height; j++) {
      const from = addInRuns(part.x, part.width, row, (pixel, count, offset) =>
        addBicubicRow(
          model.bleed,
          (pixel + 0.5) * mmPerPixelX,
          mmPerPixelX,
          (part.y + j + 0.5) * mmPerPixelY,
          1,
          row,
          count,
          offset,
        ),
      );
      const at = part.at + j * band.width;
      // A layer holds only the planes that were asked for.
      if (layer.tint) tintRow(sheet, j * part.width, part.width, row, from, table, layer.tint, at);
      if (layer.load) bleachRow(sheet, j * part.width, part.width, row, from, model.strength, layer.load, at);
    }
  }
}

function openSheet({ width, height }: HomePart): Sheet {
  const size = width * height;
  return {
    moveX: new Float32Array(size),
    moveY: new Float32Array(size),
    dyed: new Float32Array(size),
  };
}

function fillRows(
  noise: FractalNoise,
  part: HomePart,
  band: Band,
  row: Float32Array,
  to: Float32Array,
): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  for (let j = 0; j < part.height; j++) {
    const y = (part.y + j + 0.5) * mmPerPixelY;
    const from = addInRuns(part.x, part.width, row, (pixel, count, offset) =>
      addFractalRow(noise, (pixel + 0.5) * mmPerPixelX, mmPerPixelX, y, 1, row, count, offset),
    );
    to.set(row.subarray(from, from + part.width), j * part.width);
  }
}

/** In a crack the dye stands at full strength over a share of the pixel; what crept lies thinner, as in a glaze. */
function tintRow(
  { moveX: threads, dyed }: Sheet,
  first: number,
  count: number,
  bleed: Float32Array,
  from: number,
  { glaze, full }: DyeTable,
  tint: Float32Array,
  at: number,
): void {
  for (let i = 0, k = first, to = 4 * at; i < count; i++, k++, to += 4) {
    const thread = threads[k];
    const crept = Math.max(0, bleed[from + i] * (1 + CREEP * thread));
    const share = taken(dyed[k], thread);
    const entry = 3 * Math.min(TABLE_LAST, (crept * TABLE_SCALE) | 0);
    tint[to] = glaze[entry] * (1 - share * full[0]);
    tint[to + 1] = glaze[entry + 1] * (1 - share * full[1]);
    tint[to + 2] = glaze[entry + 2] * (1 - share * full[2]);
    tint[to + 3] = 1;
  }
}

/** How much of its dye a crack gives to a thread. */
function taken(dyed: number, thread: number): number {
  return Math.min(1, Math.max(0, dyed * Math.min(1, 1 + TAKE * (thread - EVEN))));
}

function bleachRow(
  { moveX: threads, dyed }: Sheet,
  first: number,
  count: number,
  bleed: Float32Array,
  from: number,
  strength: number,
  load: Float32Array,
  at: number,
): void {
  for (let i = 0, k = first; i < count; i++, k++) {
    const thread = threads[k];
    const crept = Math.min(0.9, Math.max(0, bleed[from + i] * (1 + CREEP * thread)));
    const share = taken(dyed[k], thread);
    load[at + i] = (1 - strength * share) * (1 - strength * crept);
  }
}
