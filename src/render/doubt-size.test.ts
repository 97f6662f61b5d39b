import { expect, it } from 'vitest';
import { doubtSize } from './doubt-size.ts';
import type { SizeSource } from './tile-grid.ts';

function doubtOf(dpi: number, width: number, from: SizeSource = 'file') {
  const mm = (width / dpi) * 25.4;
  return doubtSize({ size: { width: mm, height: mm }, from }, width);
}

it('a density that screens write, and a size that no mill prints, are doubted where only a file tells them', () => {
  expect(doubtOf(25.4, 1200)).toContain(
    'the repeat came out at 1200 x 1200 mm, from the 25.4 dpi that its file',
  );
  for (const dpi of [72, 96, 99]) expect(doubtOf(dpi, 600)).toMatch(/screen or a camera/);
  // 100 dpi as a PNG holds it: 3937 pixels per metre.
  expect(doubtOf(3.937 * 25.4, 600)).toBeUndefined();
  expect(doubtOf(300, 7560)).toBeUndefined();
  expect(doubtOf(150, 9600)).toMatch(/larger than mills print, some 1600 mm/);
});
it('what a person says is believed', () => {
  expect(doubtOf(25.4, 1200, 'given')).toBeUndefined();
  expect(doubtOf(25.4, 1200, 'given density')).toBeUndefined();
});
