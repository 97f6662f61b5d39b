import type { Box, Picture, RandomStream } from 'tenter';

/** A rectangle of a picture, whole pixels. */
export interface Part {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** mm: a part is no smaller, if the picture is not. */
const LEAST_PART = 10;

/**
 * The part of a picture that is asked for, smaller where it reaches beyond the picture; what begins beyond it is the
 * last `LEAST_PART` of it.
 *
 * @param part mm from the left and the top, width and height; a width or height of 0 takes all that is left.
 */
export function partOf(picture: Picture, [left, top, width, height]: readonly number[]): Part {
  const across = span(left, width, picture.width, picture.mmPerPixelX);
  const down = span(top, height, picture.height, picture.mmPerPixelY);
  return { x: across.from, y: down.from, width: across.count, height: down.count };
}

function span(start: number, side: number, pixels: number, mmPerPixel: number) {
  const least = Math.max(1, Math.min(pixels, Math.round(LEAST_PART / mmPerPixel)));
  const from = Math.min(pixels - least, Math.round(start / mmPerPixel));
  const wanted = side > 0 ? Math.max(least, Math.round(side / mmPerPixel)) : pixels;
  return { from, count: Math.min(wanted, pixels - from) };
}

/** No more of a swatch is used than so many of the box's longer sides: a small box has no room for more. */
const SIDES = 2;

/** The part of a picture, by chance, that a box can use; all of it where that is not far larger than the box. */
export function enoughFor(picture: Picture, box: Box, scale: number, random: RandomStream): Part {
  const most = (SIDES * Math.max(box.width, box.height)) / scale;
  const across = Math.min(picture.width, Math.ceil(most / picture.mmPerPixelX));
  const down = Math.min(picture.height, Math.ceil(most / picture.mmPerPixelY));
  const x = random.below(picture.width - across + 1);
  const y = random.below(picture.height - down + 1);
  return { x, y, width: across, height: down };
}

/** A part of a picture as a picture of its own; the very same one where that is all of it. */
export function cutPart(picture: Picture, { x, y, width, height }: Part): Picture {
  if (width === picture.width && height === picture.height) return picture;
  const samples = new Uint16Array(4 * width * height);
  for (let j = 0; j < height; j++) {
    const from = 4 * ((y + j) * picture.width + x);
    samples.set(picture.samples.subarray(from, from + 4 * width), 4 * j * width);
  }
  return { ...picture, width, height, samples };
}
