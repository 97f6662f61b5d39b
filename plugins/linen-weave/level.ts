import { hashUnit } from 'tenter';
import { paintFarRow } from './far.ts';
import type { LinenModel, YarnSet } from './model.ts';
import type { Axis } from './raster.ts';
import { openPainter, openRow, paintRow, type SampleRow } from './row.ts';

/** Patches from which a mean is taken, scattered over the box, and how many threads each holds either way. */
const PATCHES = 96;
const PATCH_THREADS = 4;
/** Samples per thread. */
const FINENESS = 6;

/** Scales the light of a cloth so that its mean shade is `wanted`, seen from near and from far. */
export function levelShade(model: LinenModel, wanted: number): LinenModel {
  const near = scaleNear(model, nearGain(model, wanted));
  return scaleFar(near, wanted / meanShade(near, 1, sumFar));
}

/** Steps of the secant rule; three bring even an open, hard-lit cloth within half a per cent. */
const STEPS = 3;

/** The mean grows less than the gain, for light above 1 is bent: the secant rule on both logarithms. */
function nearGain(model: LinenModel, wanted: number): number {
  const missAt = (gain: number) =>
    Math.log(wanted / meanShade(scaleNear(model, Math.exp(gain)), FINENESS, sumNear));
  let [before, missedBefore] = [0, missAt(0)];
  let gain = missedBefore;
  for (let step = 1; step < STEPS && Math.abs(gain - before) > 1e-4; step++) {
    const missed = missAt(gain);
    const next = gain + (missed * (gain - before)) / (missedBefore - missed);
    [before, missedBefore, gain] = [gain, missed, next];
  }
  return Math.exp(gain);
}

function scaleNear(model: LinenModel, gain: number): LinenModel {
  return {
    ...model,
    gap: model.gap * gain,
    warp: scaleSet(model.warp, gain),
    weft: scaleSet(model.weft, gain),
  };
}

function scaleSet(set: YarnSet, gain: number): YarnSet {
  const light = new Float32Array(set.lit.light);
  for (let k = 0; k < light.length; k++) light[k] *= gain;
  return { ...set, lit: { ...set.lit, light } };
}

function scaleFar(model: LinenModel, gain: number): LinenModel {
  const { warpOver, warpUnder, weftOver, weftUnder, gap } = model.far;
  const far = {
    warpOver: warpOver * gain,
    warpUnder: warpUnder * gain,
    weftOver: weftOver * gain,
    weftUnder: weftUnder * gain,
    gap: gap * gain,
  };
  return { ...model, far };
}

/** Draws a square of `size` samples whose first is (left, top), and returns the sum of its shade. */
type SumPatch = (
  model: LinenModel,
  across: Axis,
  down: Axis,
  left: number,
  top: number,
  size: number,
) => number;

const sumNear: SumPatch = (model, across, down, left, top, size) => {
  const painter = openPainter(model, across, down, left, size, top, size);
  return sumRows(top, size, (y, row) => paintRow(painter, y, row));
};

const sumFar: SumPatch = (model, across, down, left, top, size) =>
  sumRows(top, size, (y, row) => paintFarRow(model, across, down, left, y, row));

function sumRows(top: number, size: number, draw: (y: number, row: SampleRow) => void): number {
  const row = openRow(size);
  let sum = 0;
  for (let y = top; y < top + size; y++) {
    draw(y, row);
    for (let x = 0; x < size; x++) sum += row.shade[x];
  }
  return sum;
}

/** The mean of patches of whole threads, at `fineness` samples per thread. */
function meanShade(model: LinenModel, fineness: number, sumPatch: SumPatch): number {
  const { ends, picks, endPitch, pickPitch } = model.sett;
  const across = { count: ends, span: ends * fineness, scale: endPitch / (2 * ends * fineness) };
  const down = { count: picks, span: picks * fineness, scale: pickPitch / (2 * picks * fineness) };
  const size = PATCH_THREADS * fineness;
  let sum = 0;
  for (let k = 0; k < PATCHES; k++) {
    const end = Math.floor(hashUnit(1, k, 0) * ends);
    const pick = Math.floor(((k + hashUnit(2, k, 0)) / PATCHES) * picks);
    sum += sumPatch(model, across, down, end * fineness, pick * fineness, size);
  }
  return sum / (PATCHES * size * size);
}
