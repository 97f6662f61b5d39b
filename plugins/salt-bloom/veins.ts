import { type Arrivals, cellIndex, type FieldShape } from 'tenter';

/** mm: the width of wash between two fronts that keeps all its paint, before it is softened. */
const VEIN_WIDTH = 0.15;

/**
 * Where two fronts met before they had run out, neither could draw the paint any further: leaves it
 * there. Thins `lift` along the lines where the winner changes.
 *
 * @param strength 0 leaves no vein, 1 keeps all the paint of the vein.
 */
export function leaveVeins(
  lift: Float32Array,
  shape: FieldShape,
  arrivals: Arrivals,
  strength: number,
): void {
  const { width, height, mmPerCellX, mmPerCellY } = shape;
  // A line marks a cell on either side, whatever the cells' size: their share makes up for it.
  const kept = Math.min(1, (strength * VEIN_WIDTH) / (mmPerCellX + mmPerCellY));
  if (kept <= 0) return;
  const isMet = new Uint8Array(width * height);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const cell = column + row * width;
      const isInside = column + 1 < width && row + 1 < height;
      mark(arrivals, isMet, cell, isInside ? cell + 1 : cellIndex(shape, column + 1, row));
      mark(arrivals, isMet, cell, isInside ? cell + width : cellIndex(shape, column, row + 1));
    }
  }
  for (let k = 0; k < lift.length; k++) if (isMet[k] === 1) lift[k] *= 1 - kept;
}

function mark({ times, winners }: Arrivals, isMet: Uint8Array, one: number, other: number): void {
  if (winners[one] === winners[other] || times[one] >= 0 || times[other] >= 0) return;
  isMet[one] = 1;
  isMet[other] = 1;
}
