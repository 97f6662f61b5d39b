import { defineEffect } from 'tenter';
import { type Dyed, dyed, paintDyed, prepareDyed } from './dyed.ts';

interface Stretched extends Dyed {
  readonly across: number;
  readonly down: number;
}

/** Lays the pixels of its picture as they come, each where the middle of a pixel of the band falls. */
export default defineEffect({
  ...dyed,
  prepare(setting): Stretched {
    const { width, height } = setting.picture('cloth');
    return { ...prepareDyed(setting), across: width, down: height };
  },
  paint(model, band, layer) {
    paintDyed(model, band, layer);
    const { ax, ay, bx, by } = model.lattice;
    const area = ax * by - ay * bx;
    const { across, down, samples } = model as Stretched;
    for (let row = 0, k = 0; row < band.height; row++) {
      for (let column = 0; column < band.width; column++, k++) {
        const x = (band.x + column + 0.5) * band.mmPerPixelX;
        const y = (band.y + row + 0.5) * band.mmPerPixelY;
        const i = Math.round(folded((x * by - y * bx) / area) * (across - 1));
        const j = Math.round(folded((y * ax - x * ay) / area) * (down - 1));
        layer.shade[k] *= 0.4 + (0.6 * samples[4 * (j * across + i)]) / 65_535;
      }
    }
  },
});

/** There and back once a turn, 0..1, so that it closes. */
function folded(turns: number): number {
  return 1 - Math.abs(2 * (turns - Math.floor(turns)) - 1);
}
