import { describe, expect, it } from 'vitest';
import { parseHex } from '../colour/hex.ts';
import { mainColours, nearestColour } from './main-colours.ts';

function pictureOf(
  width: number,
  height: number,
  colourAt: (x: number, y: number) => string,
  most: 255 | 65535 = 255,
) {
  const pixels = new (most === 255 ? Uint8Array : Uint16Array)(4 * width * height);
  for (let k = 0; k < width * height; k++) {
    const rgb = parseHex(colourAt(k % width, Math.floor(k / width)));
    pixels.set([...rgb.map((value) => Math.round(value * most)), most], 4 * k);
  }
  return { pixels, width, height };
}

describe('the main colours of a picture', () => {
  it('are the colours that were painted, with their shares, largest first', () => {
    const quarters = ['#f3ead8', '#f3ead8', '#8a2b1f', '#1f3a5a'];
    for (const most of [255, 65535] as const) {
      const picture = pictureOf(64, 64, (x, y) => quarters[2 * Number(y >= 32) + Number(x >= 32)], most);
      expect(mainColours(picture)).toEqual([
        { hex: '#f3ead8', share: 0.5 },
        { hex: '#1f3a5a', share: 0.25 },
        { hex: '#8a2b1f', share: 0.25 },
      ]);
    }
  });
  it('are not misled by stripes of any pitch, where only some pixels are looked at', () => {
    for (const pitch of [2, 3, 4, 8, 16, 25, 64]) {
      const picture = pictureOf(800, 400, (x) => (x % pitch === 0 ? '#000000' : '#ffffff'));
      const [white, black] = mainColours(picture);
      expect([white.hex, black.hex].sort()).toEqual(['#000000', '#ffffff']);
      expect(Math.min(white.share, black.share)).toBeCloseTo(1 / pitch, 2);
    }
  });
  it('take shades that are hardly told apart for one, and never name more than eight', () => {
    const grained = pictureOf(
      128,
      128,
      (x, y) => `#${(0xc8a050 + 0x010101 * ((x * 7 + y * 13) % 5)).toString(16)}`,
    );
    expect(mainColours(grained)).toMatchObject([{ share: 1 }]);
    const noise = pictureOf(
      256,
      256,
      (x, y) => `#${((Math.imul(x * 257 + y, 0x9e3779b1) >>> 8) & 0xffffff).toString(16).padStart(6, '0')}`,
    );
    expect(mainColours(noise).length).toBe(8);
    expect(mainColours(noise)).toEqual(mainColours(noise));
  });
  it('are those that translucent pixels show over the paper', () => {
    const picture = { pixels: new Uint8Array(4 * 16 * 16), width: 16, height: 16 };
    expect(mainColours(picture, parseHex('#f3ead8'))).toEqual([{ hex: '#f3ead8', share: 1 }]);
  });
});

it('the nearest of some colours is told with its difference', () => {
  const colours = [
    { hex: '#ffffff', share: 0.8 },
    { hex: '#8a2b1f', share: 0.2 },
  ];
  expect(nearestColour('#902d20', colours)).toMatchObject({ hex: '#8a2b1f' });
  expect(nearestColour('#ffffff', colours)).toEqual({ hex: '#ffffff', difference: 0 });
  expect(nearestColour('#ffffff', [])).toBeUndefined();
});
