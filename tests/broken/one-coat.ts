import { defineEffect, poissonPoints, visitCopies } from 'tenter';
import { ripple } from './ripple.ts';

const COATS = 3;
const RADIUS = 0.8;

/** A sketch has one coat of its dots instead of three: they stand where they should, and it is too light. */
export default defineEffect({
  ...ripple,
  prepare({ box, random, quality, parameters }) {
    const coats = Array.from({ length: quality === 'sketch' ? 1 : COATS }, (_, coat) =>
      poissonPoints(box, 3.2, random(`coat ${coat}`)),
    );
    const [x, y] = [coats.flatMap((coat) => [...coat.x]), coats.flatMap((coat) => [...coat.y])];
    const depth = 0.2 + 0.2 * parameters.height + 0.2 * parameters.depth + 0.02 * parameters.waves;
    return { x, y, depth, lattice: { ...box.lattice } };
  },
  paint({ x, y, depth, lattice }, band, layer) {
    const { mmPerPixelX, mmPerPixelY } = band;
    const soft = Math.max(0.1, (mmPerPixelX + mmPerPixelY) / 2);
    const reach = RADIUS + soft;
    const [left, top] = [band.x * mmPerPixelX, band.y * mmPerPixelY];
    const [right, bottom] = [left + band.width * mmPerPixelX, top + band.height * mmPerPixelY];
    const near = { left: left - reach, top: top - reach, right: right + reach, bottom: bottom + reach };
    for (const [k, across] of x.entries()) {
      visitCopies(lattice, across, y[k], near, (mmX, mmY) => {
        for (let j = 0; j < band.height; j++) {
          const down = (band.y + j + 0.5) * mmPerPixelY - mmY;
          if (Math.abs(down) > reach) continue;
          for (let i = 0; i < band.width; i++) {
            const away = Math.hypot((band.x + i + 0.5) * mmPerPixelX - mmX, down);
            const cover = Math.min(1, Math.max(0, 0.5 + (RADIUS - away) / soft));
            layer.shade[j * band.width + i] *= 1 - depth * cover;
          }
        }
      });
    }
  },
});
