import { sharedSamples } from '../colour/frame.ts';
import { Fault } from '../fault.ts';
import { readMask } from '../picture/index.ts';
import { resampleTile } from '../render/resample.ts';
import type { RenderStep } from '../render/step.ts';
import type { Grid } from '../repeat/grid.ts';

/**
 * Reads the mask pictures of the steps that have one, at the tile's pixels.
 *
 * @throws Fault (input) for a picture that cannot be read or is not of the tile's shape.
 */
export function readMasks(steps: readonly RenderStep[], grid: Grid): Promise<(Uint8Array | undefined)[]> {
  return Promise.all(steps.map(({ mask }) => (mask?.picture ? readTileMask(mask.picture, grid) : undefined)));
}

async function readTileMask(path: string, grid: Grid): Promise<Uint8Array> {
  const { tileWidth, tileHeight } = grid;
  const mask = await readMask(path);
  const { width, height } = mask;
  if (width === tileWidth && height === tileHeight) return mask.samples;
  // A tile that is rendered at another density brings its mask along.
  if (width !== tileWidth && Math.abs((width * tileHeight) / tileWidth - height) <= 1)
    return resampleMask(mask, grid);
  throw new Fault({
    kind: 'input',
    expected: `a mask the size of the tile, ${tileWidth} x ${tileHeight} px, or of its shape`,
    subject: path,
    received: `${width} x ${height} px`,
    remedy: 'Make it from the tile itself.',
  });
}

/** As the alpha of white paper, which is mixed as the amount that it is. */
function resampleMask(
  {
    samples,
    width,
    height,
  }: { readonly samples: Uint8Array; readonly width: number; readonly height: number },
  grid: Grid,
): Uint8Array {
  const pixels = sharedSamples(4 * samples.length, 8).fill(255);
  for (const [k, sample] of samples.entries()) pixels[4 * k + 3] = sample;
  const resampled = resampleTile({ pixels, width, height }, grid).pixels;
  const found = sharedSamples(resampled.length / 4, 8) as Uint8Array;
  for (let k = 0; k < found.length; k++) found[k] = resampled[4 * k + 3];
  return found;
}
