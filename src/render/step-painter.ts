import { parseHex } from '../colour/hex.ts';
import { decodeSrgb } from '../colour/srgb.ts';
import { copyPart, lightRelief, type ReliefLight, type Strength, trimLayer } from '../composite/index.ts';
import type { AnyEffect, Band } from '../effect/effect.ts';
import { type AnyLayer, reuseLayer } from '../effect/layer.ts';
import { refusePromise, runStage } from '../effect/runner.ts';
import { openStores, type Paint, paintFollowing } from './follow.ts';
import { keepBand, keptAround, keptBand, keptPart } from './kept-planes.ts';
import type { StepMargin } from './margins.ts';
import { openMask } from './mask.ts';
import type { PassOrder, StepOrder } from './orders.ts';
import { bandIn, openPicture } from './pass-pictures.ts';
import { joinRanges, measureLayer, type PlaneRange } from './ranges.ts';
import { requireFinite } from './require-finite.ts';

/** One step of a pass, ready to paint its layer band by band. */
export interface StepPainter {
  readonly step: StepOrder;
  readonly margin: StepMargin;
  /** Linear. */
  readonly paper: readonly [number, number, number];
  /** Of what was painted so far, where the pass asks for them. */
  readonly ranges: readonly PlaneRange[];
  /**
   * The layer over a band and `margin.needed` pixels around it, lit.
   *
   * @param below What lies below over `margin.painted` pixels around the band, or more, for a step that reads.
   */
  paint(band: Band, below?: AnyLayer): AnyLayer;
  /** Puts a band of the layer by, where it is kept. */
  keep(band: Band, layer: AnyLayer): void;
  /** Opacity times mask of a band of the frame, which counts as laid. */
  strength(band: Band): Strength;
  /** The same for any rectangle of the plane; nothing is counted. */
  strengthOver(rectangle: Band): Strength;
}

/** @param call Makes every call into the effect. */
export function openStepPainter(
  pass: PassOrder,
  step: StepOrder,
  effect: AnyEffect,
  margin: StepMargin,
  light: ReliefLight,
  call: <T>(paint: () => T) => T,
): StepPainter {
  const mask = openMask(step, pass);
  const [red, green, blue] = parseHex(step.paper).map(decodeSrgb);
  const { parameters, seed, planes, kept } = step;
  const stamp = { stage: 'paint', parameters, seed } as const;
  const target = openPicture(pass, 'target');
  const stores = openStores();
  let store: AnyLayer = { width: 0, height: 0 };
  let lit = new Float32Array(0);
  let ranges: readonly PlaneRange[] = [];
  const paintAt: Paint = (band, layer, below) =>
    call(() =>
      runStage(effect, stamp, () => refusePromise(effect.paint(step.model, band, layer as never, below))),
    );

  function paintFresh(band: Band, below: AnyLayer | undefined): AnyLayer {
    const around = grownBand(band, margin.painted);
    store = reuseLayer(store, planes, around.width, around.height);
    const read = below && step.reads.length > 0 ? readBelow(below, step, around) : undefined;
    if (pass.follows) paintFollowing(pass.grid, around, planes, store, read, stores, paintAt);
    else paintAt(around, store, read);
    if (!planes.includes('relief')) return checked(store, around);
    const needed = grownBand(band, margin.needed);
    const count = needed.width * needed.height;
    if (lit.length < count) lit = new Float32Array(count);
    const shade = lit.subarray(0, count).fill(1);
    lightRelief(store.relief!, needed.width, needed.height, light, shade);
    return litLayer(checked(trimLayer(store, margin.painted - margin.needed), needed), shade);
  }

  function checked(layer: AnyLayer, band: Band): AnyLayer {
    // Whoever wants it measured is told of numbers that are none, and sees them.
    if (pass.measure) ranges = joinRanges(ranges, measureLayer(layer, planes));
    else runStage(effect, stamp, () => requireFinite(layer, planes, band));
    return layer;
  }

  return {
    step,
    margin,
    paper: [red, green, blue],
    get ranges() {
      return ranges;
    },
    paint(band, below) {
      if (!kept?.isPainted) return paintFresh(band, below);
      if (kept.patch) return keptPart(kept.planes, kept.patch, grownBand(band, margin.needed));
      if (margin.needed === 0) return keptBand(kept.planes, band);
      return keptAround(kept.planes, grownBand(band, margin.needed), target.find);
    },
    keep(band, layer) {
      if (kept && !kept.isPainted) keepBand(kept.planes, bandIn(target, band), layer);
    },
    strength: (band) => mask.over(band, step.opacity),
    strengthOver: (rectangle) => mask.around(rectangle, step.opacity),
  };
}

/** A band with so many pixels more on all sides. */
export function grownBand(band: Band, margin: number): Band {
  if (margin === 0) return band;
  return Object.freeze({
    ...band,
    x: band.x - margin,
    y: band.y - margin,
    width: band.width + 2 * margin,
    height: band.height + 2 * margin,
  });
}

/** The planes that a step reads, over its band: copies, so that an effect that writes into them harms itself alone. */
function readBelow(below: AnyLayer, { reads }: StepOrder, { width, height }: Band): AnyLayer {
  const inset = (below.width - width) / 2;
  const planes = Object.fromEntries(reads.map((name) => [name, below[name]]));
  const read = { width: below.width, height: below.height, ...planes };
  return copyPart(read, { left: inset, top: inset, width, height });
}

function litLayer(layer: AnyLayer, lit: Float32Array): AnyLayer {
  const { shade } = layer;
  if (!shade) return { ...layer, shade: lit };
  for (let pixel = 0; pixel < lit.length; pixel++) shade[pixel] *= lit[pixel];
  return layer;
}
