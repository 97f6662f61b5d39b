import { cellIndex } from 'tenter';
import type { Quilt } from './quilt.ts';
import { FINE } from './sheet.ts';

/** A place where two pieces meet: between cell `k` and its neighbour `n` to the right or below. */
export interface Join {
  readonly k: number;
  readonly n: number;
  /** The middle of the edge between them, in fine samples of the plane. */
  readonly x: number;
  readonly y: number;
  /** The sheets of both, and what to add to a place of the plane for that of the sheet. */
  readonly pose: number;
  readonly ox: number;
  readonly oy: number;
  readonly otherPose: number;
  readonly otherX: number;
  readonly otherY: number;
}

/** All joins of a quilt, those over the seams of the box among them. */
export function joinsOf(quilt: Quilt): Join[] {
  const { shape, piece } = quilt;
  const { width, height } = shape;
  const joins: Join[] = [];
  const add = (k: number, i: number, j: number, ni: number, nj: number) => {
    const n = cellIndex(shape, ni, nj);
    const a = piece[k];
    const b = piece[n];
    const hi = n % width;
    const hj = (n - hi) / width;
    const otherX = quilt.ox[b] + FINE * (hi - ni);
    const otherY = quilt.oy[b] + FINE * (hj - nj);
    if (quilt.pose[a] === quilt.pose[b] && quilt.ox[a] === otherX && quilt.oy[a] === otherY) return;
    joins.push({
      k,
      n,
      x: (FINE * (i + ni + 1)) / 2,
      y: (FINE * (j + nj + 1)) / 2,
      pose: quilt.pose[a],
      ox: quilt.ox[a],
      oy: quilt.oy[a],
      otherPose: quilt.pose[b],
      otherX,
      otherY,
    });
  };
  for (let j = 0, k = 0; j < height; j++) {
    for (let i = 0; i < width; i++, k++) {
      add(k, i, j, i + 1, j);
      add(k, i, j, i, j + 1);
    }
  }
  return joins;
}
