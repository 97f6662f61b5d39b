import { type Box, emptyField, type PeriodicField } from 'tenter';
import { type DropMaps, pullBack, type Traveller } from './compose.ts';

/** Where the paint at each place came from, mm: what moved of it, weighed against the stain that stayed. */
export interface Moved {
  readonly x: PeriodicField;
  readonly y: PeriodicField;
}

export function movedPaint(
  box: Box,
  maps: DropMaps,
  mmPerCell: number,
  progress: (done: number) => void,
): Moved {
  const x = emptyField(box, mmPerCell);
  const y = emptyField(box, mmPerCell);
  const { width, height, mmPerCellX, mmPerCellY } = x;
  const point: Traveller = { x: 0, y: 0, shiftX: 0, shiftY: 0 };
  for (let j = 0, at = 0; j < height; j++) {
    for (let i = 0; i < width; i++, at++) {
      point.x = (i + 0.5) * mmPerCellX;
      point.y = (j + 0.5) * mmPerCellY;
      point.shiftX = 0;
      point.shiftY = 0;
      pullBack(maps, point, -1);
      x.values[at] = point.shiftX;
      y.values[at] = point.shiftY;
    }
    progress(j / height);
  }
  return { x, y };
}
