import { expect, it } from 'vitest';
import { halveRows } from './halve.ts';

/** IEC 61966-2-1. */
const decode = (value: number) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4);
const encode = (light: number) => (light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055);

it('has the mean light of two by two, weighed by alpha, and at an odd edge of what is there', () => {
  const [width, height] = [5, 3];
  const pixels = Uint8Array.from({ length: 4 * width * height }, (_, k) => (k * 71 + 13 * (k >> 3)) % 256);
  const halved = new Uint8Array(4 * 3 * 2);
  halveRows({ pixels, width, height, channels: 4 }, halved, 0, 1);
  halveRows({ pixels, width, height, channels: 4 }, halved, 1, 1);
  for (let at = 0; at < 6; at++) {
    const four = [0, 1, 2, 3].map((k) => {
      const x = Math.min(2 * (at % 3) + (k % 2), width - 1);
      const y = Math.min(2 * Math.floor(at / 3) + (k >> 1), height - 1);
      return 4 * (y * width + x);
    });
    const alpha = four.reduce((sum, from) => sum + pixels[from + 3], 0);
    expect(Math.abs(halved[4 * at + 3] - alpha / 4)).toBeLessThanOrEqual(0.5);
    for (let channel = 0; channel < 3; channel++) {
      const light = four.reduce(
        (sum, from) => sum + pixels[from + 3] * decode(pixels[from + channel] / 255),
        0,
      );
      expect(Math.abs(halved[4 * at + channel] - 255 * encode(light / alpha))).toBeLessThan(0.6);
    }
  }
});

it('halves amounts, and leaves flat colours as they are', () => {
  const grey = new Uint8Array(2);
  halveRows(
    { pixels: Uint8Array.of(0, 255, 7, 9, 255, 0, 8, 8), width: 4, height: 2, channels: 1 },
    grey,
    0,
    1,
  );
  expect([...grey]).toEqual([128, 8]);
  const flat = new Uint8Array(4 * 36).map((_, k) => [12, 200, 77, 3][k % 4]);
  const halved = new Uint8Array(4 * 9);
  halveRows({ pixels: flat, width: 6, height: 6, channels: 4 }, halved, 0, 3);
  expect(halved).toEqual(flat.slice(0, 36));
});
