import { type Box, wrapPoint } from 'tenter';
import type { Trace } from './trace.ts';

/**
 * All pieces of all cracks, each once, brought into the box by its middle and sorted into level strips.
 * Plain data; mm.
 */
export interface Segments {
  /** Start, way to the end, half width at both and dye at both: eight numbers each. */
  readonly numbers: Float32Array;
  /** Strip n holds segments `starts[n]` up to `starts[n + 1] - 1`. */
  readonly starts: Int32Array;
  readonly stripHeight: number;
  /** The farthest that a segment's dye lies from its middle. */
  readonly reach: number;
}

export const PER_SEGMENT = 8;
const STRIP_HEIGHT = 2.5;

export function cutSegments(box: Box, traces: readonly Trace[]): Segments {
  const strips = Math.max(1, Math.ceil(box.height / STRIP_HEIGHT));
  const stripHeight = box.height / strips;
  const lists: number[][] = Array.from({ length: strips }, () => []);
  let reach = 0;
  for (const { xs, ys, halves, inks } of traces) {
    for (let k = 1; k < xs.length; k++) {
      const dx = xs[k] - xs[k - 1];
      const dy = ys[k] - ys[k - 1];
      const length = Math.hypot(dx, dy);
      if (length < 1e-6) continue;
      const [x, y] = wrapPoint(box.lattice, xs[k - 1] + dx / 2, ys[k - 1] + dy / 2);
      const strip = Math.min(strips - 1, Math.floor(y / stripHeight));
      lists[strip].push(x - dx / 2, y - dy / 2, dx, dy, halves[k - 1], halves[k], inks[k - 1], inks[k]);
      reach = Math.max(reach, length / 2 + Math.max(halves[k - 1], halves[k]));
    }
  }
  const starts = new Int32Array(strips + 1);
  lists.forEach((list, n) => {
    starts[n + 1] = starts[n] + list.length / PER_SEGMENT;
  });
  const numbers = new Float32Array(starts[strips] * PER_SEGMENT);
  lists.forEach((list, n) => {
    numbers.set(list, starts[n] * PER_SEGMENT);
  });
  return { numbers, starts, stripHeight, reach };
}
