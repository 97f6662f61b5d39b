import type { Box } from 'tenter';
import type { SpongeModel } from './model.ts';
import { paintSponge } from './paint.ts';

/** Pixels along a side from which the mean is taken. */
const SAMPLE = 220;

/** The mean load of the whole repeat, from a small picture of it. */
export function meanLoad(model: SpongeModel, box: Box): number {
  const columns = Math.min(SAMPLE, Math.ceil(box.width / 0.5));
  const rows = Math.min(SAMPLE, Math.ceil(box.height / 0.5));
  const load = new Float32Array(columns * rows).fill(1);
  paintSponge(
    model,
    {
      x: 0,
      y: 0,
      width: columns,
      height: rows,
      mmPerPixelX: box.width / columns,
      mmPerPixelY: box.height / rows,
    },
    { width: columns, height: rows, load } as never,
  );
  return load.reduce((sum, value) => sum + value, 0) / load.length;
}
