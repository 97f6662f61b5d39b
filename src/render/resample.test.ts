import { expect, it } from 'vitest';
import { LINEAR_OF_BYTE } from '../colour/srgb.ts';
import { parseLayout } from '../repeat/layout.ts';
import { resampleTile } from './resample.ts';
import { gridOfTile } from './tile-grid.ts';

it('keeps the light of a tile whose rows are one too many for its drop', () => {
  const [width, height] = [8, 121];
  const pixels = new Uint8Array(4 * width * height).map((_, k) =>
    k % 4 === 3 || Math.floor(k / (4 * width)) % 2 === 0 ? 255 : 20,
  );
  const mean = (samples: ArrayLike<number>) => {
    let sum = 0;
    for (let k = 0; k < samples.length; k += 4) sum += LINEAR_OF_BYTE[samples[k]];
    return (4 * sum) / samples.length;
  };
  const facts = {
    layout: parseLayout('drop:1/2'),
    width,
    height,
    size: { width: 8, height: 121 },
    fit: true,
  };
  const fitted = resampleTile({ pixels, width, height }, gridOfTile(facts));
  expect([fitted.width, fitted.height]).toEqual([8, 122]);
  expect(Math.abs(mean(fitted.pixels) - mean(pixels))).toBeLessThan(0.02);
});
