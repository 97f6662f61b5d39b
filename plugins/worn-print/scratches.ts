import {
  type Box,
  type Lattice,
  poissonPoints,
  type RandomStream,
  type Rectangle,
  visitCopies,
} from 'tenter';
import { covered } from './covered.ts';

/** A scratch: straight but for a little bow. Plain data; mm. */
export interface Scratch {
  /** Its middle. */
  readonly x: number;
  readonly y: number;
  readonly cos: number;
  readonly sin: number;
  /** Half of its length. */
  readonly half: number;
  /** How far its ends bow out. */
  readonly bow: number;
  /** Half of its width where it is widest. */
  readonly wide: number;
  /** How deep it went, in deviations of the surface. */
  readonly depth: number;
}

/** Scratches gather: something was dragged over it some times in the same place. */
export function scratchesOf(box: Box, perDm2: number, direction: number, random: RandomStream): Scratch[] {
  const wanted = (perDm2 * box.width * box.height) / 1e4;
  if (wanted <= 0) return [];
  // A Poisson disk sampling holds 0.615 points per square of its distance (see `poissonPoints`).
  const places = poissonPoints(
    box,
    Math.sqrt((0.615 * box.width * box.height) / Math.max(1, wanted)),
    random,
  );
  return Array.from(places.x, (x, k) => {
    const isAstray = random.next() < 0.3;
    const angle = (direction * Math.PI) / 180 + (isAstray ? 0.9 : 0.16) * random.normal();
    const half = 0.5 * Math.min(150, 22 * Math.exp(0.8 * random.normal()));
    return {
      x,
      y: places.y[k],
      cos: Math.cos(angle),
      sin: Math.sin(angle),
      half,
      bow: 0.04 * half * random.normal(),
      wide: 0.08 * Math.exp(0.45 * random.normal()),
      depth: random.between(2.2, 5),
    };
  });
}

/** Rows that the scratches over a part of the box are drawn into. */
export interface ScratchSheet {
  /** Depth per pixel, row by row. */
  readonly depths: Float32Array;
  readonly x0: number;
  readonly y0: number;
  readonly width: number;
  readonly height: number;
  readonly mmX: number;
  readonly mmY: number;
}

/** Draws all scratches that lie over a sheet; where two cross, the deeper shows. */
export function drawScratches(scratches: readonly Scratch[], lattice: Lattice, sheet: ScratchSheet): void {
  const { x0, y0, width, height, mmX, mmY } = sheet;
  for (const scratch of scratches) {
    const reach = scratch.half + Math.abs(scratch.bow) + scratch.wide + mmX + mmY;
    const around: Rectangle = {
      left: x0 - reach,
      top: y0 - reach,
      right: x0 + width * mmX + reach,
      bottom: y0 + height * mmY + reach,
    };
    visitCopies(lattice, scratch.x, scratch.y, around, (x, y) => drawScratch(scratch, x - x0, y - y0, sheet));
  }
}

function drawScratch(
  scratch: Scratch,
  x: number,
  y: number,
  { depths, width, height, mmX, mmY }: ScratchSheet,
) {
  const { cos, sin, half, bow, wide, depth } = scratch;
  const soft = 0.5 * Math.max(0.03, Math.sqrt(mmX * mmY));
  const reach = wide + soft + Math.abs(bow);
  const tall = Math.abs(half * sin) + reach;
  const first = Math.max(0, Math.floor((y - tall) / mmY));
  const last = Math.min(height - 1, Math.ceil((y + tall) / mmY));
  const broad = Math.abs(half * cos) + reach;
  for (let j = first; j <= last; j++) {
    const py = j * mmY - y;
    // Along the row the scratch is crossed within this much of its middle line.
    const middle = Math.abs(sin) > 0.02 ? (py * cos) / sin : 0;
    const aside = Math.abs(sin) > 0.02 ? reach / Math.abs(sin) : broad;
    const from = Math.max(0, Math.floor((x + Math.max(-broad, middle - aside)) / mmX));
    const to = Math.min(width - 1, Math.ceil((x + Math.min(broad, middle + aside)) / mmX));
    for (let i = from; i <= to; i++) {
      const px = i * mmX - x;
      const part = (px * cos + py * sin) / half;
      if (part < -1 || part > 1) continue;
      const away = Math.abs(py * cos - px * sin - bow * (part * part - 0.4));
      const own = wide * (1 - part * part);
      const cover = covered(away, own, soft);
      const worn = depth * cover;
      const at = j * width + i;
      if (worn > depths[at]) depths[at] = worn;
    }
  }
}
