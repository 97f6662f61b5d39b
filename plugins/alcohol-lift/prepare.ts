import { parseHex, partedHues, type Setting } from 'tenter';
import { meanPaint } from './level.ts';
import { type LiftSpec, liftWash } from './lift.ts';
import type { LiftModel } from './model.ts';
import type { LiftValues, PARAMETERS } from './parameters.ts';
import { type ScatterSpec, scatterDrops } from './scatter.ts';
import { layGround } from './wetness.ts';

/** How much coarser the cells of a sketch are. */
const SKETCH = 2.4;

/** Scatters the drops and lets them open. */
export function prepareLift(setting: Setting<typeof PARAMETERS>): LiftModel {
  return prepareOnCells(setting, setting.quality === 'sketch' ? SKETCH : 1);
}

/**
 * The same drops on cells of any size.
 *
 * @param coarseness 1 for the finished picture, more for a sketch.
 */
export function prepareOnCells(setting: Setting<typeof PARAMETERS>, coarseness: number): LiftModel {
  const { parameters: values, box, random, report, progress } = setting;
  const ground = layGround(box, values.wetness / 100, values.gathering / 100, random('ground'));
  const drops = scatterDrops(box, ground, scatterOf(values), random);
  progress(0.1);
  report({ name: 'drops and specks', value: drops.length, unit: 'count' });
  const lifted = liftWash(box, drops, specOf(values, coarseness), random, progress);
  const { load: mean, heavy } = meanPaint(lifted, coarseness > 1 ? 4 : 1);
  report({ name: 'paint levelled by', value: Math.round(1e4 * (1 / mean - 1)) / 100, unit: 'percent' });
  const parted = lifted.parted && { ...lifted.parted, level: -heavy / mean };
  return { ...lifted, parted, level: lifted.level / mean };
}

function scatterOf(values: LiftValues): ScatterSpec {
  return {
    drops: values.drops / 1e4,
    spatter: values.spatter / 1e4,
    size: values.size,
    variety: values.variety / 100,
    wetness: values.wetness / 100,
    lift: values.lift / 100,
    seconds: values.seconds / 100,
    run: values.run,
    tilt: (values.tilt * Math.PI) / 180,
  };
}

function specOf(values: LiftValues, coarseness: number): LiftSpec {
  const amount = values.inkAmount / 100;
  return {
    rim: values.rim / 100,
    tooth: values.tooth / 100,
    wash: values.wash / 100,
    carry: values.carry / 100,
    brushwork: values.brushwork,
    hues: values.parting > 0 ? partedHues('blue', values.parting) : undefined,
    ink: amount > 0 ? { colour: parseHex(values.ink, 'ink'), amount } : undefined,
    coarseness,
  };
}
