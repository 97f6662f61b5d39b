import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { checkSeams } from './check.ts';

const WIDTH = 1889;
const HEIGHT = 400;

/**
 * Stripes of a width that is no whole number of px, so that hardly a border lies where lines are spread evenly; the
 * seam is one of the borders.
 */
function stripes(count: number): Uint8Array {
  const pixels = new Uint8Array(WIDTH * HEIGHT * 4).fill(255);
  for (let y = 0, at = 0; y < HEIGHT; y++) {
    for (let x = 0; x < WIDTH; x++, at += 4) {
      pixels.fill(Math.floor((x * count) / WIDTH) % 2 === 0 ? 232 : 214, at, at + 3);
    }
  }
  return pixels;
}

const gradeOf = (pixels: Uint8Array) =>
  checkSeams({ pixels, width: WIDTH, height: HEIGHT }, parseLayout('straight')).grade;

describe('a seam on the border of a stripe', () => {
  it.each([8, 14, 32])('of %i closes: it is a border like those inside', (count) => {
    expect(gradeOf(stripes(count))).toBe('closes');
  });
  it('is open where no stripe inside has a border as hard', () => {
    const pixels = stripes(8);
    for (let y = 0; y < HEIGHT; y++) pixels.fill(150, y * WIDTH * 4, y * WIDTH * 4 + 60);
    for (let at = 3; at < pixels.length; at += 4) pixels[at] = 255;
    expect(gradeOf(pixels)).toBe('open');
  });
});
