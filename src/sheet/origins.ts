import type { Sheet } from './sheet.ts';

/** Where the paint that lies in each cell came from, and how much lies there. */
export interface Origins {
  /** In washes. */
  readonly load: Float32Array;
  /** mm to the right of the cell. */
  readonly x: Float32Array;
  /** mm below it. */
  readonly y: Float32Array;
  /** The standard deviation along each axis, mm. */
  readonly spread: Float32Array;
}

/** Paint so thin that it is taken to lie where it was. */
const THIN = 1e-3;

/**
 * The moments of the paint of a sheet, afloat and settled together: of the ways back m, m o and m o^2 give
 * their mean and their variance, which is shared between the two axes.
 */
export function originsOf({ shape, afloat, settled }: Sheet): Origins {
  const { mmPerCellX, mmPerCellY } = shape;
  const count = afloat.amount.length;
  const [load, x, y, spread] = Array.from({ length: 4 }, () => new Float32Array(count));
  const mm = Math.sqrt(mmPerCellX * mmPerCellY);
  for (let k = 0; k < count; k++) {
    const amount = afloat.amount[k] + settled.amount[k];
    const across = (afloat.wayX[k] + settled.wayX[k]) / (amount + THIN);
    const down = (afloat.wayY[k] + settled.wayY[k]) / (amount + THIN);
    const square = (afloat.square[k] + settled.square[k]) / (amount + THIN);
    load[k] = amount;
    x[k] = across * mmPerCellX;
    y[k] = down * mmPerCellY;
    spread[k] = mm * Math.sqrt(Math.max(0, square - across * across - down * down) / 2);
  }
  return { load, x, y, spread };
}
