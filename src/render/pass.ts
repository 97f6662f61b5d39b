import { parseHex } from '../colour/hex.ts';
import { decodeSrgb } from '../colour/srgb.ts';
import {
  layBleed,
  layLayer,
  readBand,
  type ShiftSource,
  type Strength,
  sampleShifted,
  writeBand,
} from '../composite/index.ts';
import type { AnyEffect, Band } from '../effect/effect.ts';
import { type AnyLayer, reuseLayer } from '../effect/layer.ts';
import { refusePromise, runStage } from '../effect/runner.ts';
import { paintFollowing } from './follow.ts';
import { keepBand, keptBand } from './kept-planes.ts';
import { openMask } from './mask.ts';
import type { PassOrder, StepOrder } from './orders.ts';
import { joinRanges, measureLayer, type PlaneRange } from './ranges.ts';
import { requireFinite } from './require-finite.ts';
import { openLevel } from './soften.ts';
import { openSpace } from './space.ts';

/** How a pass keeps in touch with whoever runs it. */
export interface PassWatch {
  /** Makes every call into the effect of a step. */
  call<T>(step: number, paint: () => T): T;
  /** True once the render is given up: no further band is then taken. */
  isStopped(): boolean;
  /** Told after each band how many rows it had. */
  onRows(rows: number): void;
}

/**
 * Takes bands of a pass until none is left, paints every step's layer and lays it. Any number of
 * workers may run the same pass at once: each band belongs to one, and no band depends on another.
 *
 * @param effects One per step of the pass.
 * @returns The ranges of every step's planes over the bands taken here, where the pass asks for them.
 */
export async function runPass(
  pass: PassOrder,
  effects: readonly AnyEffect[],
  watch: PassWatch,
): Promise<readonly (readonly PlaneRange[])[]> {
  const painters = pass.steps.map((step, index) => openStep(pass, step, effects[index], index, watch));
  const working = new Float32Array(pass.width * pass.bandRows * 4);
  while (!watch.isStopped()) {
    const first = Atomics.add(pass.nextBand, 0, 1) * pass.bandRows;
    if (first >= pass.height) break;
    const rows = Math.min(pass.bandRows, pass.height - first);
    layBand(pass, painters, working.subarray(0, pass.width * rows * 4), first, rows);
    watch.onRows(rows);
  }
  return painters.map(({ ranges }) => ranges);
}

interface StepPainter {
  readonly step: StepOrder;
  paint(band: Band): AnyLayer;
  strength(firstPixel: number, count: number): Strength;
  readonly paper: readonly [number, number, number];
  ranges: readonly PlaneRange[];
}

function openStep(
  pass: PassOrder,
  step: StepOrder,
  effect: AnyEffect,
  index: number,
  watch: PassWatch,
): StepPainter {
  const mask = openMask(step, pass);
  const [red, green, blue] = parseHex(step.paper).map(decodeSrgb);
  let store: AnyLayer = { width: 0, height: 0 };
  let images: AnyLayer = store;
  const { parameters, seed, planes } = step;
  const paintAt = (band: Band, layer: AnyLayer) =>
    watch.call(index, () =>
      runStage(effect, { stage: 'paint', parameters, seed }, () =>
        refusePromise(effect.paint(step.model, band, layer as never)),
      ),
    );
  return {
    step,
    ranges: [],
    paper: [red, green, blue],
    paint(band) {
      if (step.kept?.isPainted) return keptBand(step.kept.planes, band);
      store = reuseLayer(store, planes, band.width, band.height);
      if (pass.frame === 'tile') images = paintFollowing(pass.grid, band, planes, store, images, paintAt);
      else paintAt(band, store);
      // Whoever wants it measured is told of numbers that are none, and sees them.
      if (pass.measure) this.ranges = joinRanges(this.ranges, measureLayer(store, planes));
      else runStage(effect, { stage: 'paint', parameters, seed }, () => requireFinite(store, planes, band));
      if (step.kept) keepBand(step.kept.planes, band, store);
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
  // One for all steps: what an effect did to it, the next would see.
  const band: Band = Object.freeze({ x: 0, y: first, width, height: rows, mmPerPixelX, mmPerPixelY });
  const firstPixel = first * width;
  let isRead = false;
  for (const painter of painters) {
    const { step, paper, strength } = painter;
    const layer = painter.paint(band);
    const amount = strength(firstPixel, width * rows);
    if (!isRead) {
      if (layer.shift) sampleShifted(shiftSource(pass), band, layer.shift, amount, working);
      else readBand(pass.source, firstPixel * 4, width * rows, working);
      if (layer.bleed) letRun(pass, layer, band, amount, working);
      isRead = true;
    }
    layLayer(working, layer, { blend: step.blend, paper, strength: amount });
  }
  writeBand(working, width * rows, pass.target, firstPixel * 4);
}

function letRun(
  pass: PassOrder,
  layer: AnyLayer,
  band: Band,
  strength: Strength,
  working: Float32Array,
): void {
  const stack = pass.stack!.map((level) => openLevel(level, pass.frame));
  layBleed(working, stack, pass, band, { bleed: layer.bleed!, shift: layer.shift, strength });
}

function shiftSource({ grid, frame, source }: PassOrder): ShiftSource {
  return { pixels: source, ...openSpace(grid, frame) };
}
