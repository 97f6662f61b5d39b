import { sharedSamples } from '../colour/frame.ts';
import { Fault } from '../fault.ts';
import { readMask } from '../picture/index.ts';
import { resampleTile } from '../render/resample.ts';
import type { RenderStep } from '../render/step.ts';
import type { Grid } from '../repeat/grid.ts';

/**
 * Reads the mask pictures of the steps that have one.
 *
 * @param own Of the tile as its file has it, where that is rendered on another grid: masks of its pixels
 *   are resampled as it was.
 * @throws Fault (input) for a picture that cannot be read or is not the size of the tile.
 */
export function readMasks(
  steps: readonly RenderStep[],
  grid: Grid,
  own: Grid = grid,
): Promise<(Uint8Array | undefined)[]> {
  return Promise.all(
    steps.map(({ mask }) => (mask?.picture ? readTileMask(mask.picture, grid, own) : undefined)),
  );
}

async function readTileMask(path: string, grid: Grid, own: Grid): Promise<Uint8Array> {
  const { samples, width, height } = await readMask(path);
  if (width === grid.tileWidth && height === grid.tileHeight) return samples;
  if (width === own.tileWidth && height === own.tileHeight) return resampleMask(samples, own, grid);
  throw new Fault({
    kind: 'input',
    expected: `a mask the size of the tile, ${own.tileWidth} x ${own.tileHeight} px`,
    subject: path,
    received: `${width} x ${height} px`,
    remedy: 'Make it from the tile itself, without resizing.',
  });
}

/** A mask is a share, as alpha is, and is mixed like it. */
function resampleMask(samples: Uint8Array, { tileWidth, tileHeight }: Grid, grid: Grid): Uint8Array {
  const pixels = sharedSamples(samples.length * 4, 8) as Uint8Array;
  for (let k = 0; k < samples.length; k++) pixels[k * 4 + 3] = samples[k];
  const small = resampleTile({ pixels, width: tileWidth, height: tileHeight }, grid).pixels;
  const mask = sharedSamples(small.length / 4, 8) as Uint8Array;
  for (let k = 0; k < mask.length; k++) mask[k] = small[k * 4 + 3];
  return mask;
}
