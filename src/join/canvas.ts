import type { Samples } from '../colour/frame.ts';
import { ownBlank } from '../colour/samples.ts';
import { modulo } from '../repeat/lattice.ts';

/** A rectangle of pixels. */
export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Which way a strip is crossed: `x` from left to right, so that it runs down the page; `y` the other. */
export type Across = 'x' | 'y';

/** A strip of a picture, as if it always ran down the page: pixel (i, j) stands at `4 * (i + j * across)`. */
export interface Strip {
  /** px from one long side to the other. */
  readonly across: number;
  /** px along it. */
  readonly along: number;
  /** Straight RGBA. */
  readonly samples: Samples;
}

/** Where a strip lies in a picture. */
export interface StripPlace {
  readonly way: Across;
  /** The first column (row) of it. */
  readonly first: number;
  readonly across: number;
  readonly along: number;
  /** It begins so far down (right), and goes on at the beginning after `along`; 0 where absent. */
  readonly shift?: number;
}

/**
 * A picture with pieces laid over it, without a copy of it: what lies under no piece is the picture, bit for
 * bit. Pieces may reach beyond it.
 */
export class Canvas {
  private readonly pieces: (Rect & { readonly samples: Samples })[] = [];

  constructor(
    private readonly picture: { readonly width: number; readonly height: number; readonly samples: Samples },
  ) {}

  /** Samples of a rectangle; transparent black where nothing lies. */
  read(rect: Rect, into: Samples = this.blank(rect.width * rect.height)): Samples {
    copyOver({ x: 0, y: 0, ...this.picture }, rect, into);
    for (const piece of this.pieces) copyOver(piece, rect, into);
    return into;
  }

  readStrip({ way, first, across, along, shift = 0 }: StripPlace): Strip {
    const samples = this.blank(across * along);
    const start = modulo(shift, along);
    const head = this.read(rectOf(way, first, across, start, along - start));
    const tail = this.read(rectOf(way, first, across, 0, start));
    if (way === 'x') {
      samples.set(head);
      samples.set(tail, head.length);
    } else {
      turnOver(head, along - start, across, samples, 0);
      turnOver(tail, start, across, samples, along - start);
    }
    return { across, along, samples };
  }

  /** Lays a strip at its place; its `shift` does not count. */
  lay({ way, first }: Pick<StripPlace, 'way' | 'first'>, { across, along, samples }: Strip): void {
    const rect = rectOf(way, first, across, 0, along);
    if (way === 'x') {
      this.pieces.push({ ...rect, samples });
      return;
    }
    const turned = this.blank(across * along);
    // Columns of what it becomes are rows of what it is.
    turnOver(samples, across, along, turned, 0);
    this.pieces.push({ ...rect, samples: turned });
  }

  private blank(pixels: number): Samples {
    return ownBlank(this.picture.samples, 4 * pixels);
  }
}

function rectOf(way: Across, first: number, across: number, start: number, along: number): Rect {
  return way === 'x'
    ? { x: first, y: start, width: across, height: along }
    : { x: start, y: first, width: along, height: across };
}

function copyOver(from: Rect & { readonly samples: Samples }, to: Rect, into: Samples): void {
  const left = Math.max(from.x, to.x);
  const right = Math.min(from.x + from.width, to.x + to.width);
  const top = Math.max(from.y, to.y);
  const bottom = Math.min(from.y + from.height, to.y + to.height);
  if (right <= left) return;
  for (let y = top; y < bottom; y++) {
    const at = 4 * ((y - from.y) * from.width + left - from.x);
    into.set(from.samples.subarray(at, at + 4 * (right - left)), 4 * ((y - to.y) * to.width + left - to.x));
  }
}

/** Exchanges rows and columns of `width` x `height` pixels, into rows of `height` from row `first` on. */
function turnOver(samples: Samples, width: number, height: number, into: Samples, first: number): void {
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at += 4) {
      const to = 4 * ((first + x) * height + y);
      into[to] = samples[at];
      into[to + 1] = samples[at + 1];
      into[to + 2] = samples[at + 2];
      into[to + 3] = samples[at + 3];
    }
  }
}
