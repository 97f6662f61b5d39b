import type { ClosedPicture } from './close-picture.ts';
import { fullSample } from './lit-picture.ts';

/** A small picture of where a tile was worked on. */
export interface CutPicture {
  readonly width: number;
  readonly height: number;
  /** Opaque RGBA, 8 bit. */
  readonly pixels: Uint8Array;
}

const LARGEST_SIDE = 1600;
/** Of white, over what is transparent. */
const GROUND = 255;
/** How much of its own light is left outside the strips. */
const OUTSIDE = 0.55;
/** The cut: magenta, which few paintings have, edged with white. */
const LINE = [230, 0, 140] as const;
const EDGE = [255, 255, 255] as const;

/** Draws where a picture was closed: all but the strips dimmed, the cuts as lines upon it. */
export function drawCut(closed: ClosedPicture, largest = LARGEST_SIDE): CutPicture {
  const { width, height, strips, cuts } = closed;
  const scale = Math.min(1, largest / Math.max(width, height));
  const [wide, tall] = [Math.max(1, Math.round(width * scale)), Math.max(1, Math.round(height * scale))];
  const pixels = shrink(closed, wide, tall);
  const isInside = new Uint8Array(wide * tall);
  const [across, down] = [wide / width, tall / height];
  for (const strip of strips) {
    const right = Math.round((strip.x + strip.width) * across);
    const bottom = Math.round((strip.y + strip.height) * down);
    for (let y = Math.round(strip.y * down); y < Math.min(tall, bottom); y++)
      isInside.fill(1, y * wide + Math.round(strip.x * across), y * wide + Math.min(wide, right));
  }
  for (let cell = 0; cell < isInside.length; cell++)
    if (isInside[cell] === 0)
      for (let at = 4 * cell; at < 4 * cell + 3; at++) pixels[at] = Math.round(pixels[at] * OUTSIDE);
  const dot = (x: number, y: number, colour: readonly number[]) => {
    if (x >= 0 && y >= 0 && x < wide && y < tall) pixels.set(colour, 4 * (x + y * wide));
  };
  for (const [reach, colour] of [
    [2, EDGE],
    [1, LINE],
  ] as const)
    for (const cut of cuts)
      for (let k = 0; k < cut.length; k += 2) {
        const [x, y] = [Math.floor(cut[k] * across), Math.floor(cut[k + 1] * down)];
        for (let dy = -reach; dy <= reach; dy++)
          for (let dx = -reach; dx <= reach; dx++) dot(x + dx, y + dy, colour);
      }
  return { width: wide, height: tall, pixels };
}

function shrink({ width, height, samples }: ClosedPicture, wide: number, tall: number): Uint8Array {
  const full = fullSample(samples);
  const pixels = new Uint8Array(4 * wide * tall);
  for (let y = 0, to = 0; y < tall; y++) {
    const row = Math.min(height - 1, Math.floor(((y + 0.5) * height) / tall)) * width;
    for (let x = 0; x < wide; x++, to += 4) {
      const from = 4 * (row + Math.min(width - 1, Math.floor(((x + 0.5) * width) / wide)));
      const alpha = samples[from + 3] / full;
      for (let channel = 0; channel < 3; channel++)
        pixels[to + channel] = Math.round(GROUND + alpha * ((255 * samples[from + channel]) / full - GROUND));
      pixels[to + 3] = 255;
    }
  }
  return pixels;
}
