import type { BlendMode } from '../colour/blend.ts';
import type { Rgb } from '../colour/hex.ts';
import type { AnyLayer } from '../effect/layer.ts';
import { encodedFactor, fitLoad, type LoadFit } from './by-hand-curves.ts';

/** What a picture for laying by hand holds. */
export type HandPart = 'paint' | 'wash' | 'colour' | 'dark' | 'light';

/** A picture to be laid in a W3C blend mode, on encoded sRGB. */
export interface HandLayer {
  readonly part: HandPart;
  readonly mode: BlendMode;
  /** Straight RGBA, 8 bit. */
  readonly pixels: Uint8Array;
}

/** How the layer would be laid by the host. */
export interface HandOptions {
  readonly blend: BlendMode;
  /** Linear. */
  readonly paper: Rgb;
  /** Opacity, 0..1. */
  readonly strength: number;
}

/**
 * A texture layer as pictures to be laid by hand, the first one lowest, over whatever artwork: together
 * they come close to what the host lays. Of the modes tried over a ramp of artworks (tests/bench/by-hand.mjs),
 * these pairs are the closest: what darkens, `multiply` (or `normal` where it covers as well); what
 * gleams, `color-dodge`, which multiplies by more than 1 as a shade does; thinned or gathered paint,
 * `soft-light`, which is a power as load is. A light in `screen`, or all in one `hard-light`, `overlay`
 * or `soft-light`, is off several times as far.
 *
 * Paint that is moved (`shift`, `bleed`) no picture can hold.
 */
export function layersByHand(layer: AnyLayer, options: HandOptions): HandLayer[] {
  const made = [
    ...softLayers(layer, options),
    ...coverLayers(layer, options),
    ...lightLayers(layer, options),
  ];
  const filled = made.filter(({ pixels }) => !isEmpty(pixels));
  return filled.length > 0 ? filled : made.slice(0, 1);
}

function softLayers({ load, parting }: AnyLayer, { paper, strength }: HandOptions): HandLayer[] {
  if (!load) return [];
  const fitOf = loadFits(paper);
  const pixels = pixelsFor(load.length);
  for (let pixel = 0; pixel < load.length; pixel++) {
    const amount = 1 + (load[pixel] - 1) * strength;
    if (parting) {
      const [red, green, blue] = [0, 1, 2].map(
        (channel) => fitOf(Math.max(0, amount + parting[3 * pixel + channel] * strength)).soft[channel],
      );
      put(pixels, pixel, [red, green, blue], 1);
    } else if (amount !== 1) put(pixels, pixel, fitOf(amount).soft, 1);
  }
  return [{ part: 'paint', mode: 'soft-light', pixels }];
}

/** What covers or darkens, in as few pictures as hold it: a shadow goes into the last of them. */
function coverLayers(layer: AnyLayer, options: HandOptions): HandLayer[] {
  const { load, tint, shade } = layer;
  const { blend } = options;
  const isVeil = tint !== undefined && blend === 'normal';
  const isFilter = tint !== undefined && blend === 'multiply';
  const covers = load !== undefined || isVeil;
  if (tint === undefined || isVeil) {
    return covers
      ? [{ part: 'dark', mode: 'normal', pixels: coveringPixels(layer, options) }]
      : [{ part: 'dark', mode: 'multiply', pixels: filteringPixels(layer, options) }];
  }
  const { width, height } = layer;
  const wash: HandLayer[] = load
    ? [{ part: 'wash', mode: 'normal', pixels: coveringPixels({ width, height, load }, options) }]
    : [];
  if (isFilter) return [...wash, { part: 'dark', mode: 'multiply', pixels: filteringPixels(layer, options) }];
  const colour: HandLayer = { part: 'colour', mode: blend, pixels: colourPixels(tint, options) };
  const shadow = filteringPixels({ width, height, shade }, options);
  return [...wash, colour, { part: 'dark', mode: 'multiply', pixels: shadow }];
}

/** Straight colours laid normally: an artwork value e becomes (1 - alpha) e + alpha * colour. */
function coveringPixels({ width, height, load, tint, shade }: AnyLayer, options: HandOptions): Uint8Array {
  const { paper, strength } = options;
  const pixels = pixelsFor(width * height);
  const fitOf = loadFits(paper);
  const factorOf = shadeFactors();
  for (let pixel = 0; pixel < width * height; pixel++) {
    const fit = load && fitOf(1 + (load[pixel] - 1) * strength);
    const alpha = tint ? tint[pixel * 4 + 3] * strength : 0;
    const factor = shade ? Math.min(1, factorOf(1 + (shade[pixel] - 1) * strength)) : 1;
    const slope = factor * (1 - alpha) * (fit?.slope ?? 1);
    const laid = [0, 1, 2].map((channel) => {
      const under = (1 - alpha) * (fit?.offset[channel] ?? 0);
      return factor * (under + (tint ? alpha * tint[pixel * 4 + channel] : 0));
    });
    const cover = Math.round(255 * (1 - slope)) / 255;
    if (cover > 0) put(pixels, pixel, [laid[0] / cover, laid[1] / cover, laid[2] / cover], cover);
  }
  return pixels;
}

/** Opaque factors, transparent where they are 1. */
function filteringPixels({ width, height, tint, shade }: AnyLayer, { strength }: HandOptions): Uint8Array {
  const pixels = pixelsFor(width * height);
  const factorOf = shadeFactors();
  for (let pixel = 0; pixel < width * height; pixel++) {
    const alpha = tint ? tint[pixel * 4 + 3] * strength : 0;
    const factor = shade ? Math.min(1, factorOf(1 + (shade[pixel] - 1) * strength)) : 1;
    if (alpha === 0 && factor === 1) continue;
    const [red, green, blue] = [0, 1, 2].map(
      (channel) => factor * (1 - alpha + (tint ? alpha * tint[pixel * 4 + channel] : 0)),
    );
    put(pixels, pixel, [red, green, blue], 1);
  }
  return pixels;
}

function colourPixels(tint: Float32Array, { strength }: HandOptions): Uint8Array {
  const pixels = pixelsFor(tint.length / 4);
  for (let pixel = 0, at = 0; at < tint.length; pixel++, at += 4)
    put(pixels, pixel, [tint[at], tint[at + 1], tint[at + 2]], tint[at + 3] * strength);
  return pixels;
}

/** Color dodge divides by 1 - colour: a factor above 1, cut off at white as the host cuts it. */
function lightLayers({ shade }: AnyLayer, { strength }: HandOptions): HandLayer[] {
  if (!shade) return [];
  const pixels = pixelsFor(shade.length);
  const factorOf = shadeFactors();
  for (let pixel = 0; pixel < shade.length; pixel++) {
    const factor = factorOf(1 + (shade[pixel] - 1) * strength);
    if (factor <= 1) continue;
    const colour = 1 - 1 / factor;
    put(pixels, pixel, [colour, colour, colour], 1);
  }
  return [{ part: 'light', mode: 'color-dodge', pixels }];
}

/** Finer than a step of 8 bit shows. */
const FITS_PER_UNIT = 512;

function loadFits(paper: Rgb): (load: number) => LoadFit {
  return keeping((load) => fitLoad(load, paper));
}

function shadeFactors(): (shade: number) => number {
  return keeping(encodedFactor);
}

function keeping<Fit>(make: (amount: number) => Fit): (amount: number) => Fit {
  const made: Fit[] = [];
  return (amount) => {
    const place = Math.round(amount * FITS_PER_UNIT);
    return (made[place] ??= make(place / FITS_PER_UNIT));
  };
}

function pixelsFor(count: number): Uint8Array {
  return new Uint8Array(count * 4);
}

function put(pixels: Uint8Array, pixel: number, colour: Rgb, alpha: number): void {
  for (let channel = 0; channel < 3; channel++)
    pixels[pixel * 4 + channel] = Math.min(255, Math.round(colour[channel] * 255));
  pixels[pixel * 4 + 3] = Math.round(alpha * 255);
}

function isEmpty(pixels: Uint8Array): boolean {
  for (let at = 3; at < pixels.length; at += 4) if (pixels[at] > 0) return false;
  return true;
}
