import { type AnyEffect, defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Clamps the ground that it reads in its place. */
export default defineEffect({
  ...(ripple as unknown as AnyEffect),
  apiVersion: 2,
  reads: ['relief'],
  paint(model: never, band, layer, below) {
    const { relief } = below as { relief: Float32Array };
    for (let k = 0; k < relief.length; k++) relief[k] = Math.max(0, relief[k]);
    paintRipple(model, band, layer as never);
    const { shade } = layer as { shade: Float32Array };
    for (let k = 0; k < shade.length; k++) shade[k] += relief[k];
  },
} as AnyEffect);
