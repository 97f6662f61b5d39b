import { MARGIN, type RunStore } from './run-store.ts';

/** The most of a cell that may flow through one face in a step: with what spreads, two of them leave some. */
const MOST_FLOWING = 0.4;
/** The most that spreads through one. */
const MOST_SPREADING = 0.09;

/** The share of a cell's film that each face's water comes to, with its sign. */
export function sharesOfFlux({ depth, flux, share }: RunStore, count: number): void {
  for (let k = MARGIN, end = MARGIN + count; k <= end; k++) {
    const water = flux[k];
    const part = water / ((water > 0 ? depth[k - 1] : depth[k]) + 1e-3);
    share[k] = part > MOST_FLOWING ? MOST_FLOWING : Math.max(part, -MOST_FLOWING);
  }
}

/**
 * What passes each face of a paint: with the water by van Leer's limited scheme (*J. Comput. Phys.* 14,
 * 1974), and spread through it where both sides are wet. What one cell gives its neighbour receives,
 * and neither can give more than it has.
 *
 * @param passing   The share that goes along over a front into dry paper.
 * @param spreading Cells squared per step in water of depth 1.
 */
export function passPaint(run: RunStore, count: number, passing: number, spreading: number): void {
  const { depth, share, amount, passed } = run;
  for (let k = MARGIN, end = MARGIN + count; k <= end; k++) {
    const part = share[k];
    const here = amount[k - 1];
    const next = amount[k];
    const rise = next - here;
    let through = 0;
    if (part > 0) {
      const before = here - amount[k - 2];
      const both = before * rise;
      const slope = both > 0 ? (2 * both) / (before + rise) : 0;
      through = part * (here + 0.5 * (1 - part) * slope);
      if (depth[k] <= 0) through *= passing;
    } else if (part < 0) {
      const after = amount[k + 1] - next;
      const both = rise * after;
      const slope = both > 0 ? (2 * both) / (rise + after) : 0;
      through = part * (next - 0.5 * (1 + part) * slope);
      if (depth[k - 1] <= 0) through *= passing;
    }
    const a = depth[k - 1];
    const b = depth[k];
    if (a > 0 && b > 0) {
      const least = Math.min(a, b);
      const wide = spreading * least;
      const most = Math.min(wide, MOST_SPREADING);
      through += most * least * (here / (a + 0.05) - next / (b + 0.05));
    }
    passed[k] = through;
  }
}

/** Takes what passed out of the cells and into the next. */
export function movePaint({ cells, amount, passed }: RunStore, count: number, paint: Float32Array): void {
  for (let k = MARGIN, end = MARGIN + count; k < end; k++) {
    const left = amount[k] + passed[k] - passed[k + 1];
    paint[cells[k]] = Math.max(left, 0);
  }
}
