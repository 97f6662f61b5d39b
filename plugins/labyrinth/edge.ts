import { meanOfLoads, smoothstep } from 'tenter';
import type { LabyrinthModel } from './model.ts';

/** The load of a pixel by how deep inside the figure its middle lies. */
export interface EdgeTable {
  readonly loads: Float32Array;
  /** Entries per mm, and the entry of the edge itself. */
  readonly perMm: number;
  readonly middle: number;
}

const ENTRIES = 257;
/** Samples across a pixel. */
const SAMPLES = 16;

/**
 * The loads from well outside to well inside, each the one whose light is the mean over a pixel: so a far view is
 * as light as a near one, though loads are exponents.
 */
export function edgeTable(model: LabyrinthModel, mmPerPixel: number): EdgeTable {
  const reach = mmPerPixel / 2 + model.softness + 4 * model.rimWidth + 0.01;
  const middle = (ENTRIES - 1) / 2;
  const samples = new Float64Array(SAMPLES);
  const loads = Float32Array.from({ length: ENTRIES }, (_, k) => {
    const depth = ((k - middle) / middle) * reach;
    for (let n = 0; n < SAMPLES; n++) {
      samples[n] = profileAt(model, depth + ((n + 0.5) / SAMPLES - 0.5) * mmPerPixel);
    }
    return meanOfLoads(samples);
  });
  return { loads, perMm: middle / reach, middle };
}

/** The load at a depth, before any pixel: paint that was pushed out or drawn on gathers on the dyed side of the edge. */
function profileAt({ inside, outside, softness, rim, rimWidth }: LabyrinthModel, depth: number): number {
  const share = softness > 0 ? smoothstep(depth / softness + 0.5) : depth > 0 ? 1 : 0;
  const dyed = inside > outside ? depth : -depth;
  const gathered = dyed > 0 ? dyed / rimWidth : -3 * (dyed / rimWidth);
  const load = outside + (inside - outside) * share;
  return (
    load + rim * Math.abs(inside - outside) * Math.exp(-gathered) * (inside > outside ? share : 1 - share)
  );
}

/** The load at a depth, mm; straight between entries. */
export function loadAt({ loads, perMm, middle }: EdgeTable, depth: number): number {
  const at = Math.min(ENTRIES - 1.001, Math.max(0, depth * perMm + middle));
  const k = Math.floor(at);
  return loads[k] + (at - k) * (loads[k + 1] - loads[k]);
}
