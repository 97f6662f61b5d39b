import { hashUnit } from 'tenter';
import { paintFarRow } from './far.ts';
import type { FarLight, LinenModel, YarnSet } from './model.ts';
import { openPainter, paintRow } from './painter.ts';
import type { Axis } from './raster.ts';
import { bent, openRow, type SampleRow, unbent } from './row.ts';

/** Patches from which a mean is taken, scattered over the box, and how many threads each holds either way. */
const PATCHES = 96;
const PATCH_THREADS = 4;
/** Samples per thread. */
const FINENESS = 6;

/** Scales the light of a cloth so that its mean shade is `wanted`, seen from near and from far. */
export function levelShade(model: LinenModel, wanted: number): LinenModel {
  const near = scaleNear(model, nearGain(drawPatches(model, FINENESS, drawNear), wanted));
  const far = drawPatches(near, 1, drawFar);
  return levelInk(scaleFar(near, wanted / (sumOf(far, 1) / far.length)));
}

/** Lets the ink of a printed cloth cover as much from afar as from near by. */
function levelInk(model: LinenModel): LinenModel {
  const { ink } = model;
  if (!ink) return model;
  const [near, far] = [drawPatches(model, FINENESS, drawNear, 'ink'), drawPatches(model, 1, drawFar, 'ink')];
  const gain = (1 - meanOf(near)) / (1 - meanOf(far));
  return { ...model, ink: { ...ink, far: mapLight(ink.far, (light) => 1 - gain * (1 - light)) } };
}

function meanOf(values: Float32Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
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
  return { ...model, far: mapLight(model.far, (light) => light * gain) };
}

function mapLight(
  { warpOver, warpUnder, weftOver, weftUnder, gap }: FarLight,
  change: (light: number) => number,
): FarLight {
  return {
    warpOver: change(warpOver),
    warpUnder: change(warpUnder),
    weftOver: change(weftOver),
    weftUnder: change(weftUnder),
    gap: change(gap),
  };
}

/** Draws a square of `size` samples whose first is (left, top): its shade or ink, row by row. */
type DrawPatch = (
  model: LinenModel,
  across: Axis,
  down: Axis,
  left: number,
  top: number,
  size: number,
  name: Drawn,
  values: Float32Array,
) => void;

/** What of a row is wanted. */
type Drawn = 'shade' | 'ink';

const drawNear: DrawPatch = (model, across, down, left, top, size, name, values) => {
  const painter = openPainter(model, across, down, left, size, top, size);
  drawRows(top, size, name, values, (y) => paintRow(painter, y));
};

const drawFar: DrawPatch = (model, across, down, left, top, size, name, values) => {
  const row = openRow(size);
  drawRows(top, size, name, values, (y) => {
    paintFarRow(model, across, down, left, y, row);
    return row;
  });
};

function drawRows(
  top: number,
  size: number,
  name: Drawn,
  values: Float32Array,
  draw: (y: number) => SampleRow,
): void {
  for (let y = 0; y < size; y++) values.set(draw(top + y)[name], y * size);
}

/** The shade or ink of patches of whole threads, at `fineness` samples per thread. */
function drawPatches(
  model: LinenModel,
  fineness: number,
  draw: DrawPatch,
  name: Drawn = 'shade',
): Float32Array {
  const { ends, picks, endPitch, pickPitch } = model.sett;
  const across = { count: ends, span: ends * fineness, scale: endPitch / (2 * ends * fineness) };
  const down = { count: picks, span: picks * fineness, scale: pickPitch / (2 * picks * fineness) };
  const size = PATCH_THREADS * fineness;
  const values = new Float32Array(PATCHES * size * size);
  for (let k = 0; k < PATCHES; k++) {
    const end = Math.floor(hashUnit(1, k, 0) * ends);
    const pick = Math.floor(((k + hashUnit(2, k, 0)) / PATCHES) * picks);
    const patch = values.subarray(k * size * size, (k + 1) * size * size);
    draw(model, across, down, end * fineness, pick * fineness, size, name, patch);
  }
  return values;
}
