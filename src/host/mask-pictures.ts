import { Fault } from '../fault.ts';
import { readMask } from '../picture/index.ts';
import type { RenderStep } from '../render/step.ts';
import type { Grid } from '../repeat/grid.ts';

/**
 * Reads the mask pictures of the steps that have one.
 *
 * @throws Fault (input) for a picture that cannot be read or is not the size of the tile.
 */
export function readMasks(steps: readonly RenderStep[], grid: Grid): Promise<(Uint8Array | undefined)[]> {
  return Promise.all(steps.map(({ mask }) => (mask?.picture ? readTileMask(mask.picture, grid) : undefined)));
}

async function readTileMask(path: string, { tileWidth, tileHeight }: Grid): Promise<Uint8Array> {
  const { samples, width, height } = await readMask(path);
  if (width === tileWidth && height === tileHeight) return samples;
  throw new Fault({
    kind: 'input',
    expected: `a mask the size of the tile, ${tileWidth} x ${tileHeight} px`,
    subject: path,
    received: `${width} x ${height} px`,
    remedy: 'Make it from the tile itself, without resizing.',
  });
}
