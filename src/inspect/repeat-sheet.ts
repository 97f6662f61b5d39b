import { fullSample, linearTable } from '../colour/samples.ts';
import { byteOfLinear } from '../colour/srgb.ts';
import { tilePixelFinder } from '../repeat/fold.ts';
import { gridOfPixels } from '../repeat/grid.ts';
import type { Layout } from '../repeat/layout.ts';
import type { InspectedPicture } from './inspected-picture.ts';

export interface SheetShape {
  /** Tiles across and down. */
  readonly columns: number;
  readonly rows: number;
  /** Longest side of the sheet, px; a smaller sheet is not enlarged. */
  readonly maxSide: number;
}

/** A tile laid in repeat, and how its pixels lie on the sheet. */
export interface RepeatSheet {
  /** RGBA, 8 bit. */
  readonly pixels: Uint8Array;
  readonly width: number;
  readonly height: number;
  /** Sheet pixels to a tile pixel, 0 < scale <= 1. */
  readonly scale: number;
}

/** Samples averaged along each side of a sheet pixel: enough for the eye, whatever the tile's size. */
const MOST_TAPS = 4;

/** Lays a tile in repeat as its layout says, averaged down in linear light; transparent parts lie on white. */
export function repeatSheet(picture: InspectedPicture, layout: Layout, shape: SheetShape): RepeatSheet {
  const { pixels, width, height } = picture;
  const grid = gridOfPixels({ layout, width, height }, width, height);
  const find = tilePixelFinder(grid);
  const scale = Math.min(1, shape.maxSide / Math.max(width * shape.columns, height * shape.rows));
  const sheetWidth = Math.max(1, Math.round(width * shape.columns * scale));
  const sheetHeight = Math.max(1, Math.round(height * shape.rows * scale));
  const taps = Math.min(MOST_TAPS, Math.ceil(1 / scale));
  const sheet = new Uint8Array(sheetWidth * sheetHeight * 4);
  const linear = linearTable(pixels);
  const full = fullSample(pixels);
  const sum = [0, 0, 0];
  for (let y = 0; y < sheetHeight; y++) {
    for (let x = 0; x < sheetWidth; x++) {
      sum.fill(0);
      for (let j = 0; j < taps; j++) {
        for (let i = 0; i < taps; i++) {
          const at =
            find(Math.floor((x + (i + 0.5) / taps) / scale), Math.floor((y + (j + 0.5) / taps) / scale)) * 4;
          const cover = pixels[at + 3] / full;
          for (let c = 0; c < 3; c++) sum[c] += 1 - cover + cover * linear[pixels[at + c]];
        }
      }
      const to = (y * sheetWidth + x) * 4;
      for (let c = 0; c < 3; c++) sheet[to + c] = byteOfLinear(sum[c] / (taps * taps));
      sheet[to + 3] = 255;
    }
  }
  return { pixels: sheet, width: sheetWidth, height: sheetHeight, scale };
}

/** A circle on a sheet, px. */
export interface Ring {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** Seen on light and dark alike: a dark line with a light one inside it. */
const RING_LINES = [
  { out: 0, ink: [20, 20, 24], wide: 5 },
  { out: -1, ink: [255, 236, 60], wide: 2.4 },
] as const;

/** Draws a ring on a sheet, antialiased, in place. */
export function drawRing(sheet: RepeatSheet, ring: Ring): void {
  const reach = Math.ceil(ring.radius + 6);
  for (let y = Math.max(0, Math.floor(ring.y - reach)); y < Math.min(sheet.height, ring.y + reach); y++) {
    for (let x = Math.max(0, Math.floor(ring.x - reach)); x < Math.min(sheet.width, ring.x + reach); x++) {
      const distance = Math.hypot(x + 0.5 - ring.x, y + 0.5 - ring.y) - ring.radius;
      const at = (y * sheet.width + x) * 4;
      for (const { out, ink, wide } of RING_LINES) {
        const cover = Math.min(1, Math.max(0, wide / 2 + 0.5 - Math.abs(distance - out)));
        for (let c = 0; c < 3; c++)
          sheet.pixels[at + c] += Math.round((ink[c] - sheet.pixels[at + c]) * cover);
      }
    }
  }
}
