import { modulo } from '../../repeat/lattice.ts';
import type { AnyLayer } from '../layer.ts';
import type { Bench, Sample } from './bench.ts';
import type { Channel } from './channels.ts';

export const EDGES = ['left and right', 'top and bottom'] as const;
export type Edge = (typeof EDGES)[number];

/** What is looked at of an edge, mm at most. */
export interface Extent {
  readonly along: number;
  readonly across: number;
}

/** All across a repeat; a line stands out of more noise the longer it is. */
export const WHOLE: Extent = { along: 40, across: Number.POSITIVE_INFINITY };

/** Half the extent, or half a repeat, on either side of the edge; the edge stands in the middle. */
export function viewOf({ grid }: Sample, edge: Edge, { along, across }: Extent = WHOLE) {
  const { width, height, mmPerPixelX, mmPerPixelY } = grid;
  const [sideways, down] = edge === 'left and right' ? [across, along] : [along, across];
  const view = {
    width: Math.min(width, Math.ceil(sideways / mmPerPixelX)),
    height: Math.min(height, Math.ceil(down / mmPerPixelY)),
  };
  return edge === 'left and right'
    ? { ...view, x: -Math.floor(view.width / 2), y: 0 }
    : { ...view, x: 0, y: -Math.floor(view.height / 2) };
}

/** Paints the view of an edge. */
export function paintEdge(bench: Bench, sample: Sample, edge: Edge, extent: Extent): AnyLayer {
  return bench.paint(sample, viewOf(sample, edge, extent));
}

/**
 * Lines of the view at which repeats meet, px: the edge itself and, along the way that a drop or brick
 * moves its neighbours, where the edges of those lie.
 */
export function meetingLines(sample: Sample, edge: Edge, extent: Extent): number[] {
  const view = viewOf(sample, edge, extent);
  const { lattice, width, height } = sample.grid;
  const [depth, shift, from, length] =
    edge === 'left and right'
      ? [width, lattice.bx, view.x, view.width]
      : [height, lattice.ay, view.y, view.height];
  const lines = new Set<number>();
  for (let place = 0; !lines.has(place); place = modulo(place + shift, depth)) lines.add(place);
  return [...lines].map((place) => modulo(place - from, depth)).filter((line) => line < length);
}

/** The mean of each line that runs along the edge. */
export function profileOf({ values, width, height }: Channel, edge: Edge): Float64Array {
  const across = edge === 'left and right';
  const profile = new Float64Array(across ? width : height);
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at++) profile[across ? x : y] += values[at];
  }
  return profile.map((sum) => sum / (across ? height : width));
}
