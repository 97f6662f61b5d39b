import type { RowScratch } from './scratch.ts';
import type { SheetLevel } from './sheet.ts';

/**
 * Brings a level of the sheet to the height of a row, cells `first` to `first + count`.
 *
 * @param v mm of the sheet.
 */
export function sheetRow(sheet: SheetLevel, v: number, first: number, count: number, row: RowScratch): void {
  const t = v / sheet.cellV;
  const j = Math.floor(t);
  blend(sheet, sheet.streak, j, t - j, first, count, row.streak);
  blend(sheet, sheet.jitter, j, t - j, first, count, row.jitter);
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

function wrap(row: number, down: number): number {
  return row - Math.floor(row / down) * down;
}
