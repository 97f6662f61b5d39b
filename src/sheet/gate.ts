import type { SheetRates } from './rates.ts';
import { MARGIN, type RunStore } from './run-store.ts';

/** The most of a cell's film that its fall may carry off through one face in a step. */
const MOST_FALLING = 0.2;
/** The most that dry paper may drink of it. */
const MOST_DRUNK = 0.15;
/** The most that breaks through a gate: a dry cell fills from all sides before it passes anything on, or fronts go square. */
const MOST_BREAKING = 0.15;
/** Fibres count less, the deeper water stands over them: by 40 % at most, half of it at this depth. */
const DROWNED = 0.6;

/**
 * How easily water passes each face of a run, and what its fall and the thirst of dry paper carry over.
 *
 * Between two wet cells the film passes; between two dry ones nothing does. Between wet and dry stands the
 * gate: nothing passes where the film is shallower than what the dry cell pins. So a front stands still on
 * rough paper, a crisp line, until enough water has come up behind it. It is judged from both sides alike.
 *
 * @param fall Of the sheet along the run, per cell; above 0 it falls towards the next cell.
 */
export function openGates(
  run: RunStore,
  count: number,
  { levelling, creeping, suction }: SheetRates,
  fall: number,
): void {
  const { film, depth, pin, ease, mobility, flux } = run;
  const steep = Math.abs(fall);
  for (let k = MARGIN, end = MARGIN + count; k <= end; k++) {
    const before = depth[k - 1];
    const after = depth[k];
    const passage = 0.5 * (ease[k - 1] + ease[k]);
    if (before > 0 && after > 0) {
      const mean = 0.5 * (before + after);
      const drowned = (0.4 * mean) / (mean + DROWNED);
      const open = passage + drowned * (1 - passage);
      mobility[k] = levelling * open * mean * mean + creeping * Math.min(before, after);
      const falling = levelling * fall * mean * mean * mean;
      flux[k] =
        falling > 0 ? Math.min(falling, MOST_FALLING * before) : Math.max(falling, -MOST_FALLING * after);
      continue;
    }
    mobility[k] = 0;
    flux[k] = 0;
    if (before <= 0 && after <= 0) continue;
    const forward = before > 0;
    const wet = forward ? before : after;
    const push = wet + (forward === fall > 0 ? steep : -steep) * wet;
    if (push < (forward ? pin[k] : pin[k - 1])) continue;
    const open = Math.min(0.5 * levelling * passage * wet * wet, MOST_BREAKING);
    mobility[k] = open;
    const thirst = 0.05 - (forward ? film[k] : film[k - 1]);
    const drunk = Math.min(suction * open * Math.min(thirst, 1), MOST_DRUNK * wet);
    flux[k] = forward ? drunk : -drunk;
  }
}
