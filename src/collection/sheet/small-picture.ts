import type { Sharp } from 'sharp';
import type { Frame } from '../../colour/frame.ts';
import { atEightBits } from '../../colour/samples.ts';
import { byteOfLinear } from '../../colour/srgb.ts';
import { sharp } from '../../picture/engine.ts';
import { engineSource } from '../../picture/header.ts';
import { readPicture } from '../../picture/index.ts';
import { fitGrid, type Grid, gridOfPixels, type Repeat } from '../../repeat/index.ts';
import { densityOf, repeatOf } from './scale.ts';
import type { Made, Original } from './swatch.ts';

/** A picture of a tile at few pixels, opaque. */
export interface SmallPicture {
  /** RGB, 8 bit, row by row. */
  readonly pixels: Uint8Array;
  readonly grid: Grid;
}

/**
 * Reads a picture no larger than is needed: it is shrunk as it streams in, in linear light, to whole
 * pixels that its layout fits, at the density nearest to the one asked for (or its own, if coarser).
 * What is transparent lies on white.
 *
 * @param pixelsPerMm The density to aim for.
 * @throws the engine's error where the picture cannot be read; an error where it is not what its record says.
 */
export async function readSmall(made: Made, pixelsPerMm: number): Promise<SmallPicture> {
  const { widthPx, heightPx } = made.picture;
  const source = await engineSource(made.path);
  // Renders are written in sRGB; the engine's way through a profile knows no linear light.
  const picture = sharp(source, { limitInputPixels: widthPx * heightPx, ignoreIcc: true });
  const { width, height } = await picture.metadata();
  if (width !== widthPx || height !== heightPx) {
    throw new Error(`it has ${width} x ${height} px where its record says ${widthPx} x ${heightPx}`);
  }
  const repeat = repeatOf(made);
  const isCoarse = densityOf(made) <= pixelsPerMm;
  const grid = isCoarse ? gridOfPixels(repeat, widthPx, heightPx) : fitGrid(repeat, pixelsPerMm);
  return { pixels: await resized(picture, grid), grid };
}

/**
 * Reads the artwork of a tile as small. It may be in any colours and lie on its side, so it is decoded whole.
 *
 * @param pixelsPerMm The density to aim for.
 * @throws Fault (input) where it cannot be read; an error where it is not what the renders were made from.
 */
export async function readOriginal(original: Original, pixelsPerMm: number): Promise<SmallPicture> {
  const { widthPx, heightPx } = original.picture;
  const { pixels, width, height } = await readPicture(original.path);
  if (width !== widthPx || height !== heightPx) {
    throw new Error(`it has ${width} x ${height} px where it had ${widthPx} x ${heightPx}`);
  }
  // Artwork that was fitted to its layout may have pixels that do not stand on it: always resampled.
  const grid = fitGrid(repeatOf(original), Math.min(pixelsPerMm, densityOf(original)));
  return {
    pixels: await resized(sharp(atEightBits(pixels), { raw: { width, height, channels: 4 } }), grid),
    grid,
  };
}

/** A picture in memory as small, for a repeat; what is transparent lies on a ground of sRGB bytes. */
export async function smallOfFrame(
  { pixels, width, height }: Frame,
  repeat: Repeat,
  pixelsPerMm: number,
  ground: readonly number[],
): Promise<SmallPicture> {
  const grid = fitGrid(repeat, Math.min(pixelsPerMm, width / repeat.width));
  const [r, g, b] = ground;
  const image = sharp(atEightBits(pixels), { raw: { width, height, channels: 4 } });
  return { pixels: await resized(image.flatten({ background: { r, g, b } }), grid), grid };
}

/** The same at a lower density; at its own where that is lower already. */
export async function shrinkSmall(small: SmallPicture, pixelsPerMm: number): Promise<SmallPicture> {
  const { tileWidth: width, tileHeight: height, repeat } = small.grid;
  const grid = fitGrid(repeat, pixelsPerMm);
  if (grid.tileWidth >= width || grid.tileHeight >= height) return small;
  return { pixels: await resized(rawOf(small), grid), grid };
}

/** A small picture for the engine. */
export function rawOf({ pixels, grid }: SmallPicture): Sharp {
  return sharp(pixels, { raw: { width: grid.tileWidth, height: grid.tileHeight, channels: 3 } });
}

/** Mean light over each new pixel: the engine's scRGB is linear (IEC 61966-2-2), with alpha from 0 to 1. */
async function resized(picture: Sharp, { tileWidth, tileHeight }: Grid): Promise<Uint8Array> {
  const { data, info } = await picture
    .pipelineColourspace('scrgb')
    .resize(tileWidth, tileHeight, { fit: 'fill', kernel: 'linear' })
    .toColourspace('scrgb')
    .raw({ depth: 'float' })
    .toBuffer({ resolveWithObject: true });
  const light = new Float32Array(data.buffer, data.byteOffset, data.length / 4);
  const pixels = new Uint8Array(tileWidth * tileHeight * 3);
  for (let to = 0, from = 0; to < pixels.length; to += 3, from += info.channels) {
    const cover = info.channels === 4 ? light[from + 3] : 1;
    for (let channel = 0; channel < 3; channel++) {
      pixels[to + channel] = byteOfLinear(1 - cover + cover * light[from + channel]);
    }
  }
  return pixels;
}
