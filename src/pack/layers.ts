import type { BlendMode } from '../colour/blend.ts';
import type { Frame } from '../colour/frame.ts';
import { parseHex, type Rgb } from '../colour/hex.ts';
import { labOfSrgb } from '../colour/lab.ts';
import { atEightBits } from '../colour/samples.ts';
import { decodeSrgb } from '../colour/srgb.ts';
import { blendBlock } from '../composite/blend-block.ts';
import { layersByHand, openColourMask } from '../composite/index.ts';
import type { AnyLayer } from '../effect/layer.ts';
import { DEFAULT_SOFTNESS, DEFAULT_TOLERANCE } from '../render/passes.ts';
import type { RenderStep } from '../render/step.ts';

/** A picture of a stack of layers: 8 bit, straight RGBA, as large as the print. */
export interface StackLayer {
  readonly name: string;
  readonly mode: BlendMode;
  readonly pixels: Uint8Array;
}

/** A stack, the lowest first, and how near it comes to the print. */
export interface Stack {
  readonly width: number;
  readonly height: number;
  readonly layers: readonly StackLayer[];
  /** All of it laid together: RGBA, 8 bit. */
  readonly merged: Uint8Array;
  /** In steps of 255: the largest difference from the print with all layers, and without the touch-up. */
  readonly off: { readonly most: number; readonly withoutTouchUp: number; readonly touchedUp: number };
  /** What is not in the stack as a layer of its own, in words. */
  readonly missing: readonly string[];
}

/** A step, with the texture that it laid where that could be kept. */
export interface LaidStep {
  readonly step: RenderStep;
  readonly layer?: AnyLayer;
  /** Its mask picture, 0..255, one sample per pixel of the layer. */
  readonly mask?: Uint8Array;
}

export const TOUCH_UP = 'touch-up for this artwork';

/**
 * Takes a print apart: the artwork, each texture in the blend modes that hold it best, and on top a touch-up with the
 * print's own pixels wherever the others come out more than 1 of 255 beside it. Laid together they are the print.
 */
export function takeApart(print: Frame, artwork: Frame, steps: readonly LaidStep[]): Stack {
  const { width, height } = print;
  const bottom = atEightBits(artwork.pixels);
  const wanted = atEightBits(print.pixels);
  const layers: StackLayer[] = [{ name: 'artwork', mode: 'normal', pixels: bottom }];
  const missing: string[] = [];
  for (const [index, laid] of steps.entries()) {
    const made = laid.layer ? texturesOf(laid, laid.layer, artwork) : [];
    const words = missingWords(laid, made);
    if (words) missing.push(`${index + 1}. ${laid.step.effect}: ${words}`);
    const named = made.filter(({ mode }) => mode !== 'exclusion');
    for (const { part, mode, pixels } of named)
      layers.push({ name: `${index + 1}. ${laid.step.effect}, ${part}`, mode, pixels });
  }
  const merged = bottom.slice();
  for (const { mode, pixels } of layers.slice(1)) layOver(merged, pixels, mode);
  const withoutTouchUp = largestOff(merged, wanted);
  const { pixels, count } = touchUpOf(merged, wanted);
  if (count > 0) layers.push({ name: TOUCH_UP, mode: 'normal', pixels });
  return {
    ...{ width, height, layers, merged, missing },
    off: { most: largestOff(merged, wanted), withoutTouchUp, touchedUp: count / (width * height) },
  };
}

function missingWords({ layer }: LaidStep, made: readonly { mode: BlendMode }[]): string | undefined {
  if (!layer) return 'its texture depends on the steps below it, so it stands in the touch-up alone';
  if (layer.shift || layer.bleed)
    return 'it moves paint, which no layer can hold; that stands in the touch-up';
  if (made.some(({ mode }) => mode === 'exclusion'))
    return 'OpenRaster has no name for exclusion, so its colour stands in the touch-up';
  return undefined;
}

function texturesOf({ step, mask }: LaidStep, layer: AnyLayer, artwork: Frame) {
  const paper = parseHex(step.paper).map(decodeSrgb) as readonly number[] as Rgb;
  const masked = step.mask ? weighed(layer, maskOf(step, artwork, mask)) : layer;
  return layersByHand(masked, { blend: step.blend, paper, strength: step.opacity });
}

function maskOf({ mask, paper }: RenderStep, artwork: Frame, picture: Uint8Array | undefined): Float32Array {
  const pixels = artwork.width * artwork.height;
  if (picture) return Float32Array.from(picture, (white) => (mask?.spare ? 255 - white : white) / 255);
  const { tolerance = DEFAULT_TOLERANCE, softness = DEFAULT_SOFTNESS, spare = false } = mask ?? {};
  const colours = (mask?.colours ?? []).map((hex) => labOfSrgb(parseHex(hex)));
  const shares = new Float32Array(pixels);
  openColourMask({ colours, tolerance, softness, spare, paper: parseHex(paper) })(artwork.pixels, 0, shares);
  return shares;
}

/** The layer as its mask lets it through. */
function weighed({ width, height, load, parting, tint, shade }: AnyLayer, share: Float32Array): AnyLayer {
  const toward1 = (plane: Float32Array) => plane.map((value, pixel) => 1 + (value - 1) * share[pixel]);
  return {
    ...{ width, height },
    ...(load && { load: toward1(load) }),
    ...(parting && { parting: parting.map((value, at) => value * share[Math.floor(at / 3)]) }),
    ...(shade && { shade: toward1(shade) }),
    ...(tint && { tint: tint.map((value, at) => ((at & 3) === 3 ? value * share[at >> 2] : value)) }),
  };
}

const BLOCK = 256;

/**
 * Lays a picture over another as W3C Compositing and Blending Level 1 has it, in encoded sRGB, rounded to 8 bit as a
 * paint program does between layers.
 */
export function layOver(under: Uint8Array, over: Uint8Array, mode: BlendMode): void {
  const backdrop = new Float32Array(3 * BLOCK);
  const source = new Float32Array(3 * BLOCK);
  for (let first = 0; first < under.length; first += 4 * BLOCK) {
    const count = Math.min(BLOCK, (under.length - first) / 4);
    for (let pixel = 0; pixel < count; pixel++)
      for (let channel = 0; channel < 3; channel++) {
        backdrop[3 * pixel + channel] = under[first + 4 * pixel + channel] / 255;
        source[3 * pixel + channel] = over[first + 4 * pixel + channel] / 255;
      }
    const plain = source.slice(0, 3 * count);
    blendBlock(mode, backdrop, source, count);
    for (let pixel = 0; pixel < count; pixel++)
      mix(under, first + 4 * pixel, backdrop, plain, source, pixel, over);
  }
}

/** Co = (as (1 - ab) Cs + as ab B(Cb, Cs) + (1 - as) ab Cb) / ao */
function mix(
  under: Uint8Array,
  at: number,
  backdrop: Float32Array,
  plain: Float32Array,
  blended: Float32Array,
  pixel: number,
  over: Uint8Array,
): void {
  const top = over[at + 3] / 255;
  if (top === 0) return;
  const bottom = under[at + 3] / 255;
  const whole = top + bottom * (1 - top);
  for (let channel = 0; channel < 3; channel++) {
    const k = 3 * pixel + channel;
    const sum = top * (1 - bottom) * plain[k] + top * bottom * blended[k] + (1 - top) * bottom * backdrop[k];
    under[at + channel] = Math.round((255 * sum) / whole);
  }
  under[at + 3] = Math.round(255 * whole);
}

/** Puts the print's pixels where the stack is off, and gives them as a layer. Only an opaque pixel can be covered. */
function touchUpOf(merged: Uint8Array, wanted: Uint8Array): { pixels: Uint8Array; count: number } {
  const pixels = new Uint8Array(merged.length);
  let count = 0;
  for (let at = 0; at < merged.length; at += 4) {
    if (wanted[at + 3] < 255 || offAt(merged, wanted, at) <= 1) continue;
    for (let channel = 0; channel < 4; channel++) {
      pixels[at + channel] = wanted[at + channel];
      merged[at + channel] = wanted[at + channel];
    }
    count++;
  }
  return { pixels, count };
}

/** In what is seen: colour weighs as much as it covers. */
function largestOff(one: Uint8Array, other: Uint8Array): number {
  let most = 0;
  for (let at = 0; at < one.length; at += 4) most = Math.max(most, offAt(one, other, at));
  return Math.round(most);
}

function offAt(one: Uint8Array, other: Uint8Array, at: number): number {
  let most = Math.abs(one[at + 3] - other[at + 3]);
  for (let channel = 0; channel < 3; channel++)
    most = Math.max(
      most,
      Math.abs(one[at + channel] * one[at + 3] - other[at + channel] * other[at + 3]) / 255,
    );
  return most;
}
