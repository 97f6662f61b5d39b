import { byteOfLinear, hashUnit, LINEAR_OF_BYTE } from 'tenter';
import type { Picture } from './artwork/tile.ts';

/** How a sheet lay on the glass. */
export interface Scan {
  /** mm of either side, and its density. */
  readonly size: number;
  readonly dpi: number;
  /** deg that it lay askew. */
  readonly turn: number;
  /** How much light was lost where it was darkest, 0..1. */
  readonly falloff: number;
}

/** The middle of a sheet as a scanner sees it: askew, in uneven light, with a little grain. */
export function scanned(
  sheet: Picture & { readonly perMm: number },
  { size, dpi, turn, falloff }: Scan,
): Picture {
  const side = Math.round((size * dpi) / 25.4);
  const pixels = new Uint8Array(4 * side * side);
  const step = (sheet.perMm * 25.4) / dpi;
  const [cos, sin] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
  for (let j = 0, to = 0; j < side; j++) {
    for (let i = 0; i < side; i++, to += 4) {
      const light = lightAt(i / side - 0.5, j / side - 0.5, falloff);
      const grain = 1 + 0.012 * (hashUnit(1, i, j) - 0.5);
      const sums = [0, 0, 0];
      for (let n = 0; n < 4; n++) {
        const x = (i + 0.25 + 0.5 * (n & 1) - side / 2) * step;
        const y = (j + 0.25 + 0.5 * (n >> 1) - side / 2) * step;
        const u = Math.floor(sheet.width / 2 + cos * x - sin * y);
        const v = Math.floor(sheet.height / 2 + sin * x + cos * y);
        const from = 4 * (v * sheet.width + u);
        for (let c = 0; c < 3; c++) sums[c] += LINEAR_OF_BYTE[sheet.pixels[from + c]] / 4;
      }
      for (let c = 0; c < 3; c++) pixels[to + c] = byteOfLinear(Math.min(1, sums[c] * light * grain));
      pixels[to + 3] = 255;
    }
  }
  return { pixels, width: side, height: side };
}

/** A lamp that stands to the left above, and a lens that is darker in its corners. */
function lightAt(u: number, v: number, falloff: number): number {
  return 1 - falloff * (0.45 + 0.65 * u + 0.4 * v + 0.5 * (u * u + v * v));
}
