import type { Band, Box } from 'tenter';

/**
 * The box as samples: a pixel of the plane is first moved to its copy inside, counted in whole numbers,
 * so that all copies of a pixel are worked out from the same numbers and are the same to the bit.
 */
export interface SampleGrid {
  readonly width: number;
  readonly height: number;
  /** The lattice in samples. */
  readonly dropRows: number;
  readonly brickColumns: number;
  readonly mmX: number;
  readonly mmY: number;
}

/** Samples per pixel, each way: edges need one every sixth of a millimetre at least. */
export function samplesPerPixel({ mmPerPixelX, mmPerPixelY }: Band): number {
  return Math.max(1, Math.min(12, Math.ceil(Math.max(mmPerPixelX, mmPerPixelY) / 0.175)));
}

export function sampleGrid({ lattice }: Box, band: Band, samples: number): SampleGrid {
  const { ax, ay, bx, by } = lattice;
  const width = Math.max(1, Math.round(ax / band.mmPerPixelX)) * samples;
  const height = Math.max(1, Math.round(by / band.mmPerPixelY)) * samples;
  return {
    width,
    height,
    dropRows: Math.round((ay / by) * height),
    brickColumns: Math.round((bx / ax) * width),
    mmX: ax / width,
    mmY: by / height,
  };
}

/** A run of samples that lie side by side in a row of the box. */
export interface Run {
  /** Of the first sample, in the box. */
  column: number;
  row: number;
  /** Of the first sample, in the row that was asked for. */
  at: number;
  count: number;
}

/** Cuts a row of `count` samples from (x, y) on, anywhere on the plane, into runs of the box. */
export function runsOf(grid: SampleGrid, x: number, y: number, count: number): Run[] {
  const { width, height, dropRows, brickColumns } = grid;
  const runs: Run[] = [];
  const tier = Math.floor(y / height);
  const start = x - tier * brickColumns;
  for (let at = 0; at < count; ) {
    const turn = Math.floor((start + at) / width);
    const column = start + at - turn * width;
    const row = y - (brickColumns === 0 ? turn * dropRows : 0);
    const length = Math.min(count - at, width - column);
    runs.push({ column, row: row - Math.floor(row / height) * height, at, count: length });
    at += length;
  }
  return runs;
}
