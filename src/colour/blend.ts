import type { Rgb } from './hex.ts';
import * as nonseparable from './nonseparable.ts';
import * as separable from './separable.ts';

/** The sixteen blend modes of W3C Compositing and Blending Level 1. */
export const BLEND_MODES = [
  'normal',
  'multiply',
  'screen',
  'overlay',
  'darken',
  'lighten',
  'color-dodge',
  'color-burn',
  'hard-light',
  'soft-light',
  'difference',
  'exclusion',
  'hue',
  'saturation',
  'color',
  'luminosity',
] as const;
/** One of the blend modes of W3C, by its name there. */
export type BlendMode = (typeof BLEND_MODES)[number];

/** The modes that need the whole colour; the others work channel by channel. */
export type NonSeparableMode = 'hue' | 'saturation' | 'color' | 'luminosity';
export type SeparableMode = Exclude<BlendMode, NonSeparableMode>;

const SEPARABLE: Readonly<Record<SeparableMode, (backdrop: number, source: number) => number>> = {
  normal: separable.normal,
  multiply: separable.multiply,
  screen: separable.screen,
  overlay: separable.overlay,
  darken: separable.darken,
  lighten: separable.lighten,
  'color-dodge': separable.colourDodge,
  'color-burn': separable.colourBurn,
  'hard-light': separable.hardLight,
  'soft-light': separable.softLight,
  difference: separable.difference,
  exclusion: separable.exclusion,
};

const NON_SEPARABLE: Readonly<Record<NonSeparableMode, (backdrop: Rgb, source: Rgb) => Rgb>> = {
  hue: nonseparable.hue,
  saturation: nonseparable.saturation,
  color: nonseparable.colour,
  luminosity: nonseparable.luminosity,
};

/**
 * The blend function B(Cb, Cs) of a mode: what an opaque source shows over an opaque backdrop.
 *
 * @param backdrop Encoded sRGB, 0..1, not premultiplied; so are the source and the answer.
 */
export function blendColours(mode: BlendMode, backdrop: Rgb, source: Rgb): Rgb {
  if (isNonSeparable(mode)) return NON_SEPARABLE[mode](backdrop, source);
  const channel = SEPARABLE[mode];
  return [channel(backdrop[0], source[0]), channel(backdrop[1], source[1]), channel(backdrop[2], source[2])];
}

function isNonSeparable(mode: BlendMode): mode is NonSeparableMode {
  return mode in NON_SEPARABLE;
}
