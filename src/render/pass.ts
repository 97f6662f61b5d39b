import {
  layBelow,
  layBleed,
  layLayer,
  layThrough,
  openLight,
  readBand,
  type Strength,
  sampleShifted,
  trimLayer,
  writeBand,
} from '../composite/index.ts';
import type { AnyEffect, Band } from '../effect/effect.ts';
import type { AnyLayer } from '../effect/layer.ts';
import { type BelowStore, openBelow } from './below.ts';
import { marginsOf } from './margins.ts';
import type { PassOrder } from './orders.ts';
import { bandIn, openPicture } from './pass-pictures.ts';
import type { PlaneRange } from './ranges.ts';
import { openLevel } from './soften.ts';
import { grownBand, openStepPainter, type StepPainter } from './step-painter.ts';

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
 * @param effects One per step of the pass, those that are only read among them.
 * @returns The ranges of the planes of every step that is laid, over the bands taken here, where the pass asks for them.
 */
export async function runPass(
  pass: PassOrder,
  effects: readonly AnyEffect[],
  watch: PassWatch,
): Promise<readonly (readonly PlaneRange[])[]> {
  const painters = openPainters(pass, effects, watch);
  const below = openBelow(painters);
  const working = new Float32Array(pass.width * pass.bandRows * 4);
  while (!watch.isStopped()) {
    const first = Atomics.add(pass.nextBand, 0, 1) * pass.bandRows;
    if (first >= pass.height) break;
    const rows = Math.min(pass.bandRows, pass.height - first);
    layBand(pass, painters, below, working.subarray(0, pass.width * rows * 4), first, rows);
    watch.onRows(rows);
  }
  return painters.filter(({ step }) => !step.isOnlyRead).map(({ ranges }) => ranges);
}

function openPainters(pass: PassOrder, effects: readonly AnyEffect[], watch: PassWatch): StepPainter[] {
  const { mmPerPixelX, mmPerPixelY } = pass.grid;
  const light = openLight(pass.light, mmPerPixelX, mmPerPixelY);
  const margins = marginsOf(pass.steps, light.margin);
  return pass.steps.map((step, index) =>
    openStepPainter(pass, step, effects[index], margins[index], light, (paint) => watch.call(index, paint)),
  );
}

function layBand(
  pass: PassOrder,
  painters: readonly StepPainter[],
  below: BelowStore,
  working: Float32Array,
  first: number,
  rows: number,
): void {
  const { width, grid, patches } = pass;
  const { mmPerPixelX, mmPerPixelY } = grid;
  const { x, y } = patches?.target ?? { x: 0, y: 0 };
  // One for all steps: what an effect did to it, the next would see.
  const band: Band = Object.freeze({ x, y: y + first, width, height: rows, mmPerPixelX, mmPerPixelY });
  const lying = below.open(band);
  const laidOnce = painters.filter(({ step }) => !step.isOnlyRead).length === 1;
  let isRead = false;
  for (const painter of painters) {
    const { step, paper, strength, margin } = painter;
    const around = painter.paint(band, lying);
    if (lying && margin.isRead) layBelow(lying, around, painter.strengthOver(grownBand(band, margin.needed)));
    if (step.isOnlyRead) continue;
    const layer = trimLayer(around, margin.needed);
    painter.keep(band, layer);
    const amount = strength(band);
    const options = { blend: step.blend, paper, strength: amount };
    if (laidOnce && liesStill(pass, layer, band)) {
      const at = first * width * 4;
      layThrough(
        pass.source,
        bandIn(openPicture(pass, 'source'), band).y * width * 4,
        layer,
        options,
        pass.target,
        at,
      );
      return;
    }
    if (!isRead) {
      readSource(pass, band, layer, amount, working);
      if (layer.bleed) letRun(pass, layer, band, amount, working);
      isRead = true;
    }
    layLayer(working, layer, options);
  }
  writeBand(working, width * rows, pass.target, first * width * 4);
}

/** True where each pixel of a band comes from its own place in a source that is as wide. */
function liesStill(pass: PassOrder, layer: AnyLayer, band: Band): boolean {
  return !layer.shift && !layer.bleed && openPicture(pass, 'source').width === band.width;
}

/** Reads what the pass begins from, as far as its first step moves it from there. */
function readSource(
  pass: PassOrder,
  band: Band,
  layer: AnyLayer,
  strength: Strength,
  working: Float32Array,
): void {
  const source = openPicture(pass, 'source');
  const inside = bandIn(source, band);
  const { x, y, width, height } = inside;
  if (layer.shift) sampleShifted({ pixels: pass.source, ...source }, inside, layer.shift, strength, working);
  else if (width === source.width) readBand(pass.source, y * width * 4, width * height, working);
  else
    for (let row = 0; row < height; row++)
      readBand(pass.source, ((y + row) * source.width + x) * 4, width, working.subarray(row * width * 4));
}

function letRun(
  pass: PassOrder,
  layer: AnyLayer,
  band: Band,
  strength: Strength,
  working: Float32Array,
): void {
  const stack = pass.stack!.map((level) => openLevel(level, pass.frame));
  const source = openPicture(pass, 'source');
  layBleed(working, stack, source, bandIn(source, band), {
    bleed: layer.bleed!,
    shift: layer.shift,
    strength,
  });
}
