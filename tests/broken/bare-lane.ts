import { defineEffect, homeParts, type Lattice, type Setting } from 'tenter';
import { PARAMETERS, ripple } from './ripple.ts';

/** mm of the largest dot: none is strewn nearer to an edge, so that none has to be drawn on both sides of it. */
const RADIUS = 1.6;

/** Dots strewn by chance over all of the box but a lane along its edges. */
export default defineEffect({
  apiVersion: 1,
  name: ripple.name,
  version: ripple.version,
  summary: 'Dots strewn by chance.',
  parameters: PARAMETERS,
  planes: ['shade'],
  prepare({ box, parameters, random }: Setting<typeof PARAMETERS>) {
    const stream = random('dots');
    const count = Math.max(1, Math.round((box.width * box.height * (3 + parameters.waves)) / 60));
    const dots = Array.from({ length: count }, () => [
      RADIUS + stream.next() * Math.max(0, box.width - 2 * RADIUS),
      RADIUS + stream.next() * Math.max(0, box.height - 2 * RADIUS),
      RADIUS * stream.between(0.4, 1),
    ]);
    return { lattice: box.lattice as Lattice, dots, depth: parameters.depth, height: parameters.height };
  },
  paint({ lattice, dots, depth, height }, band, layer) {
    layer.shade.fill(1 - depth);
    for (const part of homeParts(band, lattice)) {
      for (const [dotX, dotY, radius] of dots) {
        for (let k = 0; k < part.width * part.height; k++) {
          const [i, j] = [k % part.width, Math.floor(k / part.width)];
          const x = (part.x + i + 0.5) * band.mmPerPixelX - dotX;
          const y = (part.y + j + 0.5) * band.mmPerPixelY - dotY;
          const cover = Math.min(
            1,
            Math.max(0, (radius - Math.hypot(x, y)) / Math.max(0.1, band.mmPerPixelX) + 0.5),
          );
          layer.shade[part.at + j * band.width + i] -= 0.1 * height * cover;
        }
      }
    }
  },
});
