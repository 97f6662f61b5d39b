import { type Frame, type Samples, sharedSamples } from '../colour/frame.ts';
import { parseHex } from '../colour/hex.ts';
import { shareBlank } from '../colour/samples.ts';
import { type Grid, gridOfPixels } from '../repeat/grid.ts';
import { unfold } from '../repeat/unfold.ts';

/** Makes room for so many samples of the kind of `pixels`; whoever asks fills all of it. */
export type Allot = (pixels: Samples, length: number) => Samples;

/** A tile of one colour, for a texture alone. */
export function plainFrame(width: number, height: number, hex: string): Frame {
  const pixels = sharedSamples(width * height * 4, 8);
  const colour = parseHex(hex).map((value) => Math.round(value * 255));
  const word = new Uint32Array(new Uint8Array([...colour, 255]).buffer)[0];
  new Uint32Array(pixels.buffer).fill(word);
  return { pixels, width, height };
}

/** The tile laid out over its unfolded box; the tile itself where the layout does not reflect. */
export function unfoldFrame(tile: Frame, grid: Grid, allot: Allot = shareBlank): Frame {
  if (grid.width === tile.width && grid.height === tile.height) return tile;
  const pixels = allot(tile.pixels, grid.width * grid.height * 4);
  unfold(grid.repeat.layout, tile.pixels, tile.width, tile.height, 4, pixels);
  return { pixels, width: grid.width, height: grid.height };
}

/** The grid of the unfolded box as a repeat of its own: a quartered tile becomes a straight one, twice the size. */
export function unfoldGrid(grid: Grid): Grid {
  const { layout, width, height } = grid.box;
  return grid.width === grid.tileWidth && grid.height === grid.tileHeight
    ? grid
    : gridOfPixels({ layout, width, height }, grid.width, grid.height);
}
