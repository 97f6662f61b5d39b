import { hashUnit } from 'tenter';
import { paintFarRow } from './far.ts';
import type { LinenModel, YarnSet } from './model.ts';
import type { Axis } from './raster.ts';
import { bent, openPainter, openRow, paintRow, type SampleRow, unbent } from './row.ts';

/** Patches from which a mean is taken, scattered over the box, and how many threads each holds either way. */
const PATCHES = 96;
const PATCH_THREADS = 4;
/** Samples per thread. */
const FINENESS = 6;

/** Scales the light of a cloth so that its mean shade is `wanted`, seen from near and from far. */
export function levelShade(model: LinenModel, wanted: number): LinenModel {
  const near = scaleNear(model, nearGain(drawPatches(model, FINENESS, drawNear), wanted));
  const far = drawPatches(near, 1, drawFar);
  return scaleFar(near, wanted / (sumOf(far, 1) / far.length));
}

/** Steps of the secant rule; three bring even an open, hard-lit cloth within half a per cent. */
const STEPS = 3;

/**
 * The mean grows less than the gain, for light above 1 is bent: the secant rule on both logarithms. All
 * light grows alike, so the cloth is drawn once, and the light of its samples is made to grow.
 */
function nearGain(shade: Float32Array, wanted: number): number {
  const lit = shade.map(unbent);
  const missAt = (gain: number) => Math.log((wanted * lit.length) / sumOf(lit, Math.exp(gain)));
  let [before, missedBefore] = [0, missAt(0)];
  let gain = missedBefore;
  for (let step = 1; step < STEPS && Math.abs(gain - before) > 1e-4; step++) {
    const missed = missAt(gain);
    const next = gain + (missed * (gain - before)) / (missedBefore - missed);
    [before, missedBefore, gain] = [gain, missed, next];
  }
  return Math.exp(gain);
}

function sumOf(lit: Float32Array, gain: number): number {
  let sum = 0;
  for (let k = 0; k < lit.length; k++) sum += bent(gain * lit[k]);
  return sum;
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

/** Draws a square of `size` samples whose first is (left, top): its shade, row by row. */
type DrawPatch = (
  model: LinenModel,
  across: Axis,
  down: Axis,
  left: number,
  top: number,
  size: number,
  shade: Float32Array,
) => void;

const drawNear: DrawPatch = (model, across, down, left, top, size, shade) => {
  const painter = openPainter(model, across, down, left, size, top, size);
  drawRows(top, size, shade, (y, row) => paintRow(painter, y, row));
};

const drawFar: DrawPatch = (model, across, down, left, top, size, shade) =>
  drawRows(top, size, shade, (y, row) => paintFarRow(model, across, down, left, y, row));

function drawRows(
  top: number,
  size: number,
  shade: Float32Array,
  draw: (y: number, row: SampleRow) => void,
): void {
  const row = openRow(size);
  for (let y = 0; y < size; y++) {
    draw(top + y, row);
    shade.set(row.shade, y * size);
  }
}

/** The shade of patches of whole threads, at `fineness` samples per thread. */
function drawPatches(model: LinenModel, fineness: number, draw: DrawPatch): Float32Array {
  const { ends, picks, endPitch, pickPitch } = model.sett;
  const across = { count: ends, span: ends * fineness, scale: endPitch / (2 * ends * fineness) };
  const down = { count: picks, span: picks * fineness, scale: pickPitch / (2 * picks * fineness) };
  const size = PATCH_THREADS * fineness;
  const shade = new Float32Array(PATCHES * size * size);
  for (let k = 0; k < PATCHES; k++) {
    const end = Math.floor(hashUnit(1, k, 0) * ends);
    const pick = Math.floor(((k + hashUnit(2, k, 0)) / PATCHES) * picks);
    const patch = shade.subarray(k * size * size, (k + 1) * size * size);
    draw(model, across, down, end * fineness, pick * fineness, size, patch);
  }
  return shade;
}
