import type { Level, Prepared } from '../way.ts';
import { alongAxes, axesOf } from './axes.ts';
import { onBell, tableOf } from './bell.ts';
import { curveOf, offCurve } from './curve.ts';
import type { BellLevel, EvenModel } from './model.ts';
import { comesBack, netOf, takePieces } from './pieces.ts';
import { structureLength } from './structure.ts';

/** A piece reaches over so many lengths of the swatch's structure, if the swatch is large enough, */
const LENGTHS = 9;
/** and over so much of its smaller side at least. */
const LEAST_SHARE = 0.1;

export function prepareEven(prepared: Prepared): EvenModel {
  const { levels, width, height, turned, box, progress } = prepared;
  const axes = axesOf(levels[0].planes);
  const bells = levels.map((level, k) => {
    const bell = bellLevel(level, levels[Math.min(k + 3, levels.length - 1)], axes, turned);
    progress(0.8 * (1 - 0.25 ** (k + 1)));
    return bell;
  });
  const reach = Math.max(LENGTHS * structureLength(levels), LEAST_SHARE * Math.min(width, height));
  const net = netOf(prepared, reach);
  const pieces = takePieces({ ...prepared, progress: (done) => progress(0.8 + 0.2 * done) }, net);
  return { lattice: box.lattice, pieces, axes, levels: bells, comesBack: comesBack(pieces) };
}

function bellLevel(
  level: Level,
  around: Level,
  axes: ReturnType<typeof axesOf>,
  withTurned: boolean,
): BellLevel {
  const { width, height, mmPerSample } = level;
  const along = alongAxes(level.planes, axes);
  const blurred = alongAxes(around.planes, axes);
  const [first, ...others] = along;
  const untied = untie(first, level, blurred[0], around);
  const table = tableOf(untied);
  const places = onBell(untied, table);
  const curves = others.map((plane) => curveOf(plane, places));
  const rest = others.map((plane, k) => offCurve(plane, places, curves[k]));
  const tables = [table, ...rest.map(tableOf)];
  const planes = [places, ...rest.map((plane, k) => onBell(plane, tables[k + 1]))];
  const turned = withTurned ? planes.map((plane) => onItsSide(plane, width, height)) : [];
  return { width, height, mmPerSample, planes, turned, tables, curves };
}

/** How much of its surroundings a number is given: less than a hundredth of a step of 8 bits in the middle. */
const TIE = 2e-5;

/**
 * Numbers that are equal, as bare paper is, are ranked by how light it is around them, so that what has no bell
 * curve of its own (a white ground with few spots) gets a smooth one.
 */
function untie(plane: Float32Array, level: Level, blurred: Float32Array, around: Level): Float32Array {
  const { width } = level;
  const scale = level.mmPerSample / around.mmPerSample;
  const untied = new Float32Array(plane.length);
  const column = (i: number) => Math.max(0, Math.min(around.width - 1.001, (i + 0.5) * scale - 0.5));
  for (let j = 0, k = 0; k < plane.length; j++) {
    const y = Math.max(0, Math.min(around.height - 1.001, (j + 0.5) * scale - 0.5));
    const top = Math.floor(y);
    const below = around.height > 1 ? around.width : 0;
    for (let i = 0; i < width; i++, k++) {
      const x = column(i);
      const left = Math.floor(x);
      const at = top * around.width + left;
      const beside = around.width > 1 ? 1 : 0;
      const upper = blurred[at] + (x - left) * (blurred[at + beside] - blurred[at]);
      const lower = blurred[at + below] + (x - left) * (blurred[at + below + beside] - blurred[at + below]);
      untied[k] = plane[k] + TIE * (upper + (y - top) * (lower - upper));
    }
  }
  return untied;
}

function onItsSide(plane: Float32Array, width: number, height: number): Float32Array {
  const turned = new Float32Array(plane.length);
  for (let j = 0, k = 0; j < height; j++) {
    for (let i = 0; i < width; i++, k++) turned[i * height + j] = plane[k];
  }
  return turned;
}
