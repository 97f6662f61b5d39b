import type { BlendMode } from '../colour/blend.ts';
import { clampToUnit, decodeByTable, encodeByTable } from '../colour/srgb.ts';
import { BLOCK, blendBlock } from './blend-block.ts';
import { type Strength, strengthList } from './strength.ts';

/** Of each pixel in the block that has tint: where it stands, its alpha, and both colours, encoded. */
const place = new Int32Array(BLOCK);
const cover = new Float32Array(BLOCK);
const backdrop = new Float32Array(BLOCK * 3);
const source = new Float32Array(BLOCK * 3);

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
    blendBlock(blend, backdrop, source, found);
    scatter(working, tint, found);
  }
}

/** Collects the pixels from `first` to `end` that have any tint. */
function gather(
  working: Float32Array,
  tint: Float32Array,
  strength: Strength,
  first: number,
  end: number,
): number {
  const { list, step } = strengthList(strength);
  let found = 0;
  for (let pixel = first, at = first * 4; pixel < end; pixel++, at += 4) {
    const alpha = clampToUnit(tint[at + 3] * list[pixel * step]);
    if (!(alpha > 0)) continue;
    place[found] = at;
    cover[found] = alpha;
    const to = found * 3;
    for (let channel = 0; channel < 3; channel++) {
      backdrop[to + channel] = encodeByTable(clampToUnit(working[at + channel]));
      source[to + channel] = clampToUnit(tint[at + channel]);
    }
    found++;
  }
  return found;
}

/** Composites the blended colours, which `source` now holds, and puts them back. */
function scatter(working: Float32Array, tint: Float32Array, found: number): void {
  for (let index = 0, from = 0; index < found; index++, from += 3) {
    const at = place[index];
    const alpha = cover[index];
    const under = working[at + 3];
    if (under === 1) {
      for (let channel = 0; channel < 3; channel++) {
        const below = backdrop[from + channel];
        const mixed = below + (source[from + channel] - below) * alpha;
        working[at + channel] = decodeByTable(clampToUnit(mixed)) + gleam(working[at + channel], alpha);
      }
      continue;
    }
    const union = alpha + under * (1 - alpha);
    for (let channel = 0; channel < 3; channel++) {
      const bare = alpha * (1 - under) * clampToUnit(tint[at + channel]);
      const both = alpha * under * source[from + channel];
      const below = (1 - alpha) * under * backdrop[from + channel];
      const mixed = (bare + both + below) / union;
      working[at + channel] = decodeByTable(clampToUnit(mixed)) + gleam(working[at + channel], alpha);
    }
    working[at + 3] = union;
  }
}

function gleam(light: number, alpha: number): number {
  return Math.max(light - 1, 0) * (1 - alpha);
}
