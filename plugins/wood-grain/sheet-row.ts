import type { RowScratch } from './scratch.ts';
import type { Sheet } from './sheet.ts';

/**
 * Brings the sheet of fibres to the height of a row, cells `first` to `first + count`, each averaged
 * over a pixel where pixels are wider than cells.
 *
 * @param v     mm of the sheet.
 * @param width mm per pixel across.
 */
export function sheetRow(
  sheet: Sheet,
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
  if (cells <= 1.01) {
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
  { cells }: Sheet,
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

/** Each cell becomes the mean over `width` cells round its middle. The outermost are left as they are. */
function average(source: Float32Array, count: number, width: number, out: Float32Array): void {
  const half = (width - 1) / 2;
  const whole = Math.floor(half);
  const part = half - whole;
  for (let k = 0; k < count; k++) {
    const [from, to] = [k - whole, k + whole];
    if (from < 1 || to > count - 2) {
      out[k] = source[k];
      continue;
    }
    let sum = part * (source[from - 1] + source[to + 1]);
    for (let n = from; n <= to; n++) sum += source[n];
    out[k] = sum / width;
  }
}

function wrap(row: number, down: number): number {
  return row - Math.floor(row / down) * down;
}
