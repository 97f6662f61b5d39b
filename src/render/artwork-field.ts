import type { Frame } from '../colour/frame.ts';
import { fullSample, linearTable } from '../colour/samples.ts';
import { ARTWORK_CHANNELS, type Artwork, artworkShape, blankArtwork } from '../effect/artwork.ts';
import { boxCount } from '../repeat/lattice.ts';
import type { Layout } from '../repeat/layout.ts';
import type { Box } from '../repeat/repeat.ts';
import { reflectionAt } from '../repeat/unfold.ts';

/** The artwork as effects read it, and what tells it from others. Plain data. */
export interface ArtworkField {
  /** The same for the same fields, and hardly ever for others. */
  readonly id: string;
  readonly artwork: Artwork;
}

/** Sums of one row of cells: red, green and blue times alpha, and alpha. */
const CHANNELS = 4;

/**
 * Makes the field that effects read from a tile, whatever the tile's density: each cell is the mean of the pixels
 * in it, those at its edges by the share that lies inside.
 *
 * @param tile   Of its repeat, in which it stands as `layout` says.
 * @param box    The unfolded box of that repeat.
 */
export function artworkField(tile: Frame, layout: Layout, box: Box): ArtworkField {
  const shape = artworkShape(box);
  const artwork = blankArtwork(shape);
  const { across, down } = boxCount(layout);
  const columns = sharesOf(tile.width * across, shape.width);
  const rows = sharesOf(tile.height * down, shape.height);
  const row = new Float64Array(shape.width * CHANNELS);
  for (let y = 0; y < tile.height * down; y++) {
    row.fill(0);
    for (let block = 0; block < across; block++) {
      const { flipX, flipY } = reflectionAt(layout, block, Math.floor(y / tile.height));
      const inTile = y % tile.height;
      addRow(tile, flipY ? tile.height - 1 - inTile : inTile, flipX, columns, block * tile.width, row);
    }
    for (let k = rows.first[y]; k < rows.first[y + 1]; k++)
      addCells(artwork, rows.cell[k] * shape.width, rows.share[k], row);
  }
  divideByAlpha(artwork);
  return { id: idOf(artwork), artwork };
}

/** Which cells each pixel of a line lies in, and what share of such a cell it is. */
interface Shares {
  /** Of pixel p: entries `first[p]` to `first[p + 1]`. */
  readonly first: Int32Array;
  readonly cell: Int32Array;
  readonly share: Float64Array;
}

function sharesOf(pixels: number, cells: number): Shares {
  const first = new Int32Array(pixels + 1);
  const cell = new Int32Array(pixels + cells);
  const share = new Float64Array(pixels + cells);
  let count = 0;
  for (let p = 0; p < pixels; p++) {
    first[p] = count;
    // Counted in whole numbers, of which a pixel is `cells` long and a cell `pixels`.
    for (let c = Math.floor((p * cells) / pixels); c * pixels < (p + 1) * cells; c++, count++) {
      cell[count] = c;
      share[count] = (Math.min((p + 1) * cells, (c + 1) * pixels) - Math.max(p * cells, c * pixels)) / pixels;
    }
  }
  first[pixels] = count;
  return { first, cell, share };
}

function addRow(
  { pixels, width }: Frame,
  y: number,
  flipped: boolean,
  { first, cell, share }: Shares,
  offset: number,
  row: Float64Array,
): void {
  const linear = linearTable(pixels);
  const most = fullSample(pixels);
  for (let x = 0; x < width; x++) {
    const from = 4 * (y * width + (flipped ? width - 1 - x : x));
    const cover = pixels[from + 3] / most;
    if (cover === 0) continue;
    const red = cover * linear[pixels[from]];
    const green = cover * linear[pixels[from + 1]];
    const blue = cover * linear[pixels[from + 2]];
    for (let k = first[offset + x]; k < first[offset + x + 1]; k++) {
      const at = cell[k] * CHANNELS;
      row[at] += share[k] * red;
      row[at + 1] += share[k] * green;
      row[at + 2] += share[k] * blue;
      row[at + 3] += share[k] * cover;
    }
  }
}

function addCells({ red, green, blue, alpha }: Artwork, at: number, share: number, row: Float64Array): void {
  for (let from = 0, cell = at; from < row.length; from += CHANNELS, cell++) {
    red[cell] += share * row[from];
    green[cell] += share * row[from + 1];
    blue[cell] += share * row[from + 2];
    alpha[cell] += share * row[from + 3];
  }
}

/** Colours were summed times their alpha. What lies beyond 1 is rounding. */
function divideByAlpha({ red, green, blue, alpha }: Artwork): void {
  for (let cell = 0; cell < alpha.length; cell++) {
    const cover = alpha[cell];
    if (cover === 0) continue;
    red[cell] = Math.min(1, red[cell] / cover);
    green[cell] = Math.min(1, green[cell] / cover);
    blue[cell] = Math.min(1, blue[cell] / cover);
    alpha[cell] = Math.min(1, cover);
  }
}

/** FNV-1a over the bits of all four fields, and once more from another start: 64 bits in all. */
function idOf(artwork: Artwork): string {
  let [first, second] = [0x811c9dc5, 0x9e3779b9];
  for (const name of ARTWORK_CHANNELS) {
    for (const word of new Uint32Array(artwork[name].buffer)) {
      first = Math.imul(first ^ word, 0x01000193);
      second = Math.imul(second ^ (word + (first >>> 15)), 0x01000193);
    }
  }
  return `${artwork.width}x${artwork.height} ${first >>> 0} ${second >>> 0}`;
}
