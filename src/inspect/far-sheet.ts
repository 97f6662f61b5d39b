import type { Layout } from '../repeat/layout.ts';
import type { InspectedPicture } from './inspected-picture.ts';
import { drawRing, type RepeatSheet, repeatSheet } from './repeat-sheet.ts';
import type { RepeatReport } from './shows.ts';

/** Tiles across and down, and px of the whole sheet before and after it is drawn large again. */
const TILES = 4;
const FAR_SIDE = 4 * 24;
const ENLARGED = 10;

/**
 * A tile in repeat, 4 x 4, as it is left when seen from some ten times its size away, with what will
 * line up ringed on the first tile.
 */
export function farSheet(picture: InspectedPicture, layout: Layout, { hotSpots }: RepeatReport): RepeatSheet {
  const far = repeatSheet(picture, layout, { columns: TILES, rows: TILES, maxSide: FAR_SIDE });
  const sheet = enlarge(far);
  for (const { x, y } of hotSpots) {
    drawRing(sheet, { x: x * sheet.scale, y: y * sheet.scale, radius: 2 * ENLARGED });
  }
  return sheet;
}

/** Bilinear between the centres of the small pixels; beyond the border the border goes on. */
function enlarge(small: RepeatSheet): RepeatSheet {
  const width = small.width * ENLARGED;
  const height = small.height * ENLARGED;
  const pixels = new Uint8Array(width * height * 4);
  for (let y = 0; y < height; y++) {
    const [top, bottom, v] = between((y + 0.5) / ENLARGED - 0.5, small.height);
    for (let x = 0; x < width; x++) {
      const [left, right, u] = between((x + 0.5) / ENLARGED - 0.5, small.width);
      const at = (column: number, row: number, channel: number) =>
        small.pixels[(row * small.width + column) * 4 + channel];
      for (let channel = 0; channel < 4; channel++) {
        const upper = at(left, top, channel) * (1 - u) + at(right, top, channel) * u;
        const lower = at(left, bottom, channel) * (1 - u) + at(right, bottom, channel) * u;
        pixels[(y * width + x) * 4 + channel] = Math.round(upper + (lower - upper) * v);
      }
    }
  }
  return { pixels, width, height, scale: small.scale * ENLARGED };
}

/** The two places about a real one, and how far it lies towards the second. */
function between(place: number, count: number): [number, number, number] {
  const low = Math.floor(place);
  const hold = (index: number) => Math.min(count - 1, Math.max(0, index));
  return [hold(low), hold(low + 1), place - low];
}
