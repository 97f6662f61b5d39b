import { expect, it } from 'vitest';
import { isOpaque } from './opaque.ts';

const PIXELS = 10_000;

it.each([
  ['8 bit', 255, (offset: number) => new Uint8Array(new ArrayBuffer(PIXELS * 4 + offset), offset)],
  [
    '16 bit',
    65_535,
    (offset: number) => new Uint16Array(new ArrayBuffer(PIXELS * 8 + 2 * offset), 2 * offset),
  ],
] as const)('finds the one pixel that is not full, wherever it lies (%s)', (_, full, make) => {
  for (const offset of [0, 1, 4]) {
    const pixels = make(offset);
    for (let at = 3; at < pixels.length; at += 4) pixels[at] = full;
    expect(isOpaque(pixels)).toBe(true);
    for (const pixel of [0, 1, 4095, 4096, 4097, 8192, PIXELS - 1]) {
      for (const alpha of [0, full - 1, full >> 1]) {
        pixels[4 * pixel + 3] = alpha;
        expect(isOpaque(pixels)).toBe(false);
      }
      pixels[4 * pixel + 3] = full;
    }
  }
});
