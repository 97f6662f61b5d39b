import { cellIndex, type FieldShape } from 'tenter';
import type { Model } from './model.ts';
import type { Quilt } from './quilt.ts';
import { FINE } from './sheet.ts';

/** The pieces of a quilt in a frame of copies, and where each shows the swatch. */
export function mapOf(quilt: Quilt, shape: FieldShape): Pick<Model, 'piece' | 'places'> {
  const { width, height, mmPerCellX, mmPerCellY } = shape;
  const stride = width + 2;
  const piece = new Int32Array(stride * (height + 2));
  const places: number[] = [];
  const known = new Map<string, number>();
  for (let j = -1; j <= height; j++) {
    for (let i = -1; i <= width; i++) {
      const cell = cellIndex(shape, i, j);
      const hi = cell % width;
      const hj = (cell - hi) / width;
      const own = quilt.piece[cell];
      const ox = quilt.ox[own] + FINE * (hi - i);
      const oy = quilt.oy[own] + FINE * (hj - j);
      const key = `${quilt.pose[own]},${ox},${oy}`;
      let index = known.get(key);
      if (index === undefined) {
        index = places.length / 6;
        known.set(key, index);
        const { xu, xv, yu, yv, x0, y0 } = quilt.sheets[quilt.pose[own]].pose;
        const du = (ox * mmPerCellX) / FINE;
        const dv = (oy * mmPerCellY) / FINE;
        places.push(xu, xv, xu * du + xv * dv + x0, yu, yv, yu * du + yv * dv + y0);
      }
      piece[i + 1 + (j + 1) * stride] = index;
    }
  }
  return { piece, places: Float64Array.from(places) };
}
