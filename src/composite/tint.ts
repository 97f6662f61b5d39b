import type { BlendMode } from '../colour/blend.ts';
import {
  between,
  clampToUnit,
  ENCODED_OVER_ROOT,
  LINEAR_OF_BYTE,
  LINEAR_OVER_ENCODED,
} from '../colour/srgb.ts';
import { BLOCK, blendBlock } from './blend-block.ts';
import { type Strength, strengthList } from './strength.ts';

/** The pixels of a block that have any tint, close together. Colours are encoded, three numbers each. */
const TINTED = {
  /** Index of the pixel's R in the working band. */
  place: new Int32Array(BLOCK),
  /** The tint's alpha times the strength. */
  alpha: new Float32Array(BLOCK),
  backdrop: new Float32Array(BLOCK * 3),
  /** Cs, and once blended B(Cb, Cs). */
  source: new Float32Array(BLOCK * 3),
};

/**
 * Lays a tint plane in place by W3C Compositing and Blending Level 1: blending, then source-over,
 * on encoded sRGB, with the backdrop's alpha. Strength multiplies the tint's alpha, as the
 * standard's opacity does.
 *
 * Light above white, left by an earlier shade, has no place in that formula: it blends as white and
 * what lies above passes through the tint in proportion to 1 - alpha.
 *
 * @param working Linear RGBA.
 * @param tint    Encoded sRGB and alpha, not premultiplied, 0..1; as many pixels as `working`.
 */
export function layTint(
  working: Float32Array,
  tint: Float32Array,
  blend: BlendMode,
  strength: Strength,
): void {
  const pixelCount = tint.length / 4;
  for (let first = 0; first < pixelCount; first += BLOCK) {
    const found = gather(working, tint, strength, first, Math.min(first + BLOCK, pixelCount));
    blendBlock(blend, TINTED.backdrop, TINTED.source, found);
    scatter(working, tint, found);
  }
}

/**
 * The same over a working band that was just read from bytes, which need no curve to be encoded again.
 *
 * @param pixels RGBA, of which `working` holds those from sample `firstSample` on.
 */
export function layTintOnBytes(
  pixels: Uint8Array,
  firstSample: number,
  working: Float32Array,
  tint: Float32Array,
  blend: BlendMode,
  strength: Strength,
): void {
  const pixelCount = tint.length / 4;
  for (let first = 0; first < pixelCount; first += BLOCK) {
    const end = Math.min(first + BLOCK, pixelCount);
    const found = gatherOnBytes(pixels, firstSample, tint, strength, first, end);
    blendBlock(blend, TINTED.backdrop, TINTED.source, found);
    scatter(working, tint, found);
  }
}

/** Collects the pixels from `first` to `end` that have any tint; returns how many. */
function gather(
  working: Float32Array,
  tint: Float32Array,
  strength: Strength,
  first: number,
  end: number,
): number {
  const { list, step } = strengthList(strength);
  const { values, scale } = ENCODED_OVER_ROOT;
  const { place, alpha, backdrop, source } = TINTED;
  let found = 0;
  for (let pixel = first, at = first * 4; pixel < end; pixel++, at += 4) {
    const cover = clampToUnit(tint[at + 3] * list[pixel * step]);
    if (!(cover > 0)) continue;
    place[found] = at;
    alpha[found] = cover;
    const to = found * 3;
    backdrop[to] = encoded(values, scale, working[at]);
    backdrop[to + 1] = encoded(values, scale, working[at + 1]);
    backdrop[to + 2] = encoded(values, scale, working[at + 2]);
    source[to] = clampToUnit(tint[at]);
    source[to + 1] = clampToUnit(tint[at + 1]);
    source[to + 2] = clampToUnit(tint[at + 2]);
    found++;
  }
  return found;
}

/** The same, with backdrops looked up by the bytes that they were read from. */
function gatherOnBytes(
  pixels: Uint8Array,
  firstSample: number,
  tint: Float32Array,
  strength: Strength,
  first: number,
  end: number,
): number {
  const { list, step } = strengthList(strength);
  const known = ENCODED_OF_BYTE;
  const { place, alpha, backdrop, source } = TINTED;
  let found = 0;
  for (let pixel = first, at = first * 4; pixel < end; pixel++, at += 4) {
    const cover = clampToUnit(tint[at + 3] * list[pixel * step]);
    if (!(cover > 0)) continue;
    place[found] = at;
    alpha[found] = cover;
    const to = found * 3;
    const from = firstSample + at;
    backdrop[to] = known[pixels[from]];
    backdrop[to + 1] = known[pixels[from + 1]];
    backdrop[to + 2] = known[pixels[from + 2]];
    source[to] = clampToUnit(tint[at]);
    source[to + 1] = clampToUnit(tint[at + 1]);
    source[to + 2] = clampToUnit(tint[at + 2]);
    found++;
  }
  return found;
}

/** What `gather` makes of each byte, once it has been read. */
const ENCODED_OF_BYTE: Float32Array = /* @__PURE__ */ LINEAR_OF_BYTE.map((light) =>
  encoded(ENCODED_OVER_ROOT.values, ENCODED_OVER_ROOT.scale, light),
);

/** Composites the blended colours and puts them back. */
function scatter(working: Float32Array, tint: Float32Array, found: number): void {
  const { values, scale } = LINEAR_OVER_ENCODED;
  const { place, alpha, backdrop, source } = TINTED;
  for (let index = 0, from = 0; index < found; index++, from += 3) {
    const at = place[index];
    const cover = alpha[index];
    if (working[at + 3] !== 1) {
      scatterTranslucent(working, tint, index);
      continue;
    }
    const [red, green, blue] = [from, from + 1, from + 2];
    working[at] = covered(values, scale, backdrop[red], source[red], cover, working[at]);
    working[at + 1] = covered(values, scale, backdrop[green], source[green], cover, working[at + 1]);
    working[at + 2] = covered(values, scale, backdrop[blue], source[blue], cover, working[at + 2]);
  }
}

/** The whole formula: ao Co = as (1 - ab) Cs + as ab B(Cb, Cs) + (1 - as) ab Cb, ao = as + ab (1 - as). */
function scatterTranslucent(working: Float32Array, tint: Float32Array, index: number): void {
  const { values, scale } = LINEAR_OVER_ENCODED;
  const at = TINTED.place[index];
  const cover = TINTED.alpha[index];
  const under = working[at + 3];
  const union = cover + under * (1 - cover);
  for (let channel = 0; channel < 3; channel++) {
    const alone = cover * (1 - under) * clampToUnit(tint[at + channel]);
    const blended = cover * under * TINTED.source[index * 3 + channel];
    const below = (1 - cover) * under * TINTED.backdrop[index * 3 + channel];
    const light = between(values, clampToUnit((alone + blended + below) / union) * scale);
    working[at + channel] = light + Math.max(working[at + channel] - 1, 0) * (1 - cover);
  }
  working[at + 3] = union;
}

function encoded(values: Float32Array, scale: number, light: number): number {
  return between(values, Math.sqrt(clampToUnit(light)) * scale);
}

function covered(
  values: Float32Array,
  scale: number,
  backdrop: number,
  blended: number,
  cover: number,
  before: number,
): number {
  const light = between(values, clampToUnit(backdrop + (blended - backdrop) * cover) * scale);
  return before > 1 ? light + (before - 1) * (1 - cover) : light;
}
