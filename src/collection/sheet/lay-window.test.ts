import { describe, expect, it } from 'vitest';
import { fitGrid, gridOfPixels, parseLayout } from '../../repeat/index.ts';
import { layWindow } from './lay-window.ts';
import type { SmallPicture } from './small-picture.ts';

const [WIDTH, HEIGHT] = [12, 8];

/** Every pixel has a colour of its own, so that a wrong one is seen. 1 mm is 1 px. */
function chequered(layout: string): SmallPicture {
  const pixels = new Uint8Array(WIDTH * HEIGHT * 3);
  for (let y = 0; y < HEIGHT; y++) {
    for (let x = 0; x < WIDTH; x++) pixels.set([20 * x, 30 * y, 100], (y * WIDTH + x) * 3);
  }
  const repeat = { layout: parseLayout(layout), width: WIDTH, height: HEIGHT };
  return { pixels, grid: gridOfPixels(repeat, WIDTH, HEIGHT) };
}

/** Which tile pixel stands at (x, y), worked out from what each layout means on the cloth. */
const EXPECTED: Record<string, (x: number, y: number) => [number, number]> = {
  straight: (x, y) => [x % 12, y % 8],
  // Every column hangs half a tile lower than the one to its left.
  'drop:1/2': (x, y) => [x % 12, (y + (Math.floor(x / 12) % 2) * 4) % 8],
  'drop:1/4': (x, y) => [x % 12, (y + 8 * 8 - Math.floor(x / 12) * 2) % 8],
  // Every row is pushed a third of a tile further to the right than the one above.
  'brick:1/3': (x, y) => [(x + 12 * 8 - Math.floor(y / 8) * 4) % 12, y % 8],
  'mirror-x': (x, y) => [Math.floor(x / 12) % 2 ? 11 - (x % 12) : x % 12, y % 8],
  'mirror-xy': (x, y) => [
    Math.floor(x / 12) % 2 ? 11 - (x % 12) : x % 12,
    Math.floor(y / 8) % 2 ? 7 - (y % 8) : y % 8,
  ],
};

describe('a window onto cloth', () => {
  it.each(Object.keys(EXPECTED))('shows the tile laid %s', (layout) => {
    const window = layWindow(chequered(layout), 50, 1);
    for (let y = 0; y < 50; y++) {
      for (let x = 0; x < 50; x++) {
        const [column, row] = EXPECTED[layout](x, y);
        const at = (y * 50 + x) * 4;
        expect([...window.slice(at, at + 4)], `${x}, ${y}`).toEqual([20 * column, 30 * row, 100, 255]);
      }
    }
  });

  it('keeps its scale over many repeats of a tile that has no whole number of pixels', () => {
    // 10.3 mm at 1 px/mm is 10 px; ten repeats must still take 103 px, not 100.
    const grid = fitGrid({ layout: parseLayout('straight'), width: 10.3, height: 10.3 }, 1);
    const pixels = new Uint8Array(grid.tileWidth * grid.tileHeight * 3).fill(255);
    for (let y = 0; y < grid.tileHeight; y++)
      pixels.fill(0, y * grid.tileWidth * 3, y * grid.tileWidth * 3 + 3);
    const window = layWindow({ pixels, grid }, 120, 1);
    const dark = Array.from({ length: 120 }, (_, x) => 255 - window[x * 4]);
    const middle = (from: number) => {
      const part = dark.slice(from, from + 6);
      return (
        part.reduce((sum, value, i) => sum + value * (from + i), 0) /
        part.reduce((sum, value) => sum + value, 0)
      );
    };
    expect(Math.abs(middle(101) - middle(0) - 103)).toBeLessThan(0.4);
  });
});
