import type { WoodModel } from './model.ts';
import { type NodeGrid, splineSlopes, splineWeights } from './nodes.ts';
import type { RowScratch } from './scratch.ts';

/** Brings the nodes to the height of a row: what is left is one spline along it. `v` in the piece's own mm. */
export function nodeRow(
  model: WoodModel,
  grid: NodeGrid,
  v: number,
  row: RowScratch,
  c0: number,
  c1: number,
): void {
  const { nodes } = model;
  const t = (v - grid.v0) * grid.perMmV;
  const r = Math.max(1, Math.min(grid.rows - 3, Math.floor(t)));
  const { weights, slopes } = row;
  splineWeights(t - r, weights);
  splineSlopes(t - r, slopes);
  const [w0, w1, w2, w3] = weights;
  const perMm = grid.perMmV;
  const [s0, s1, s2, s3] = [slopes[0] * perMm, slopes[1] * perMm, slopes[2] * perMm, slopes[3] * perMm];
  const k0 = grid.base + (r - 1) * grid.columns;
  const n = grid.columns;
  const { radius, wash, drift, ray } = nodes;
  const hasRays = ray.length > 0;
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let c = c0; c < c1; c++) {
    const a = k0 + c;
    const [b, d, e] = [a + n, a + 2 * n, a + 3 * n];
    const [ra, rb, rd, re] = [radius[a], radius[b], radius[d], radius[e]];
    row.radius[c] = w0 * ra + w1 * rb + w2 * rd + w3 * re;
    row.climb[c] = s0 * ra + s1 * rb + s2 * rd + s3 * re;
    row.wash[c] = w0 * wash[a] + w1 * wash[b] + w2 * wash[d] + w3 * wash[e];
    const aside = w0 * drift[a] + w1 * drift[b] + w2 * drift[d] + w3 * drift[e];
    row.drift[c] = aside;
    if (aside < low) low = aside;
    if (aside > high) high = aside;
    if (hasRays) row.ray[c] = w0 * ray[a] + w1 * ray[b] + w2 * ray[d] + w3 * ray[e];
  }
  row.driftLow = low;
  row.driftHigh = high;
}
