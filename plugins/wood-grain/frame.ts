import type { Band, Lattice } from 'tenter';

/** A band in the grain's frame: u across the grain, v along it, in whole pixels of the infinite plane. */
export interface GrainBand {
  readonly u: number;
  readonly v: number;
  readonly width: number;
  readonly height: number;
  readonly mmU: number;
  readonly mmV: number;
  /** How far apart neighbours in u and in v stand in the planes, in pixels. */
  readonly strideU: number;
  readonly strideV: number;
}

export function grainBand(band: Band, isAcross: boolean): GrainBand {
  if (isAcross) {
    return {
      u: band.y,
      v: band.x,
      width: band.height,
      height: band.width,
      mmU: band.mmPerPixelY,
      mmV: band.mmPerPixelX,
      strideU: band.width,
      strideV: 1,
    };
  }
  return {
    u: band.x,
    v: band.y,
    width: band.width,
    height: band.height,
    mmU: band.mmPerPixelX,
    mmV: band.mmPerPixelY,
    strideU: 1,
    strideV: band.width,
  };
}

/**
 * A part of a band that lies in one copy of the box, with its pixels counted from that copy's corner:
 * the same place of the pattern has the same numbers in every copy, so that its bytes are the same.
 */
export interface Window {
  /** Pixels of the box: i0 <= i < i1 across, j0 <= j < j1 along. Whole where the lattice is. */
  readonly i0: number;
  readonly i1: number;
  readonly j0: number;
  readonly j1: number;
  /** Where pixel (i0, j0) stands in the planes. */
  readonly at: number;
}

/** Cuts a band into windows. */
export function windowsOf(band: GrainBand, lattice: Lattice): Window[] {
  const ax = settle(lattice.ax / band.mmU);
  const bx = settle(lattice.bx / band.mmU);
  const ay = settle(lattice.ay / band.mmV);
  const by = settle(lattice.by / band.mmV);
  const windows: Window[] = [];
  const add = (u0: number, u1: number, v0: number, v1: number, offU: number, offV: number) => {
    const at = (u0 - band.u) * band.strideU + (v0 - band.v) * band.strideV;
    windows.push({ i0: u0 - offU, i1: u1 - offU, j0: v0 - offV, j1: v1 - offV, at });
  };
  if (bx === 0) {
    for (const [u0, u1, n] of copies(band.u, band.width, ax, 0)) {
      for (const [v0, v1, m] of copies(band.v, band.height, by, n * ay)) {
        add(u0, u1, v0, v1, n * ax, n * ay + m * by);
      }
    }
  } else {
    for (const [v0, v1, m] of copies(band.v, band.height, by, 0)) {
      for (const [u0, u1, n] of copies(band.u, band.width, ax, m * bx)) {
        add(u0, u1, v0, v1, m * bx + n * ax, m * by);
      }
    }
  }
  return windows;
}

/** The stretches of `from`..`from + count` that lie in copy n of a period: pixel centres in n * period + origin onward. */
function copies(from: number, count: number, period: number, origin: number): [number, number, number][] {
  const stretches: [number, number, number][] = [];
  const startOf = (n: number) => Math.ceil(n * period + origin - 0.5);
  let n = Math.floor((from + 0.5 - origin) / period);
  if (startOf(n) > from) n--;
  for (let at = from; at < from + count; n++) {
    const end = Math.min(from + count, startOf(n + 1));
    if (end <= at) continue;
    stretches.push([at, end, n]);
    at = end;
  }
  return stretches;
}

/** A vector this near whole pixels is whole: the mm it came from were rounded. */
function settle(pixels: number): number {
  const whole = Math.round(pixels);
  return Math.abs(pixels - whole) < 1e-3 ? whole : pixels;
}
