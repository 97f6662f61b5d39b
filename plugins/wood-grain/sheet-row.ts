import type { RowScratch } from './scratch.ts';
import type { SheetLevel } from './sheet.ts';

/**
 * Brings the sheet of fibres to the height of a row, cells `first` to `first + count`, each averaged
 * over a pixel where pixels are wider than cells.
 *
 * @param v     mm of the sheet.
 * @param width mm per pixel across.
 */
export function sheetRow(
  sheet: SheetLevel,
  v: number,
  width: number,
  first: number,
  count: number,
  row: RowScratch,
): void {
  const { cellU, cellV } = sheet;
  const t = v / cellV;
  const j = Math.floor(t);
  const cells = width / cellU;
  if (cells <= 1) {
    blend(sheet, sheet.streak, j, t - j, first, count, row.streak);
    blend(sheet, sheet.jitter, j, t - j, first, count, row.jitter);
    return;
  }
  blend(sheet, sheet.streak, j, t - j, first, count, row.spare);
  average(row.spare, count, cells, row.streak);
  blend(sheet, sheet.jitter, j, t - j, first, count, row.spare);
  average(row.spare, count, cells, row.jitter);
}

/** Mixes rows j and j + 1 of the sheet. */
function blend(
  { cells }: SheetLevel,
  values: Float32Array,
  j: number,
  share: number,
  first: number,
  count: number,
  out: Float32Array,
): void {
  const { across, slip, down } = cells;
  for (let k = 0; k < count; ) {
    const turns = Math.floor((first + k) / across);
    const i = first + k - turns * across;
    const upper = wrap(j - turns * slip, down) * across + i;
    const lower = wrap(j + 1 - turns * slip, down) * across + i;
    const run = Math.min(count - k, across - i);
    for (let n = 0; n < run; n++) {
      const a = values[upper + n];
      out[k + n] = a + share * (values[lower + n] - a);
    }
    k += run;
  }
}

/** Each cell becomes the mean over `width` cells round its middle, 1 to 3. The outermost are left as they are. */
function average(source: Float32Array, count: number, width: number, out: Float32Array): void {
  const part = (Math.min(3, width) - 1) / 2;
  const whole = 1 / (1 + 2 * part);
  out[0] = source[0];
  out[count - 1] = source[count - 1];
  for (let k = 1; k < count - 1; k++) {
    out[k] = (source[k] + part * (source[k - 1] + source[k + 1])) * whole;
  }
}

function wrap(row: number, down: number): number {
  return row - Math.floor(row / down) * down;
}
