import { type FieldShape, type FractalNoise, gaussianBlur, type PeriodicField } from 'tenter';
import { emptyLike, type Noise } from './fields.ts';
import type { Flowed } from './flow.ts';
import type { Values } from './parameters.ts';

/**
 * The hollows of the paper. The coarsest octave lies aslant, so that no grid shows; the finer one lies
 * along the rows, where it costs a quarter.
 */
export function paperTooth(size: number, noise: Noise): FractalNoise {
  const coarse = noise(
    'tooth',
    { along: size, across: size, direction: 33 },
    { octaves: 1, gain: 1, deviation: 0.7 },
  );
  const fine = noise(
    'fine tooth',
    { along: size / 2.6, across: size / 2.6 },
    { octaves: 1, gain: 1, deviation: 0.7 },
  );
  return { octaves: [...coarse.octaves, ...fine.octaves], gains: [...coarse.gains, ...fine.gains] };
}

/** Pigment settles in pools, of some centimetres, and hardly where the wash ran. */
export const SILT = { along: 60, across: 40, direction: 20 };

/** More settles where it was wet longer and where there is more of it; silky passages are left between. */
export function settledPaint(
  shape: FieldShape,
  values: Values,
  { paint }: Flowed,
  wet: PeriodicField,
  silt: PeriodicField,
): PeriodicField {
  const field = emptyLike(shape);
  const share = values.granulation / 100;
  for (let k = 0; k < field.values.length; k++) {
    const pooled = 0.55 + 0.28 * silt.values[k] + 0.15 * wet.values[k];
    const patchy = pooled + 0.2 * Math.log(Math.max(0.05, paint[k]));
    field.values[k] =
      0.4 * share * Math.max(0.27, Math.min(1.05, patchy)) * Math.min(1.3, (values.drying / 240) ** 0.25);
  }
  return field;
}

/** Of the way that the flow carries edges: how far colours mingle where everything is crisp, and more where edges are lost. */
const MINGLED = 0.04;
const MINGLED_WHERE_LOST = 0.5;

/** How far colours run into one another, mm: as the edges of the water are lost, so are those of the artwork. */
export function mingledColours(
  shape: FieldShape,
  lost: Float32Array,
  { move }: Values,
  soften: (field: PeriodicField) => PeriodicField,
): PeriodicField {
  const values = lost.map((share) => move * (MINGLED + MINGLED_WHERE_LOST * share * share));
  return soften({ ...shape, values });
}

/** Where the paint of each place came from, mm. */
export function movedEdges(
  shape: FieldShape,
  { movedX, movedY }: Flowed,
  { move }: Values,
  soften: (field: PeriodicField) => PeriodicField,
): { moveX: PeriodicField; moveY: PeriodicField } {
  const blur = (values: Float32Array) => gaussianBlur({ ...shape, values }, 2);
  const [x, y] = [blur(movedX), blur(movedY)];
  for (let k = 0; k < x.values.length; k++) {
    const far = Math.hypot(x.values[k], y.values[k]);
    // Where paint came from lies against the flow; a long way is shortened so that no place folds over.
    const scale = -move / (6 + far);
    x.values[k] *= scale;
    y.values[k] *= scale;
  }
  return { moveX: soften(x), moveY: soften(y) };
}
