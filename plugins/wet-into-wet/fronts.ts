import { addFractalRow, type FieldShape, type FractalNoise, march, type PeriodicField } from 'tenter';
import type { Sources } from './sources.ts';

/** Where the water of one kind stopped: a smooth level that runs through 0 on its outline. Plain data. */
export interface Fronts {
  /** About mm from the outline, negative inside; `margin` everywhere far outside. */
  readonly level: PeriodicField;
  /** Per cell the strength of what came first there, 0 where nothing came. */
  readonly strength: Float32Array;
  /** Per cell how far, mm, its front had come from its mark. */
  readonly travelled: Float32Array;
  readonly reach: number;
  readonly margin: number;
}

/**
 * Fronts through a rough sheet: |grad T| = 1/F, F = exp(roughness * noise). T is the square root of time
 * in mm, for a front fed from a reservoir goes as the root of time (Lucas 1918, Washburn 1921), so it
 * advances evenly in T.
 */
export function growFronts(
  shape: FieldShape,
  sources: Sources,
  noise: FractalNoise,
  roughness: number,
  margin: number,
): Fronts {
  const { reach } = sources;
  const level = new Float32Array(shape.width * shape.height).fill(margin);
  const strength = new Float32Array(level.length);
  const travelled = new Float32Array(level.length);
  const fronts = { level: { ...shape, values: level }, strength, travelled, reach, margin };
  if (sources.count === 0) return fronts;
  const slowness = roughSlowness(shape, noise, roughness);
  const { times, winners } = march(shape, slowness, sources, { until: reach + margin });
  for (let k = 0; k < level.length; k++) {
    if (winners[k] < 0) continue;
    level[k] = Math.min(margin, times[k] - reach);
    strength[k] = sources.strength[winners[k]];
    travelled[k] = times[k] - sources.start[winners[k]];
  }
  return fronts;
}

/** The first of many ways through a rough sheet is faster than the mean: measured, about half the variance. */
function roughSlowness(shape: FieldShape, noise: FractalNoise, roughness: number): Float32Array {
  const { width, height, mmPerCellX, mmPerCellY } = shape;
  const slowness = new Float32Array(width * height).fill(0.5 * roughness * roughness);
  for (let j = 0; j < height; j++) {
    const y = (j + 0.5) * mmPerCellY;
    addFractalRow(noise, mmPerCellX / 2, mmPerCellX, y, -roughness, slowness, width, j * width);
  }
  for (let k = 0; k < slowness.length; k++) slowness[k] = Math.exp(slowness[k]);
  return slowness;
}
