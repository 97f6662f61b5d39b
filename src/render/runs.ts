import type { Band } from '../effect/effect.ts';
import type { PixelFinder } from '../repeat/fold.ts';

/** Pixels of a rectangle that follow each other in the frame as well. */
export interface PixelRun {
  /** The first, counted in the rectangle. */
  readonly at: number;
  /** The same pixel's number in the frame. */
  readonly first: number;
  readonly length: number;
}

/** The runs of a rectangle of the plane, in the order of its pixels: whole rows inside the frame, pieces of them beyond. */
export function* runsOf({ x, y, width, height }: Band, find: PixelFinder): Generator<PixelRun> {
  for (let row = 0; row < height; row++) {
    let run: PixelRun | undefined;
    for (let column = 0; column < width; column++) {
      const pixel = find(x + column, y + row);
      if (run && pixel === run.first + run.length) {
        run = { ...run, length: run.length + 1 };
        continue;
      }
      if (run) yield run;
      run = { at: row * width + column, first: pixel, length: 1 };
    }
    if (run) yield run;
  }
}
