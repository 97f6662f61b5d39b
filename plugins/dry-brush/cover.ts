import { type Box, cellIndex, emptyField, type PeriodicField } from 'tenter';
import type { Stroke } from './model.ts';

/** A field of at most this many cells tells well enough where the page is bare. */
const MOST_CELLS = 400_000;

/** How often each place of the page has been painted: nowhere yet. */
export function openCover(box: Box, mmPerCell: number): PeriodicField {
  return emptyField(box, Math.max(mmPerCell, Math.sqrt((box.width * box.height) / MOST_CELLS)));
}

/** How often the places under a stroke have been painted, on average; bare places count most. */
export function paintUnder(cover: PeriodicField, stroke: Stroke): number {
  let sum = 0;
  let count = 0;
  visitCells(cover, stroke, (cell) => {
    sum += Math.min(2, cover.values[cell]);
    count++;
  });
  return count > 0 ? sum / count : 0;
}

export function addPaint(cover: PeriodicField, stroke: Stroke): void {
  visitCells(cover, stroke, (cell) => {
    cover.values[cell]++;
  });
}

/** Every cell along the stroke's line, as wide as the stroke: steps of one cell. */
function visitCells(cover: PeriodicField, stroke: Stroke, visit: (cell: number) => void): void {
  const { mmPerCellX, mmPerCellY } = cover;
  const { cos, sin, length, width, curve } = stroke;
  const step = Math.max(mmPerCellX, mmPerCellY);
  const along = Math.max(1, Math.round(length / step));
  const across = Math.max(1, Math.round(width / step));
  for (let a = 0; a < along; a++) {
    const u = ((a + 0.5) / along - 0.5) * length;
    const bow = curve[0] + u * (curve[1] + u * (curve[2] + u * curve[3]));
    for (let b = 0; b < across; b++) {
      const v = bow + ((b + 0.5) / across - 0.5) * width;
      const i = Math.floor((stroke.x + u * cos - v * sin) / mmPerCellX);
      const j = Math.floor((stroke.y + u * sin + v * cos) / mmPerCellY);
      visit(cellIndex(cover, i, j));
    }
  }
}
