import { describe, expect, it } from 'vitest';
import { parseHex } from '../colour/hex.ts';
import { takeOffPaper } from './off-paper.ts';

/** W3C Compositing and Blending Level 1, source-over on an opaque backdrop: co = as Cs + (1 - as) Cb. */
function sourceOver(layer: ArrayLike<number>, at: number, paper: readonly number[], most: number): number[] {
  const alpha = layer[at + 3] / most;
  return paper.map((backdrop, channel) => alpha * layer[at + channel] + (1 - alpha) * backdrop * most);
}

const EVERY_COLOUR = Array.from({ length: 17 ** 3 }, (_, k) =>
  [k % 17, Math.floor(k / 17) % 17, Math.floor(k / 289)].map((step) => step * 15.9375),
);

describe('takeOffPaper', () => {
  for (const [name, hex] of [
    ['white', '#ffffff'],
    ['cream', '#f3ead8'],
    ['black', '#000000'],
    ['mid grey', '#808080'],
  ] as const) {
    it(`gives every colour back over ${name} paper within one step, 8 and 16 bit`, () => {
      const paper = parseHex(hex);
      for (const [most, Samples] of [
        [255, Uint8Array],
        [65535, Uint16Array],
      ] as const) {
        const before = Samples.from(
          EVERY_COLOUR.flatMap((colour) => [
            ...colour.map((value) => Math.round((value / 255) * most)),
            most,
          ]),
        );
        const after = before.slice();
        takeOffPaper(after, paper);
        for (let at = 0; at < before.length; at += 4) {
          const back = sourceOver(after, at, paper, most);
          for (let channel = 0; channel < 3; channel++)
            expect(Math.abs(back[channel] - before[at + channel])).toBeLessThanOrEqual(1);
        }
      }
    });
  }

  it('leaves bare paper transparent and black on white opaque', () => {
    const pixels = Uint8Array.of(255, 255, 255, 255, 0, 0, 0, 255, 255, 0, 0, 255);
    takeOffPaper(pixels, [1, 1, 1]);
    expect([...pixels]).toEqual([255, 255, 255, 0, 0, 0, 0, 255, 255, 0, 0, 255]);
  });

  it('lays half as much for a grey half way to white', () => {
    const pixels = Uint8Array.of(128, 128, 128, 255);
    takeOffPaper(pixels, [1, 1, 1]);
    expect([...pixels]).toEqual([0, 0, 0, 127]);
  });
});
