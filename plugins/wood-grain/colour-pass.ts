import { WASH } from './colours.ts';
import type { Look } from './model.ts';
import type { RowScratch } from './scratch.ts';

/** The planes a row is written to. */
export interface WoodPlanes {
  readonly tint?: Float32Array;
  readonly shade?: Float32Array;
}

/**
 * Writes `count` pixels of a row.
 *
 * @param at     Where the first stands in the planes, in pixels.
 * @param stride Pixels of the plane from one to the next.
 */
export function colourPass(
  look: Look,
  colours: Float64Array,
  row: RowScratch,
  count: number,
  planes: WoodPlanes,
  at: number,
  stride: number,
): void {
  if (look.body === 'full' && planes.tint) writeWood(look, colours, row, count, planes.tint, at, stride);
  if (look.body === 'grain' && planes.tint) writeGrain(look, row, count, planes.tint, at, stride);
  if (planes.shade) writeShade(look, row, count, planes.shade, at, stride);
}

/** The whole colour of the wood, opaque. */
function writeWood(
  { pore: dark }: Look,
  colours: Float64Array,
  { tone, light, pore }: RowScratch,
  count: number,
  tint: Float32Array,
  at: number,
  stride: number,
): void {
  const [r0, r1, r2, g0, g1, g2, b0, b1, b2] = colours;
  const [wr, wg, wb] = WASH;
  const [pr, pg, pb] = dark;
  let n = at * 4;
  for (let k = 1; k <= count; k++, n += 4 * stride) {
    const t = tone[k];
    const wash = light[k] - 1;
    const p = Math.min(pore[k], 1);
    const rest = 1 - p;
    const r = (r0 + t * (r1 + t * r2)) * (1 + wash * wr) * rest + p * pr;
    const g = (g0 + t * (g1 + t * g2)) * (1 + wash * wg) * rest + p * pg;
    const b = (b0 + t * (b1 + t * b2)) * (1 + wash * wb) * rest + p * pb;
    tint[n] = r < 0 ? 0 : Math.min(r, 1);
    tint[n + 1] = g < 0 ? 0 : Math.min(g, 1);
    tint[n + 2] = b < 0 ? 0 : Math.min(b, 1);
    tint[n + 3] = 1;
  }
}

/** Only the darker grain: one colour, as dense as the wood is dark there. */
function writeGrain(
  { dark, pore: poreColour, meanTone, contrast }: Look,
  { tone, light, pore }: RowScratch,
  count: number,
  tint: Float32Array,
  at: number,
  stride: number,
): void {
  let n = at * 4;
  for (let k = 1; k <= count; k++, n += 4 * stride) {
    const p = Math.min(pore[k], 1);
    const dense = 0.7 * (meanTone + contrast * (tone[k] - meanTone)) + 2 * (1 - light[k]);
    const line = dense < 0 ? 0 : Math.min(dense, 0.9);
    tint[n] = dark[0] + p * (poreColour[0] - dark[0]);
    tint[n + 1] = dark[1] + p * (poreColour[1] - dark[1]);
    tint[n + 2] = dark[2] + p * (poreColour[2] - dark[2]);
    tint[n + 3] = line + (1 - line) * 0.85 * p;
  }
}

/** Light and shade: pores and joints are grooves lit from the left, fibres shine by their lightness. */
function writeShade(
  { relief, body, meanTone, contrast }: Look,
  { tone, light, pore }: RowScratch,
  count: number,
  shade: Float32Array,
  at: number,
  stride: number,
): void {
  // With no colour laid, light and shade must tell the rings as well.
  const ringDepth = body === 'relief' ? 0.5 * contrast : 0;
  for (let k = 1, n = at; k <= count; k++, n += stride) {
    const slant = pore[k + 1] - pore[k - 1];
    const value =
      1 + relief * (0.3 * slant - 0.3 * pore[k] + 1.2 * (light[k] - 1) - ringDepth * (tone[k] - meanTone));
    shade[n] = Math.max(value, 0);
  }
}
