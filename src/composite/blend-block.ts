import type { BlendMode } from '../colour/blend.ts';
import type { Rgb } from '../colour/hex.ts';
import * as whole from '../colour/nonseparable.ts';
import * as by from '../colour/separable.ts';

/** How many pixels are blended at once: few enough for all their numbers to stay in the first-level cache. */
export const BLOCK = 256;

/** Blends `length` numbers, three per pixel; the answer replaces the source. */
type BlockBlend = (backdrop: Float32Array, source: Float32Array, length: number) => void;

/**
 * One loop for each mode, written out: a loop that is handed its blend function calls it through a
 * pointer once it has seen several, and takes about five times as long.
 */
const BLOCK_BLENDS: Readonly<Record<BlendMode, BlockBlend>> = {
  normal: () => {},
  multiply: (backdrop, source, length) => {
    for (let i = 0; i < length; i++) source[i] = by.multiply(backdrop[i], source[i]);
  },
  screen: (backdrop, source, length) => {
    for (let i = 0; i < length; i++) source[i] = by.screen(backdrop[i], source[i]);
  },
  overlay: (backdrop, source, length) => {
    for (let i = 0; i < length; i++) source[i] = by.overlay(backdrop[i], source[i]);
  },
  darken: (backdrop, source, length) => {
    for (let i = 0; i < length; i++) source[i] = by.darken(backdrop[i], source[i]);
  },
  lighten: (backdrop, source, length) => {
    for (let i = 0; i < length; i++) source[i] = by.lighten(backdrop[i], source[i]);
  },
  'color-dodge': (backdrop, source, length) => {
    for (let i = 0; i < length; i++) source[i] = by.colourDodge(backdrop[i], source[i]);
  },
  'color-burn': (backdrop, source, length) => {
    for (let i = 0; i < length; i++) source[i] = by.colourBurn(backdrop[i], source[i]);
  },
  'hard-light': (backdrop, source, length) => {
    for (let i = 0; i < length; i++) source[i] = by.hardLight(backdrop[i], source[i]);
  },
  'soft-light': (backdrop, source, length) => {
    for (let i = 0; i < length; i++) source[i] = by.softLight(backdrop[i], source[i]);
  },
  difference: (backdrop, source, length) => {
    for (let i = 0; i < length; i++) source[i] = by.difference(backdrop[i], source[i]);
  },
  exclusion: (backdrop, source, length) => {
    for (let i = 0; i < length; i++) source[i] = by.exclusion(backdrop[i], source[i]);
  },
  hue: (backdrop, source, length) => {
    for (let i = 0; i < length; i += 3) put(source, i, whole.hue(at(backdrop, i), at(source, i)));
  },
  saturation: (backdrop, source, length) => {
    for (let i = 0; i < length; i += 3) put(source, i, whole.saturation(at(backdrop, i), at(source, i)));
  },
  color: (backdrop, source, length) => {
    for (let i = 0; i < length; i += 3) put(source, i, whole.colour(at(backdrop, i), at(source, i)));
  },
  luminosity: (backdrop, source, length) => {
    for (let i = 0; i < length; i += 3) put(source, i, whole.luminosity(at(backdrop, i), at(source, i)));
  },
};

/**
 * Replaces each source colour by B(Cb, Cs) of the mode.
 *
 * @param backdrop Three encoded channels per pixel, 0..1; so has `source`, which receives the answer.
 */
export function blendBlock(
  mode: BlendMode,
  backdrop: Float32Array,
  source: Float32Array,
  pixelCount: number,
): void {
  BLOCK_BLENDS[mode](backdrop, source, pixelCount * 3);
}

function at(colours: Float32Array, index: number): Rgb {
  return [colours[index], colours[index + 1], colours[index + 2]];
}

function put(colours: Float32Array, index: number, colour: Rgb): void {
  colours[index] = colour[0];
  colours[index + 1] = colour[1];
  colours[index + 2] = colour[2];
}
