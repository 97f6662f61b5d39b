import { GlobalFonts } from '@napi-rs/canvas';
import { describe, expect, it } from 'vitest';
import type { Artwork } from '../gallery/artwork/artwork.ts';
import { COLLECTION } from '../gallery/artwork/collection.ts';
import { drawTile, drawWindow, gridOf, type Picture } from '../gallery/artwork/tile.ts';
import { layInRepeat } from '../gallery/in-repeat.ts';
import { captionOf, drawSheet } from '../gallery/sheet.ts';
import { shrink } from '../gallery/shrink.ts';
import { parseLayout, type Repeat } from '../src/repeat/index.ts';

const cases = COLLECTION.map((artwork) => [artwork.layout, artwork] as const);

function repeatOf({ layout, width, height }: Artwork): Repeat {
  return { layout: parseLayout(layout), width, height };
}

describe('a tile laid in repeat', () => {
  it.each(cases)('in %s shows what the pen draws over the same stretch of cloth', (_, artwork) => {
    const tile = drawTile(artwork, 1);
    const [width, height] = [tile.width * 3 + 5, tile.height * 3 + 7];
    const window = { x: -tile.width - 3, y: -tile.height - 2, width, height };
    const drawn = drawWindow(artwork, gridOf(artwork, 1), window);
    const laid = layInRepeat(tile, repeatOf(artwork), { ...window, pixelsPerMm: 1 });
    const largest = laid.pixels.reduce(
      (most, value, i) => Math.max(most, Math.abs(value - drawn.pixels[i])),
      0,
    );
    // Skia smooths the two sides of a shape that lies on a mirror a few levels differently.
    expect(largest).toBeLessThanOrEqual(artwork.layout.startsWith('mirror') ? 16 : 0);
  });
});

describe('a picture made smaller', () => {
  it('has the mean light of bytes 64 and 192, not their mean (IEC 61966-2-1)', () => {
    const checks = Uint8Array.from({ length: 8 * 8 * 4 }, (_, index) => {
      const [x, y] = [(index >> 2) % 8, index >> 5];
      return (index & 3) === 3 ? 255 : (x + y) % 2 ? 64 : 192;
    });
    // (((64 / 255 + 0.055) / 1.055) ** 2.4 + ((192 / 255 + 0.055) / 1.055) ** 2.4) / 2 = 0.28919, encoded 146.4.
    const { pixels } = shrink({ pixels: checks, width: 8, height: 8 }, 4, 4);
    const [grey, alpha] = [
      new Set(pixels.filter((_, i) => (i & 3) !== 3)),
      pixels.filter((_, i) => (i & 3) === 3),
    ];
    expect([...grey]).toHaveLength(1);
    expect(Math.abs([...grey][0] - 146.4)).toBeLessThan(1);
    expect(alpha.every((value) => value === 255)).toBe(true);
  });

  it('shares a pixel between those it falls on: 3 to 2', () => {
    const thirds: Picture = {
      pixels: Uint8Array.from([255, 0, 0].flatMap((v) => [v, v, v, 255])),
      width: 3,
      height: 1,
    };
    // Two thirds of full light, IEC 61966-2-1: 1.055 * (2 / 3) ** (1 / 2.4) - 0.055 = 0.836.
    expect([...shrink(thirds, 2, 1).pixels]).toEqual([213, 213, 213, 255, 0, 0, 0, 255]);
  });
});

describe('a sheet', () => {
  const artwork = COLLECTION.find(({ layout }) => layout === 'straight')!;
  const content = {
    name: artwork.title,
    repeat: repeatOf(artwork),
    tile: drawTile(artwork, 4),
    effect: 'linen-weave',
    preset: 'any',
    inks: artwork.inks,
  };
  const sheet = drawSheet(content);

  it('has a bar that is as long as it says, measured against the repeat that it shows', () => {
    const bar = longestBar(sheet);
    const period = periodOf(sheet);
    expect(Math.abs((bar / 100) * artwork.width - period)).toBeLessThan((0.6 / 100) * artwork.width);
  });

  it('says what it shows', () => {
    expect(captionOf(content)).toEqual([
      ['Layout', 'straight repeat'],
      ['Repeat', '250 × 250 mm'],
      ['Effect', 'linen weave'],
      ['Preset', 'any'],
    ]);
  });

  it('brings its own letters', () => {
    expect(GlobalFonts.has('Sheet lettering 400')).toBe(true);
    expect(GlobalFonts.has('Sheet lettering 500')).toBe(true);
    const other = drawSheet({ ...content, name: 'Anything else' });
    expect(Buffer.compare(other.pixels, sheet.pixels)).not.toBe(0);
  });

  it('is drawn the same every time', () => {
    expect(Buffer.compare(drawSheet(content).pixels, sheet.pixels)).toBe(0);
  });
});

const LETTERS = 0x2d2b27;
const colourAt = ({ pixels, width }: Picture, x: number, y: number) => {
  const index = (y * width + x) * 4;
  return (pixels[index] << 16) | (pixels[index + 1] << 8) | pixels[index + 2];
};

/** The length in pixels of the bar under the large sample: its top edge is the longest line in the letters' ink. */
function longestBar(sheet: Picture): number {
  let longest = 0;
  for (let y = 0; y < sheet.height; y++) {
    for (let x = 0, run = 0; x < sheet.width; x++) {
      run = colourAt(sheet, x, y) === LETTERS ? run + 1 : 0;
      longest = Math.max(longest, run);
    }
  }
  return longest;
}

/** The shift in pixels at which rows through the large sample repeat exactly. */
function periodOf(sheet: Picture): number {
  for (let shift = 100; shift < 700; shift++) {
    let same = true;
    for (let x = 100; same && x < 1000 - shift; x++) {
      for (let y = 200; y < 900; y += 50) same &&= colourAt(sheet, x, y) === colourAt(sheet, x + shift, y);
    }
    if (same) return shift;
  }
  return Number.NaN;
}
