import { neutralLayer, type PlaneName } from '../layer.ts';
import { atDensity, type Bench, type Sample } from './bench.ts';
import { differenceOf } from './compare.ts';
import { Failed, Refused } from './failed.ts';
import { HOME, type Trial } from './trial.ts';
import { pairs, variants } from './vary.ts';

/** px/mm at which a whole box is looked at. */
const OVERVIEW = 2;

/**
 * Looks whether every declared plane is painted with some values at least: at the defaults, with the presets, and with
 * each parameter at its extremes, alone and together.
 *
 * @throws Failed that names a plane which is neutral everywhere and always.
 */
export async function tryIdlePlanes(bench: Bench, base: Trial): Promise<void> {
  const { effect, presets = [] } = bench;
  const idle = new Set(effect.planes);
  const made = presets.map(({ parameters }): Trial => ({ ...base, parameters }));
  for (const trial of [HOME, ...made, ...variants(effect, base), ...pairs(effect, base)]) {
    const sample = await preparedOrLeft(bench, trial);
    for (const plane of sample?.planes ?? [])
      if (idle.has(plane) && isPainted(bench, sample!, plane)) idle.delete(plane);
    if (idle.size === 0) return;
  }
  const [plane] = idle;
  throw new Failed(HOME, {
    expected: `${plane}, which is declared in "planes", to be painted with some values`,
    received: 'nothing in it at the defaults, with any preset and at every extreme',
    remedy: `Take ${plane} out of "planes": a plane that is declared costs time and memory in every render. If it is meant, look where it is left out.`,
  });
}

/** Nothing where the effect refuses the values, or fails with them, which others tell of. */
async function preparedOrLeft(bench: Bench, trial: Trial): Promise<Sample | undefined> {
  try {
    return await bench.shared(trial);
  } catch (error) {
    if (error instanceof Refused || error instanceof Failed) return undefined;
    throw error;
  }
}

function isPainted(bench: Bench, sample: Sample, plane: PlaneName): boolean {
  const seen = atDensity(sample, OVERVIEW);
  const { width, height } = seen.grid;
  const layer = neutralLayer(sample.planes, width, height);
  try {
    bench.paintInto(seen, { x: 0, y: 0, width, height }, layer);
  } catch {
    // That it fails is for others to say.
    return true;
  }
  const only = { width, height, [plane]: layer[plane] };
  return differenceOf(only, neutralLayer([plane], width, height)) !== undefined;
}
