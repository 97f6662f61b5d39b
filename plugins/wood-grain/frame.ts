import { type Band, homeParts, type Lattice } from 'tenter';

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
export function windowsOf(grain: GrainBand, lattice: Lattice): Window[] {
  const { width, strideU, strideV } = grain;
  const band = { ...grain, x: grain.u, y: grain.v, mmPerPixelX: grain.mmU, mmPerPixelY: grain.mmV };
  return homeParts(band, lattice).map((part) => ({
    i0: part.x,
    i1: part.x + part.width,
    j0: part.y,
    j1: part.y + part.height,
    at: (part.at % width) * strideU + Math.floor(part.at / width) * strideV,
  }));
}
