import type { ClosedPicture } from './close-picture.ts';

/** A tile drawn small. */
export interface TileSheet {
  /** Opaque RGBA, 8 bit. */
  readonly pixels: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/** How much of its own light is left outside the strips. */
const OUTSIDE = 0.55;
/** The cut: magenta, which few paintings have, edged with white. */
const LINE = [230, 0, 140] as const;
const EDGE = [255, 255, 255] as const;

/** Draws on a tile's own sheet where it was closed: all but the strips dimmed, the cuts as lines upon it. */
export function drawCut(sheet: TileSheet, closed: ClosedPicture): void {
  dimOutside(sheet, closed);
  drawLines(sheet, closed, 2, EDGE);
  drawLines(sheet, closed, 1, LINE);
}

function dimOutside({ pixels, width, height }: TileSheet, closed: ClosedPicture): void {
  const isInside = new Uint8Array(width * height);
  const [across, down] = [width / closed.width, height / closed.height];
  for (const strip of closed.strips) {
    const right = Math.round((strip.x + strip.width) * across);
    const bottom = Math.round((strip.y + strip.height) * down);
    for (let y = Math.round(strip.y * down); y < Math.min(height, bottom); y++)
      isInside.fill(1, y * width + Math.round(strip.x * across), y * width + Math.min(width, right));
  }
  for (let cell = 0; cell < isInside.length; cell++)
    if (isInside[cell] === 0)
      for (let at = 4 * cell; at < 4 * cell + 3; at++) pixels[at] = Math.round(pixels[at] * OUTSIDE);
}

function drawLines(
  { pixels, width, height }: TileSheet,
  closed: ClosedPicture,
  reach: number,
  colour: readonly number[],
): void {
  const [across, down] = [width / closed.width, height / closed.height];
  for (const cut of closed.cuts)
    for (let k = 0; k < cut.length; k += 2) {
      const [x, y] = [Math.floor(cut[k] * across), Math.floor(cut[k + 1] * down)];
      for (let row = Math.max(0, y - reach); row <= Math.min(height - 1, y + reach); row++)
        for (let column = Math.max(0, x - reach); column <= Math.min(width - 1, x + reach); column++)
          pixels.set(colour, 4 * (column + row * width));
    }
}
