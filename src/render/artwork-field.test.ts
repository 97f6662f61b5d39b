import { describe, expect, it } from 'vitest';
import { sharedSamples } from '../colour/frame.ts';
import { decodeSrgb } from '../colour/srgb.ts';
import { ARTWORK_CHANNELS } from '../effect/artwork.ts';
import { fitGrid } from '../repeat/grid.ts';
import { parseLayout } from '../repeat/layout.ts';
import { artworkField } from './artwork-field.ts';

/** A dark disc right of the middle on a light ground, its edge smoothed over a pixel; the lower left corner is open. */
function drawTile(width: number, height: number, widthMm: number, heightMm: number) {
  const pixels = sharedSamples(4 * width * height, 8);
  const [mm, mmDown] = [widthMm / width, heightMm / height];
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const far = Math.hypot((x + 0.5) * mm - 13, (y + 0.5) * mmDown - 8);
      const ground = Math.min(1, Math.max(0, 0.5 + (far - 4) / mm));
      const isOpen = (x + 0.5) * mm < 3 && (y + 0.5) * mmDown > 12;
      pixels.set([255 * ground, 40, 200, isOpen ? 0 : 255], 4 * (y * width + x));
    }
  }
  return { pixels, width, height };
}

function fieldOf(layout: string, pixelsPerMm: number, widthMm = 20, heightMm = 15) {
  const grid = fitGrid({ layout: parseLayout(layout), width: widthMm, height: heightMm }, pixelsPerMm);
  const tile = drawTile(grid.tileWidth, grid.tileHeight, widthMm, heightMm);
  return artworkField(tile, grid.repeat.layout, grid.box);
}

describe('the artwork as effects read it', () => {
  it('is in cells of half a mm, in linear light, with alpha beside it', () => {
    const { artwork } = fieldOf('straight', 12);
    expect([artwork.width, artwork.height, artwork.mmPerCellX]).toEqual([40, 30, 0.5]);
    const at = (x: number, y: number) => Math.floor(y / 0.5) * artwork.width + Math.floor(x / 0.5);
    expect(artwork.red[at(5, 5)]).toBe(1);
    expect(artwork.red[at(13, 8)]).toBe(0);
    expect(artwork.blue[at(5, 5)]).toBeCloseTo(decodeSrgb(200 / 255), 6);
    expect([artwork.alpha[at(5, 5)], artwork.alpha[at(1, 14)], artwork.blue[at(1, 14)]]).toEqual([1, 0, 0]);
    for (const name of ARTWORK_CHANNELS) expect(artwork[name].buffer).toBeInstanceOf(SharedArrayBuffer);
  });
  it.each([24, 6, 3])('is at %d px per mm what it is at 12', (pixelsPerMm) => {
    const [one, other] = [fieldOf('straight', 12).artwork, fieldOf('straight', pixelsPerMm).artwork];
    expect(other.lattice).toEqual(one.lattice);
    for (const name of ARTWORK_CHANNELS) {
      // Linear light of an edge that is smoothed in sRGB differs most.
      const apart = one[name].map((value, k) => Math.abs(value - other[name][k]));
      expect(apart.reduce((most, value) => Math.max(most, value), 0)).toBeLessThan(0.2);
      expect(apart.reduce((sum, value) => sum + value, 0) / apart.length).toBeLessThan(0.006);
    }
  });
  it('weighs colours by their alpha', () => {
    const pixels = sharedSamples(8, 8);
    pixels.set([255, 0, 0, 255, 0, 255, 0, 0]);
    const { box, repeat } = fitGrid({ layout: parseLayout('straight'), width: 0.5, height: 0.5 }, 4);
    const { artwork } = artworkField({ pixels, width: 2, height: 1 }, repeat.layout, box);
    expect([...artwork.red, ...artwork.green, ...artwork.alpha]).toEqual([1, 0, 0.5]);
  });
  it.each([
    ['mirror-x', 2, 1, true, false],
    ['mirror-y', 1, 2, false, true],
    ['mirror-xy', 2, 2, true, true],
    ['turn', 2, 1, true, true],
  ] as const)('is unfolded over %s', (layout, across, down, flipX, flipY) => {
    const tile = fieldOf('straight', 12).artwork;
    const { artwork } = fieldOf(layout, 12);
    expect([artwork.width, artwork.height]).toEqual([tile.width * across, tile.height * down]);
    for (let j = 0; j < tile.height; j++) {
      for (let i = 0; i < tile.width; i++) {
        const x = flipX ? artwork.width - 1 - i : i;
        const y = flipY ? artwork.height - 1 - j : j;
        const wanted = tile.red[j * tile.width + i];
        expect(artwork.red[j * artwork.width + i]).toBeCloseTo(wanted, 5);
        expect(artwork.red[y * artwork.width + x]).toBeCloseTo(wanted, 5);
      }
    }
  });
  it('takes tiles of fewer pixels than cells', () => {
    const pixels = sharedSamples(4, 16);
    pixels.set([65_535, 0, 65_535, 65_535]);
    const { box, repeat } = fitGrid({ layout: parseLayout('brick:1/2'), width: 30, height: 20 }, 4);
    const { artwork } = artworkField({ pixels, width: 1, height: 1 }, repeat.layout, box);
    for (const [name, value] of [
      ['red', 1],
      ['green', 0],
      ['alpha', 1],
    ] as const)
      for (const one of artwork[name]) expect(one).toBeCloseTo(value, 5);
  });
  it('is told from others by its id, and known again by it', () => {
    const { id } = fieldOf('straight', 6);
    expect(fieldOf('straight', 6).id).toBe(id);
    expect(fieldOf('mirror-x', 6).id).not.toBe(id);
    expect(fieldOf('straight', 6, 20.5).id).not.toBe(id);
  });
  it('stays small on a large box', () => {
    const { box, repeat } = fitGrid({ layout: parseLayout('straight'), width: 3000, height: 3000 }, 0.01);
    const { artwork } = artworkField(drawTile(30, 30, 3000, 3000), repeat.layout, box);
    expect(artwork.width * artwork.height).toBeLessThan(2.1 * 2 ** 20);
  });
});
