import { readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { Frame } from '../../colour/frame.ts';
import { writePicture } from '../../picture/index.ts';
import type { Grid } from '../../repeat/grid.ts';
import { PAPERS, type Paper } from './page.ts';
import { clothWindow } from './window.ts';

/** A picture for the sheet: a PNG without alpha, and its size on paper in mm. */
export interface SheetPicture {
  readonly png: Buffer;
  readonly width: number;
  readonly height: number;
}

export interface SheetPictures {
  /** At 1:1. */
  readonly swatch: SheetPicture;
  readonly repeat: SheetPicture & {
    /** mm of paper to one of cloth. */
    readonly scale: number;
    /** Where the first whole tile stands on it, mm of paper. */
    readonly first: { readonly x: number; readonly y: number };
  };
}

/** mm: how much of the first page the swatch may take, and the drawing of the repeat. */
const HEIGHTS: Readonly<Record<Paper, { swatch: number; repeat: number; column: number }>> = {
  a4: { swatch: 104, repeat: 70, column: 82 },
  a3: { swatch: 186, repeat: 100, column: 116 },
};
/** Pixels per mm: more than paper shows (600 dpi). */
const MOST_DENSITY = 600 / 25.4;
const DRAWING_DENSITY = 11;

/** Renders what the sheet shows of the cloth. @param scratch A folder for a file meanwhile. */
export async function sheetPictures(
  print: Frame,
  grid: Grid,
  paper: Paper,
  scratch: string,
): Promise<SheetPictures> {
  const { width: wide, margin } = PAPERS[paper];
  const { swatch: high, repeat: drawn, column } = HEIGHTS[paper];
  const png = (picture: Frame) => pngOf(picture, join(scratch, 'sheet.png'));
  const swatch = swatchPart(grid, { width: wide - 2 * margin, height: high });
  const { width, height } = grid.repeat;
  const scale = Math.min(column / (2.35 * width), drawn / (1.9 * height));
  const size = {
    width: Math.min(column, 2.9 * width * scale),
    height: Math.min(drawn, 2.5 * height * scale),
  };
  const first = {
    x: (size.width - width * scale) / 2 - (size.width > 2.2 * width * scale ? width * scale * 0.55 : 0),
    y: (size.height - height * scale) / 2,
  };
  const part = {
    x: -first.x / scale,
    y: -first.y / scale,
    width: size.width / scale,
    height: size.height / scale,
  };
  const pixels = {
    width: Math.round(size.width * DRAWING_DENSITY),
    height: Math.round(size.height * DRAWING_DENSITY),
  };
  return {
    swatch: {
      png: await png(clothWindow(print, grid, { x: 0, y: 0, ...swatch.mm }, swatch.pixels)),
      ...swatch.mm,
    },
    repeat: { png: await png(clothWindow(print, grid, part, pixels)), ...size, scale, first },
  };
}

/** Whole pixels of the print, so that none is drawn wider than another. */
function swatchPart({ mmPerPixelX, mmPerPixelY }: Grid, most: { width: number; height: number }) {
  const across = Math.max(1, Math.floor(most.width / mmPerPixelX + 1e-9));
  const down = Math.max(1, Math.floor(most.height / mmPerPixelY + 1e-9));
  const mm = { width: across * mmPerPixelX, height: down * mmPerPixelY };
  const shrink = Math.min(1, MOST_DENSITY * Math.min(mmPerPixelX, mmPerPixelY));
  return { mm, pixels: { width: Math.ceil(across * shrink), height: Math.ceil(down * shrink) } };
}

async function pngOf(picture: Frame, path: string): Promise<Buffer> {
  await writePicture(path, picture, { overwrite: true, level: 6 });
  const bytes = await readFile(path);
  await rm(path);
  return bytes;
}
