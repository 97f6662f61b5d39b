import type { Rgb } from './hex.ts';

/**
 * The non-separable blend functions B(Cb, Cs) of W3C Compositing and Blending Level 1, section 10.2:
 * whole colours, encoded sRGB in 0..1 and not premultiplied. The answers stay in 0..1.
 */

export function hue(backdrop: Rgb, source: Rgb): Rgb {
  return withLuminosity(withSaturation(source, saturationOf(backdrop)), luminosityOf(backdrop));
}

export function saturation(backdrop: Rgb, source: Rgb): Rgb {
  return withLuminosity(withSaturation(backdrop, saturationOf(source)), luminosityOf(backdrop));
}

export function colour(backdrop: Rgb, source: Rgb): Rgb {
  return withLuminosity(source, luminosityOf(backdrop));
}

export function luminosity(backdrop: Rgb, source: Rgb): Rgb {
  return withLuminosity(backdrop, luminosityOf(source));
}

/** `Lum`. */
function luminosityOf(colour: Rgb): number {
  return 0.3 * colour[0] + 0.59 * colour[1] + 0.11 * colour[2];
}

/** `Sat`. */
function saturationOf(colour: Rgb): number {
  return Math.max(colour[0], colour[1], colour[2]) - Math.min(colour[0], colour[1], colour[2]);
}

/** `SetSat`: its three cases for the least, middle and greatest channel are one straight line. */
function withSaturation(colour: Rgb, saturation: number): Rgb {
  const least = Math.min(colour[0], colour[1], colour[2]);
  const range = saturationOf(colour);
  if (range === 0) return [0, 0, 0];
  return [
    ((colour[0] - least) / range) * saturation,
    ((colour[1] - least) / range) * saturation,
    ((colour[2] - least) / range) * saturation,
  ];
}

/** `SetLum` and, by drawing the colour toward its grey until it fits, `ClipColor`. */
function withLuminosity(colour: Rgb, luminosity: number): Rgb {
  const lift = luminosity - luminosityOf(colour);
  const least = Math.min(colour[0], colour[1], colour[2]) + lift;
  const greatest = Math.max(colour[0], colour[1], colour[2]) + lift;
  let scale = 1;
  if (least < 0) scale = luminosity / (luminosity - least);
  if (greatest > 1) scale = Math.min(scale, (1 - luminosity) / (greatest - luminosity));
  const offset = lift - luminosity;
  return [
    luminosity + (colour[0] + offset) * scale,
    luminosity + (colour[1] + offset) * scale,
    luminosity + (colour[2] + offset) * scale,
  ];
}
