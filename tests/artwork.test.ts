import { describe, expect, it } from 'vitest';
import type { Artwork } from '../gallery/artwork/artwork.ts';
import { COLLECTION, screensOf } from '../gallery/artwork/collection.ts';
import { PALETTE } from '../gallery/artwork/palette.ts';
import { drawTile, drawWindow, gridOf, type Picture } from '../gallery/artwork/tile.ts';
import { checkSeams } from '../src/inspect/index.ts';
import { gridAtDensity, parseLayout } from '../src/repeat/index.ts';

const MM_PER_INCH = 25.4;
const cases = COLLECTION.map((artwork) => [artwork.name, artwork] as const);

/** Pixels that are drawn again beyond every edge of the tile. */
const STRIP = 9;

/**
 * Where a pixel of the plane lies in the tile, from the definition of each layout alone: column `across`
 * hangs lower by its drop, row `down` stands further right by its brick, and reflected copies are turned over.
 */
function tilePixel(artwork: Artwork, x: number, y: number, width: number, height: number): [number, number] {
  const { kind, numerator, denominator } = parseLayout(artwork.layout);
  const share = numerator / denominator;
  const wrap = (value: number, size: number) => ((value % size) + size) % size;
  if (kind === 'drop') return [wrap(x, width), wrap(y - Math.floor(x / width) * share * height, height)];
  if (kind === 'brick') return [wrap(x - Math.floor(y / height) * share * width, width), wrap(y, height)];
  const oddColumn = wrap(Math.floor(x / width), 2) === 1;
  const oddRow = wrap(Math.floor(y / height), 2) === 1;
  const flipX = oddColumn && (kind === 'mirror-x' || kind === 'mirror-xy' || kind === 'turn');
  const flipY = (oddRow && (kind === 'mirror-y' || kind === 'mirror-xy')) || (oddColumn && kind === 'turn');
  const [column, row] = [wrap(x, width), wrap(y, height)];
  return [flipX ? width - 1 - column : column, flipY ? height - 1 - row : row];
}

/** The part of the pixels around a tile that differ from the tile in its layout, and the largest difference in levels. */
function misfitAround(artwork: Artwork, dpi: number) {
  const tile = drawTile(artwork, dpi / MM_PER_INCH);
  const { width, height } = tile;
  const window = { x: -STRIP, y: -STRIP, width: width + 2 * STRIP, height: height + 2 * STRIP };
  const around = drawWindow(artwork, gridOf(artwork, dpi / MM_PER_INCH), window);
  let [largest, differing, compared] = [0, 0, 0];
  for (let row = 0; row < window.height; row++) {
    for (let column = 0; column < window.width; column++) {
      const [x, y] = [window.x + column, window.y + row];
      if (x === 0 && y >= 0 && y < height) {
        column += width - 1;
        continue;
      }
      const [insideX, insideY] = tilePixel(artwork, x, y, width, height);
      const difference = levelsApart(
        around.pixels,
        row * window.width + column,
        tile.pixels,
        insideY * width + insideX,
      );
      largest = Math.max(largest, difference);
      differing += difference > 0 ? 1 : 0;
      compared++;
    }
  }
  return { largest, differing: differing / compared };
}

function levelsApart(a: Uint8Array, pixelA: number, b: Uint8Array, pixelB: number): number {
  let largest = 0;
  for (let channel = 0; channel < 4; channel++) {
    largest = Math.max(largest, Math.abs(a[pixelA * 4 + channel] - b[pixelB * 4 + channel]));
  }
  return largest;
}

/** The share of a tile's pixels in each colour, by `#rrggbb`. */
function coloursOf({ pixels }: Picture): Map<string, number> {
  const counts = new Map<number, number>();
  for (let index = 0; index < pixels.length; index += 4) {
    const colour = (pixels[index] << 16) | (pixels[index + 1] << 8) | pixels[index + 2];
    counts.set(colour, (counts.get(colour) ?? 0) + 4 / pixels.length);
  }
  return new Map([...counts].map(([colour, share]) => [`#${colour.toString(16).padStart(6, '0')}`, share]));
}

describe.each([72, 300])('every tile at %i dpi', (dpi) => {
  it.each(cases)('%s closes over its layout', (_, artwork) => {
    const { largest, differing } = misfitAround(artwork, dpi);
    // Skia smooths the two sides of a shape that lies on a mirror a few levels differently; nothing else may differ.
    const onMirror = parseLayout(artwork.layout).kind.startsWith('mirror');
    expect(largest).toBeLessThanOrEqual(onMirror ? 8 : 0);
    expect(differing).toBeLessThanOrEqual(onMirror ? 0.05 : 0);
  });
});

/** As the demo draws its proofs, and at a print density. */
describe.each([4, 6])('every tile at %i px to the mm', (pixelsPerMm) => {
  it.each(cases)('%s is not called open by the check', (_, artwork) => {
    const report = checkSeams(drawTile(artwork, pixelsPerMm), parseLayout(artwork.layout));
    expect(report.grade, report.summary).not.toBe('open');
  });
});

describe('the collection', () => {
  it('stands in at least five layouts, a half-drop, a brick, a quarter and a turn among them', () => {
    const layouts = new Set(COLLECTION.map(({ layout }) => layout));
    expect(layouts.size).toBeGreaterThanOrEqual(5);
    for (const layout of ['straight', 'drop:1/2', 'brick:1/3', 'mirror-xy', 'turn']) {
      expect(layouts).toContain(layout);
    }
  });

  it.each(cases)('%s has whole pixels at 254 dpi', (_, artwork) => {
    const { layout, width, height } = artwork;
    const grid = gridAtDensity({ layout: parseLayout(layout), width, height }, 10);
    expect([grid.tileWidth, grid.tileHeight]).toEqual([width * 10, height * 10]);
  });

  it.each(cases)('%s is flat colour: its ground, its inks, and their smoothed edges', (_, artwork) => {
    const colours = coloursOf(drawTile(artwork, 5));
    const screens = screensOf(artwork).map(({ hex }) => hex);
    const shares = screens.map((hex) => colours.get(hex) ?? 0);
    for (const share of shares) expect(share).toBeGreaterThan(0.002);
    expect(shares.reduce((sum, share) => sum + share)).toBeGreaterThan(0.92);
    expect(new Set(screens).size).toBe(artwork.inks.length + 1);
    expect(PALETTE).toEqual(expect.arrayContaining(screensOf(artwork)));
  });

  it.each(cases)('%s is drawn the same every time', (_, artwork) => {
    expect(Buffer.compare(drawTile(artwork, 1).pixels, drawTile(artwork, 1).pixels)).toBe(0);
  });

  it.each(cases)('%s is the same picture at half the density', (_, artwork) => {
    const [fine, coarse] = [drawTile(artwork, 4), drawTile(artwork, 2)];
    expect(fine.width).toBe(coarse.width * 2);
    expect(meanApart(halved(fine), coarse)).toBeLessThan(1);
  });
});

/** A picture of half the size, every pixel the mean of four. */
function halved({ pixels, width, height }: Picture): Picture {
  const half = new Uint8Array((width / 2) * (height / 2) * 4);
  for (let row = 0; row < height / 2; row++) {
    for (let column = 0; column < (width / 2) * 4; column++) {
      const from = row * 2 * width * 4 + (column >> 2) * 8 + (column & 3);
      const sum = pixels[from] + pixels[from + 4] + pixels[from + width * 4] + pixels[from + width * 4 + 4];
      half[row * (width / 2) * 4 + column] = sum / 4;
    }
  }
  return { pixels: half, width: width / 2, height: height / 2 };
}

function meanApart(a: Picture, b: Picture): number {
  return a.pixels.reduce((sum, value, index) => sum + Math.abs(value - b.pixels[index]), 0) / a.pixels.length;
}
