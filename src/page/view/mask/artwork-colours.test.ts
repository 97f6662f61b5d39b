import { describe, expect, it } from 'vitest';
import { labOfSrgb, parseHex } from '../../../colour/index.ts';
import { openColourMask } from '../../../composite/index.ts';
import { type Artwork, ArtworkColours } from './artwork-colours.ts';

const SIDE = 96;
/** Every colour once, some translucent. */
const pixels = Uint8Array.from({ length: 4 * SIDE * SIDE }, (_, at) => {
  const pixel = at >> 2;
  return [(pixel * 37) % 256, (pixel * 101) % 256, (pixel * 3) % 256, pixel % 3 ? 255 : (pixel * 7) % 256][
    at & 3
  ];
});
const artwork: Artwork = {
  pixels,
  width: SIDE,
  height: SIDE,
  widthMm: 48,
  heightMm: 48,
  layout: 'drop:1/2',
  paper: '#f3ead8',
};

describe('where a mask by colours lies, on the page', () => {
  it('is the very number of the host, pixel for pixel, whatever was measured before', () => {
    const colours = new ArtworkColours(artwork);
    const seen = new Set<number>();
    for (const [hexes, tolerance, softness, spare] of [
      [['#803010'], 5, 3, false],
      [['#803010', '#40c080'], 20, 11.5, false],
      [['#803010', '#40c080'], 0, 0, true],
      [['#40c080'], 33.3, 40, true],
      [['#f3ead8', '#40c080', '#ff00ff'], 8, 25, false],
    ] as const) {
      const mask = { tolerance, softness, spare };
      const found = colours.shares(mask, hexes);
      const labs = hexes.map((hex) => labOfSrgb(parseHex(hex)));
      const expected = new Float32Array(SIDE * SIDE);
      openColourMask({ ...mask, colours: labs, paper: parseHex(artwork.paper) })(pixels, 0, expected);
      expect(found).toEqual(expected);
      for (const share of found) seen.add(share);
      expect(colours.covers(mask, hexes)).toEqual(Uint8Array.from(found, (share) => Math.round(255 * share)));
    }
    expect(seen.size).toBeGreaterThan(100);
  });

  it('finds the colour under a place, over the seams', () => {
    const colours = new ArtworkColours(artwork);
    const home = colours.at(1.2, 30.3);
    expect(colours.at(1.2 + 48, 30.3 + 24)).toBe(home);
    expect(colours.at(1.2 - 96, 30.3)).toBe(home);
    const at = 4 * (60 * SIDE + 2);
    const cover = pixels[at + 3] / 255;
    const shown = [0, 1, 2].map((channel) =>
      Math.floor(
        255 * ((pixels[at + channel] / 255) * cover + parseHex(artwork.paper)[channel] * (1 - cover)) + 0.5,
      )
        .toString(16)
        .padStart(2, '0'),
    );
    expect(home).toBe(`#${shown.join('')}`);
  });
});
