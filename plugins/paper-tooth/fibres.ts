import { type Box, poissonPoints, type RandomStream, type Rectangle, visitCopies } from 'tenter';

/** Single fibres, each a bent line of `POINTS` points, mm. Plain data. */
export interface Fibres {
  /** The middle of each, in the box. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** `POINTS` points of each, counted from its middle. */
  readonly dx: Float32Array;
  readonly dy: Float32Array;
  /** mm, half its thickness. */
  readonly half: Float32Array;
}

export const POINTS = 17;
const SHORTEST = 2;
const LONGEST = 13;
/** Per mm: a fibre bends no more sharply than this. */
const SHARPEST = 0.5;
/** mm: no fibre reaches farther from its middle. */
export const REACH = LONGEST / 2 + 0.2;

/** Strews fibres, `density` of them to the mm2. */
export function strewFibres(box: Box, density: number, random: RandomStream): Fibres {
  const wanted = density * box.width * box.height;
  const none = { x: new Float64Array(0), y: new Float64Array(0) };
  const points = density > 0 ? poissonPoints(box, 0.55 / Math.sqrt(density), random) : none;
  const kept: number[] = [];
  for (let k = 0; k < points.x.length; k++) if (random.next() * points.x.length < wanted) kept.push(k);
  const dx = new Float32Array(kept.length * POINTS);
  const dy = new Float32Array(kept.length * POINTS);
  const half = new Float32Array(kept.length);
  kept.forEach((_, fibre) => {
    bend(random, dx.subarray(fibre * POINTS), dy.subarray(fibre * POINTS));
    half[fibre] = random.between(0.035, 0.065);
  });
  return {
    x: Float64Array.from(kept, (k) => points.x[k]),
    y: Float64Array.from(kept, (k) => points.y[k]),
    dx,
    dy,
    half,
  };
}

/** A line whose bend changes along it, centred on its middle. */
function bend(random: RandomStream, dx: Float32Array, dy: Float32Array): void {
  const length = SHORTEST * (LONGEST / SHORTEST) ** (random.next() ** 1.3);
  let angle = random.between(0, 2 * Math.PI);
  const step = length / (POINTS - 1);
  let bent = random.between(-SHARPEST, SHARPEST) / 2;
  for (let k = 1; k < POINTS; k++) {
    dx[k] = dx[k - 1] + Math.cos(angle) * step;
    dy[k] = dy[k - 1] + Math.sin(angle) * step;
    bent = Math.max(-SHARPEST, Math.min(SHARPEST, bent + random.between(-0.3, 0.3) * SHARPEST));
    angle += bent * step;
  }
  const [middleX, middleY] = [dx[POINTS >> 1], dy[POINTS >> 1]];
  for (let k = 0; k < POINTS; k++) {
    dx[k] -= middleX;
    dy[k] -= middleY;
  }
}

/** A rectangle of pixels counted from the corner of the box. */
export interface Pixels {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly mmPerPixelX: number;
  readonly mmPerPixelY: number;
}

/** Calls `mark` for every pixel that a fibre covers, with how much of it and how high the fibre's round back stands there, 1 on its middle. */
export type FibreMark = (pixel: number, cover: number, rise: number) => void;

/** Draws the fibres that lie over a rectangle. */
export function drawFibres(fibres: Fibres, box: Pick<Box, 'lattice'>, pixels: Pixels, mark: FibreMark): void {
  const area: Rectangle = {
    left: pixels.x * pixels.mmPerPixelX - REACH,
    top: pixels.y * pixels.mmPerPixelY - REACH,
    right: (pixels.x + pixels.width) * pixels.mmPerPixelX + REACH,
    bottom: (pixels.y + pixels.height) * pixels.mmPerPixelY + REACH,
  };
  for (let fibre = 0; fibre < fibres.x.length; fibre++) {
    visitCopies(box.lattice, fibres.x[fibre], fibres.y[fibre], area, (x, y) =>
      drawFibre(fibres, fibre, x, y, pixels, mark),
    );
  }
}

function drawFibre(
  { dx, dy, half }: Fibres,
  fibre: number,
  x: number,
  y: number,
  pixels: Pixels,
  mark: FibreMark,
): void {
  const { mmPerPixelX: stepX, mmPerPixelY: stepY, width, height } = pixels;
  const step = Math.max(stepX, stepY);
  const soft = half[fibre] + step / 2;
  const edge = Math.min(soft, step);
  // So that it covers as much of the page as it is wide, however many pixels share it.
  const most = (2 * half[fibre]) / (2 * soft - edge);
  const at = fibre * POINTS;
  const xs = dx.subarray(at, at + POINTS).map((value) => value + x);
  const ys = dy.subarray(at, at + POINTS).map((value) => value + y);
  const first = Math.max(0, Math.floor((Math.min(...ys) - soft) / stepY - pixels.y - 0.5));
  const last = Math.min(height - 1, Math.ceil((Math.max(...ys) + soft) / stepY - pixels.y - 0.5));
  const from = Math.max(0, Math.floor((Math.min(...xs) - soft) / stepX - pixels.x - 0.5));
  const to = Math.min(width - 1, Math.ceil((Math.max(...xs) + soft) / stepX - pixels.x - 0.5));
  for (let j = first; j <= last; j++) {
    const py = (pixels.y + j + 0.5) * stepY;
    for (let i = from; i <= to; i++) {
      const px = (pixels.x + i + 0.5) * stepX;
      const away = nearest(xs, ys, px, py);
      if (away >= soft) continue;
      const cover = most * Math.min(1, (soft - away) / edge);
      mark(j * width + i, cover, 1 - (away / soft) ** 2);
    }
  }
}

/** How far (px, py) is from the nearest place of a line. */
function nearest(xs: Float32Array, ys: Float32Array, px: number, py: number): number {
  let best = Number.POSITIVE_INFINITY;
  for (let k = 0; k + 1 < POINTS; k++) {
    const ex = xs[k + 1] - xs[k];
    const ey = ys[k + 1] - ys[k];
    const t = Math.max(0, Math.min(1, ((px - xs[k]) * ex + (py - ys[k]) * ey) / (ex * ex + ey * ey)));
    best = Math.min(best, Math.hypot(px - xs[k] - t * ex, py - ys[k] - t * ey));
  }
  return best;
}
