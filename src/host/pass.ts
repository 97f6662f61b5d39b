import { parseHex } from '../colour/hex.ts';
import { decodeSrgb } from '../colour/srgb.ts';
import {
  layLayer,
  readBand,
  type ShiftSource,
  type Strength,
  sampleShifted,
  writeBand,
} from '../composite/index.ts';
import type { AnyEffect, Band } from '../effect/effect.ts';
import { type AnyLayer, reuseLayer } from '../effect/layer.ts';
import { runStage } from '../effect/runner.ts';
import { boxPixelFinder, tilePixelFinder } from '../repeat/fold.ts';
import { paintFollowing } from './follow.ts';
import { openMask } from './mask.ts';
import type { PassOrder, StepOrder } from './orders.ts';

/**
 * Takes bands of a pass until none is left, paints every step's layer and lays it. Any number of
 * workers may run the same pass at once: each band belongs to one, and no band depends on another.
 *
 * @param effects One per step of the pass.
 * @param onRows  Told after each band how many rows it had.
 */
export async function runPass(
  pass: PassOrder,
  effects: readonly AnyEffect[],
  onRows: (rows: number) => void,
): Promise<void> {
  const painters = pass.steps.map((step, index) => openStep(pass, step, effects[index]));
  const working = new Float32Array(pass.width * pass.bandRows * 4);
  for (;;) {
    const first = Atomics.add(pass.nextBand, 0, 1) * pass.bandRows;
    if (first >= pass.height) return;
    const rows = Math.min(pass.bandRows, pass.height - first);
    layBand(pass, painters, working.subarray(0, pass.width * rows * 4), first, rows);
    onRows(rows);
  }
}

interface StepPainter {
  readonly step: StepOrder;
  paint(band: Band): AnyLayer;
  strength(firstPixel: number, count: number): Strength;
  readonly paper: readonly [number, number, number];
}

function openStep(pass: PassOrder, step: StepOrder, effect: AnyEffect): StepPainter {
  const mask = openMask(step, pass);
  const [red, green, blue] = parseHex(step.paper).map(decodeSrgb);
  let store: AnyLayer = { width: 0, height: 0 };
  let images: AnyLayer = store;
  const { parameters, seed, planes } = step;
  const paintAt = (band: Band, layer: AnyLayer) =>
    runStage(effect, { stage: 'paint', parameters, seed }, () =>
      effect.paint(step.model, band, layer as never),
    );
  return {
    step,
    paper: [red, green, blue],
    paint(band) {
      store = reuseLayer(store, planes, band.width, band.height);
      if (pass.frame === 'tile') images = paintFollowing(pass.grid, band, planes, store, images, paintAt);
      else paintAt(band, store);
      return store;
    },
    strength: (firstPixel, count) => mask(firstPixel, count, step.opacity),
  };
}

function layBand(
  pass: PassOrder,
  painters: readonly StepPainter[],
  working: Float32Array,
  first: number,
  rows: number,
): void {
  const { width, grid } = pass;
  const { mmPerPixelX, mmPerPixelY } = grid;
  const band: Band = { x: 0, y: first, width, height: rows, mmPerPixelX, mmPerPixelY };
  const firstPixel = first * width;
  let isRead = false;
  for (const { step, paint, paper, strength } of painters) {
    const layer = paint(band);
    const amount = strength(firstPixel, width * rows);
    if (!isRead) {
      if (layer.shift) sampleShifted(shiftSource(pass), band, layer.shift, amount, working);
      else readBand(pass.source, firstPixel * 4, width * rows, working);
      isRead = true;
    }
    layLayer(working, layer, { blend: step.blend, paper, strength: amount });
  }
  writeBand(working, width * rows, pass.target, firstPixel * 4);
}

function shiftSource({ grid, frame, source, width, height }: PassOrder): ShiftSource {
  const find = frame === 'box' ? boxPixelFinder(grid) : tilePixelFinder(grid);
  return { pixels: source, width, height, find };
}
