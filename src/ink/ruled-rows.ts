import { modulo } from '../repeat/lattice.ts';
import type { OpenDots, RuledDots } from './dot-field.ts';
import { openScatteredDots } from './scattered-rows.ts';

/** How finely the height of waves is told. */
export const WAVE_LEVELS = 4096;
const TURN = 4096;

/** How high the waves of ruled dots stand, over the plane: 0 at a crest, `WAVE_LEVELS - 1` in a trough. */
export interface OpenWaves {
  row(x: number, y: number, count: number, into: Uint16Array): void;
}

/**
 * Phases are whole numbers, of turns times the period's area: a step along either vector is whole turns, and so
 * they close to the last bit.
 */
export function openWaves({ lattice, waves }: Pick<RuledDots, 'lattice' | 'waves'>): OpenWaves {
  const { ax, ay, bx, by } = lattice;
  const area = ax * by - ay * bx;
  const heights = Float64Array.from({ length: TURN }, (_, k) => Math.cos((2 * Math.PI * (k + 0.5)) / TURN));
  const steps = waves.map(([m, n]) => [modulo(m * by - n * ay, area), modulo(n * ax - m * bx, area)]);
  return {
    row(x, y, count, into) {
      const phases = steps.map(([right, below]) =>
        modulo(modulo(modulo(x, area) * right, area) + modulo(modulo(y, area) * below, area), area),
      );
      const scale = TURN / area;
      const half = WAVE_LEVELS / 2 / waves.length;
      for (let k = 0; k < count; k++) {
        let height = 0;
        for (let wave = 0; wave < phases.length; wave++) {
          height += heights[Math.floor(phases[wave] * scale)];
          phases[wave] += steps[wave][0];
          if (phases[wave] >= area) phases[wave] -= area;
        }
        into[k] = Math.min(WAVE_LEVELS - 1, Math.floor((waves.length - height) * half));
      }
    },
  };
}

/** Reads ruled dots: see `openDots`. */
export function openRuledDots(dots: RuledDots): OpenDots {
  const { row: waveRow } = openWaves(dots);
  const ties = openScatteredDots(dots.ties);
  const { steps } = dots;
  let levels = new Uint16Array(0);
  return {
    row(x, y, count, into) {
      if (levels.length < count) levels = new Uint16Array(count);
      waveRow(x, y, count, levels);
      ties.row(x, y, count, into);
      for (let k = 0; k < count; k++) {
        const least = steps[levels[k]];
        into[k] = least + Math.floor(((steps[levels[k] + 1] - least) * into[k]) / 65_535);
      }
    },
  };
}
