import { sharedSamples } from '../colour/frame.ts';
import { halveRows, resamplePart } from '../composite/index.ts';
import { nearestPixelFinder } from '../repeat/fold.ts';
import type { Grid } from '../repeat/grid.ts';
import type { Patch } from '../repeat/patch.ts';
import { type TilePart, tileParts } from '../repeat/tile-parts.ts';
import type { GatherOrder, TilePicture } from './orders.ts';
import { bandRowsFor } from './space.ts';

/** Pixels of a band: threads share small patches too. */
const BAND_PIXELS = 1 << 16;

/** An order for a patch of the plane, with room for it. */
export function gatherOrder(from: TilePicture, grid: Grid, patch: Patch): GatherOrder {
  const { width, height } = patch;
  return {
    kind: 'gather',
    from,
    grid,
    patch,
    to: sharedSamples(width * height * from.channels, from.pixels.BYTES_PER_ELEMENT === 2 ? 16 : 8),
    bandRows: bandRowsFor(width, height, BAND_PIXELS),
    nextBand: new Int32Array(new SharedArrayBuffer(4)),
  };
}

/** Takes bands of a patch until none is left. A tile that has the grid's own pixels is copied, others are resampled. */
export function runGather(order: GatherOrder, isStopped: () => boolean): void {
  const { from, grid, patch, to, bandRows, nextBand } = order;
  const draw = order.isHalved ? undefined : partDrawer(from, grid);
  while (!isStopped()) {
    const first = Atomics.add(nextBand, 0, 1) * bandRows;
    if (first >= patch.height) break;
    const height = Math.min(bandRows, patch.height - first);
    if (!draw) {
      halveRows(from as Bytes, to as Uint8Array, first, height);
      continue;
    }
    for (const part of tileParts(grid, { ...patch, y: patch.y + first, height }))
      putPart(draw(part), part, from.channels, to, (first + part.top) * patch.width + part.left, patch.width);
  }
}

type Bytes = TilePicture & { readonly pixels: Uint8Array };

/** Samples of a part of the tile, as it is stored. */
interface Drawn {
  readonly pixels: Uint8Array | Uint16Array;
  /** Where the part begins, and how many pixels its rows lie apart. */
  readonly first: number;
  readonly stride: number;
}

function partDrawer(from: TilePicture, { repeat, tileWidth, tileHeight }: Grid): (part: TilePart) => Drawn {
  const { pixels, width, height, channels } = from;
  if (width === tileWidth && height === tileHeight)
    return ({ x, y }) => ({ pixels, first: y * width + x, stride: width });
  const source = { ...from, find: nearestPixelFinder(repeat.layout, width, height) };
  const Store = pixels.constructor as Uint8ArrayConstructor;
  return (part) => {
    const drawn = new Store(part.width * part.height * channels);
    resamplePart(source, { width: tileWidth, height: tileHeight }, part, drawn);
    return { pixels: drawn, first: 0, stride: part.width };
  };
}

function putPart(
  { pixels, first, stride }: Drawn,
  { width, height, flipX, flipY }: TilePart,
  channels: number,
  to: Uint8Array | Uint16Array,
  firstTo: number,
  strideTo: number,
): void {
  for (let row = 0; row < height; row++) {
    const source = (first + (flipY ? height - 1 - row : row) * stride) * channels;
    const target = (firstTo + row * strideTo) * channels;
    if (!flipX) {
      to.set(pixels.subarray(source, source + width * channels), target);
      continue;
    }
    for (let column = 0; column < width; column++) {
      const mirrored = source + (width - 1 - column) * channels;
      for (let channel = 0; channel < channels; channel++)
        to[target + column * channels + channel] = pixels[mirrored + channel];
    }
  }
}
