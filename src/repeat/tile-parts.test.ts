import { expect, it } from 'vitest';
import { tilePixelFinder } from './fold.ts';
import { gridOfPixels } from './grid.ts';
import { parseLayout } from './layout.ts';
import { tileParts } from './tile-parts.ts';

const LAYOUTS = [
  'straight',
  'drop:1/2',
  'drop:1/3',
  'drop:2/5',
  'brick:1/2',
  'brick:2/3',
  'mirror-x',
  'mirror-y',
  'mirror-xy',
  'turn',
];

it.each(LAYOUTS)('cuts a patch of %s so that every pixel is where folding finds it, once', (name) => {
  const grid = gridOfPixels({ layout: parseLayout(name), width: 30, height: 30 }, 30, 30);
  const find = tilePixelFinder(grid);
  for (const patch of [
    { x: -47, y: -71, width: 120, height: 133 },
    { x: 3, y: 4, width: 5, height: 6 },
    { x: 91, y: -30, width: 30, height: 30 },
  ]) {
    const found = new Int32Array(patch.width * patch.height).fill(-1);
    for (const { left, top, width, height, x, y, flipX, flipY } of tileParts(grid, patch)) {
      for (let row = 0; row < height; row++) {
        for (let column = 0; column < width; column++) {
          const at = (top + row) * patch.width + left + column;
          expect(found[at]).toBe(-1);
          found[at] = (y + (flipY ? height - 1 - row : row)) * 30 + x + (flipX ? width - 1 - column : column);
        }
      }
    }
    for (const [at, pixel] of found.entries()) {
      const [x, y] = [patch.x + (at % patch.width), patch.y + Math.floor(at / patch.width)];
      expect(pixel, `${x}, ${y}`).toBe(find(x, y));
    }
  }
});
