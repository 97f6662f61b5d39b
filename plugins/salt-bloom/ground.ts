import {
  addBilinearRow,
  type Box,
  type FieldShape,
  layWash,
  type PeriodicField,
  type RandomStream,
} from 'tenter';
import type { SaltValues } from './parameters.ts';

/** The wash as a brush laid it, on the cells of the salt. */
export interface Ground {
  /** Paint, mean 1. */
  readonly paint: Float32Array;
  /** How much more of it is heavy pigment than stain, -1..1. */
  readonly heavy: PeriodicField;
  /** How strongly it settles in the hollows. */
  readonly settling: PeriodicField;
}

/** A wash of its own, however the salt falls on it; nothing where it was poured. */
export function layGround(
  values: SaltValues,
  box: Box,
  shape: FieldShape,
  random: (name: string) => RandomStream,
  isSketch: boolean,
): Ground | undefined {
  const { brushwork, granulation, tooth } = values;
  if (brushwork === 0) return undefined;
  const wash = layWash(
    box,
    {
      ...{ brush: 72, stroke: 420, direction: -6, drying: 0.2, edges: 0.75, bead: 0.7 },
      ...{ unevenness: 0.5, grading: 0.25, backRuns: 0.12, skips: 0.1, granulation, tooth },
    },
    (name) => random(`ground ${name}`),
    isSketch,
  );
  const { width, height, mmPerCellX, mmPerCellY } = shape;
  const paint = new Float32Array(width * height);
  for (let j = 0; j < height; j++) {
    const y = (j + 0.5) * mmPerCellY;
    addBilinearRow(wash.paint, mmPerCellX / 2, mmPerCellX, y, brushwork, paint, width, j * width);
  }
  for (let k = 0; k < paint.length; k++) paint[k] = Math.max(0.05, 1 - brushwork + paint[k]);
  return { paint, heavy: wash.heavy, settling: wash.settling };
}
