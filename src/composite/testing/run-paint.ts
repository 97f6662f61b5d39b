import type { Band } from '../../effect/effect.ts';
import { boxPixelFinder, tilePixelFinder } from '../../repeat/fold.ts';
import { coarserGrid, type Grid, gridOfPixels } from '../../repeat/grid.ts';
import { parseLayout } from '../../repeat/layout.ts';
import { layBleed } from '../bleed.ts';
import { type SoftLevel, softenRows } from '../soft-level.ts';
import { type Pixels, readBand } from '../working.ts';

export const LAYOUTS = [
  'straight',
  'drop:1/2',
  'drop:1/4',
  'brick:1/2',
  'mirror-x',
  'mirror-y',
  'mirror-xy',
  'turn',
];

export type Space = 'box' | 'tile';

/** A tenth of a millimetre to the pixel. */
export const gridOf = (layout: string, width: number, height = width) =>
  gridOfPixels({ layout: parseLayout(layout), width: width / 10, height: height / 10 }, width, height);

function place(grid: Grid, space: Space) {
  return space === 'box'
    ? { width: grid.width, height: grid.height, find: boxPixelFinder(grid) }
    : { width: grid.tileWidth, height: grid.tileHeight, find: tilePixelFinder(grid) };
}

export function stackOf(pixels: Pixels, grid: Grid, space: Space = 'box', levels = 4): SoftLevel[] {
  const stack: SoftLevel[] = [];
  let from = { kind: 'artwork' as 'artwork' | 'level', pixels, ...place(grid, space) };
  for (let level = 1; level <= levels; level++) {
    const at = place(coarserGrid(grid, 2 ** level), space);
    const to = { samples: new Uint16Array(4 * at.width * at.height), ...at };
    softenRows(from, to, 0, at.height);
    stack.push(to);
    from = { kind: 'level', pixels: to.samples, ...at };
  }
  return stack;
}

/** Light of a picture whose paint runs `spread` px everywhere, or as given per pixel. */
export function run(
  pixels: Pixels,
  grid: Grid,
  spread: number | Float32Array,
  space: Space = 'box',
  strength = 1,
) {
  const { width, height } = place(grid, space);
  const band: Band = { x: 0, y: 0, width, height, mmPerPixelX: 0.1, mmPerPixelY: 0.1 };
  const working = readBand(pixels, 0, width * height, new Float32Array(4 * width * height));
  const bleed =
    typeof spread === 'number'
      ? new Float32Array(width * height).fill(spread / 10)
      : spread.map((px) => px / 10);
  layBleed(working, stackOf(pixels, grid, space), { width, height }, band, { bleed, strength });
  return working;
}
