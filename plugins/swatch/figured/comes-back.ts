import { shortestWay } from 'tenter';
import { latticeInMm, type Quilt } from './quilt.ts';
import { FINE } from './sheet.ts';

/** A part of more than so many cells a side, hundredths of the swatch's, is large enough to be known again; nearer than that it goes on a little aside. */
const PART = 6;

/** How soon and how often the swatch is seen again. */
export interface ComesBack {
  /** mm between the two nearest places that show the same part of the swatch, the repeat itself not counted; infinite where none do. */
  readonly nearest: number;
  /** How often the cell that is seen most is seen. */
  readonly most: number;
  /** The part of the swatch's cells that is seen at all, 0..1. */
  readonly shown: number;
}

/** Looks through all cells of the swatch. */
export function comesBack(quilt: Quilt): ComesBack {
  const { shape, piece, pose, ox, oy, sheets } = quilt;
  const { mmPerCellX, mmPerCellY } = shape;
  const inMm = latticeInMm(shape);
  const uses = sheets.map(({ width, height }) =>
    Array.from({ length: Math.ceil(width / FINE) * Math.ceil(height / FINE) }, (): number[] => []),
  );
  for (let cell = 0; cell < piece.length; cell++) {
    const own = piece[cell];
    const i = cell % shape.width;
    const j = (cell - i) / shape.width;
    const across = Math.ceil(sheets[pose[own]].width / FINE);
    uses[pose[own]][i + Math.floor(ox[own] / FINE) + (j + Math.floor(oy[own] / FINE)) * across].push(own);
  }
  const seen = new Uint16Array(pose.length ** 2);
  let nearest = Number.POSITIVE_INFINITY;
  let most = 0;
  let shown = 0;
  for (const places of uses.flat()) {
    most = Math.max(most, places.length);
    if (places.length > 0) shown++;
    for (let a = 1; a < places.length; a++) {
      for (let b = 0; b < a; b++) {
        const pair = Math.max(places[a], places[b]) * pose.length + Math.min(places[a], places[b]);
        if (seen[pair]++ !== PART * PART) continue;
        const dx = ((ox[places[a]] - ox[places[b]]) / FINE) * mmPerCellX;
        const dy = ((oy[places[a]] - oy[places[b]]) / FINE) * mmPerCellY;
        const far = Math.hypot(...shortestWay(inMm, dx, dy));
        if (far > PART * Math.max(mmPerCellX, mmPerCellY)) nearest = Math.min(nearest, far);
      }
    }
  }
  return { nearest, most, shown: shown / uses.reduce((sum, { length }) => sum + length, 0) };
}
