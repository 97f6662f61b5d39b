/**
 * The separable blend functions B(Cb, Cs) of W3C Compositing and Blending Level 1, section 10.1:
 * one channel of the backdrop and of the source, each encoded sRGB in 0..1 and not premultiplied.
 * The answers stay in 0..1.
 */

export function normal(_backdrop: number, source: number): number {
  return source;
}

export function multiply(backdrop: number, source: number): number {
  return backdrop * source;
}

export function screen(backdrop: number, source: number): number {
  return backdrop + source - backdrop * source;
}

export function overlay(backdrop: number, source: number): number {
  return hardLight(source, backdrop);
}

export function darken(backdrop: number, source: number): number {
  return Math.min(backdrop, source);
}

export function lighten(backdrop: number, source: number): number {
  return Math.max(backdrop, source);
}

export function colourDodge(backdrop: number, source: number): number {
  if (backdrop <= 0) return 0;
  return source >= 1 ? 1 : Math.min(1, backdrop / (1 - source));
}

export function colourBurn(backdrop: number, source: number): number {
  if (backdrop >= 1) return 1;
  return source <= 0 ? 0 : 1 - Math.min(1, (1 - backdrop) / source);
}

export function hardLight(backdrop: number, source: number): number {
  return source <= 0.5 ? multiply(backdrop, 2 * source) : screen(backdrop, 2 * source - 1);
}

export function softLight(backdrop: number, source: number): number {
  if (source <= 0.5) return backdrop - (1 - 2 * source) * backdrop * (1 - backdrop);
  const lifted = backdrop <= 0.25 ? ((16 * backdrop - 12) * backdrop + 4) * backdrop : Math.sqrt(backdrop);
  return backdrop + (2 * source - 1) * (lifted - backdrop);
}

export function difference(backdrop: number, source: number): number {
  return Math.abs(backdrop - source);
}

export function exclusion(backdrop: number, source: number): number {
  return backdrop + source - 2 * backdrop * source;
}
