import {
  type Artwork,
  bilinearAt,
  type FieldShape,
  type FractalNoise,
  gaussianBlur,
  type PeriodicField,
} from 'tenter';
import { drawStreaks } from './streaks.ts';

/** What the artwork's own paint did where the sheet was wettest. */
export interface Feathered {
  /** Where the paint of each place came from, mm. */
  readonly x: PeriodicField;
  readonly y: PeriodicField;
  /** Natural logarithm of the load: thin where paint ran, with a line where it stopped. */
  readonly load: PeriodicField;
}

/** mm that fingers reach at most, and per mm that edges are moved. */
const FARTHEST = 7;
const PER_MOVED = 2.3;
/** Density per mm of an edge that runs as far as it may. */
const STEEP = 0.05;
/** Density by which paint that ran must outdo what it covers. */
const OUTDONE = 0.3;
/** How dark the line is where it stopped, and how thin paint runs. */
const LINE = 0.85;
const THIN = 0.42;
/** mm after which it is that thin, about. */
const THINNED = 3.5;

/**
 * Paint of the artwork that feathers out in fingers: down the slope of how much of it there is, so from a
 * dark motif into its ground and from a ground into what was left white.
 *
 * @param chosen Where the painter wetted it, 0..1.
 * @param move   mm.
 * @returns Nothing where the artwork has no edges.
 */
export function featherArtwork(
  artwork: Artwork,
  chosen: PeriodicField,
  move: number,
  noise: FractalNoise,
): Feathered | undefined {
  const { width, height, lattice, mmPerCellX, mmPerCellY } = artwork;
  const shape: FieldShape = { width, height, lattice, mmPerCellX, mmPerCellY };
  const density = densityOf(artwork);
  const [least, most] = density.values.reduce(
    ([low, high], value) => [Math.min(low, value), Math.max(high, value)],
    [Number.POSITIVE_INFINITY, 0],
  );
  if (move === 0 || most - least < OUTDONE) return undefined;
  const { x, y } = towardsPaint(density, 1.2 + 0.6 * move);
  const pace = { ...shape, values: new Float32Array(x.length).fill(1) };
  const field = (values: Float32Array) => ({ ...shape, values });
  const streaks = drawStreaks(shape, { x: field(x), y: field(y), pace }, noise, 0.6).values;
  for (let j = 0, k = 0; j < height; j++) {
    for (let i = 0; i < width; i++, k++) {
      const wet = bilinearAt(chosen, (i + 0.5) * mmPerCellX, (j + 0.5) * mmPerCellY);
      const finger = Math.max(0, Math.min(1.5, 0.35 + 0.5 * streaks[k])) ** 1.2;
      const reach = Math.min(FARTHEST, PER_MOVED * move) * wet * finger;
      const far = farthestUp(
        density,
        (i + 0.5) * mmPerCellX,
        (j + 0.5) * mmPerCellY,
        reach * x[k],
        reach * y[k],
      );
      x[k] *= reach * far;
      y[k] *= reach * far;
    }
  }
  return { x: field(x), y: field(y), load: linedFronts(density, x, y) };
}

/** How much paint there is, as the natural logarithm of the light that it holds back. */
function densityOf(artwork: Artwork): PeriodicField {
  const { red, green, blue, alpha } = artwork;
  const values = red.map(
    (value, k) => -alpha[k] * Math.log(Math.max(0.03, (value + green[k] + blue[k]) / 3)),
  );
  return { ...artwork, values };
}

/** Towards more paint, of length 0..1: 0 far from all edges. */
function towardsPaint(density: PeriodicField, wide: number): { x: Float32Array; y: Float32Array } {
  const { width, height, mmPerCellX, mmPerCellY } = density;
  const soft = gaussianBlur(density, wide);
  const [x, y] = [new Float32Array(width * height), new Float32Array(width * height)];
  for (let j = 0, k = 0; j < height; j++) {
    for (let i = 0; i < width; i++, k++) {
      const [atX, atY] = [(i + 0.5) * mmPerCellX, (j + 0.5) * mmPerCellY];
      const across = (bilinearAt(soft, atX + 0.5, atY) - bilinearAt(soft, atX - 0.5, atY)) / STEEP;
      const down = (bilinearAt(soft, atX, atY + 0.5) - bilinearAt(soft, atX, atY - 0.5)) / STEEP;
      const length = Math.max(1, Math.hypot(across, down));
      x[k] = across / length;
      y[k] = down / length;
    }
  }
  return { x, y };
}

/** Steps in which the way up is looked at, and how much more paint is worth going on for. */
const LOOKS = 5;
const WORTH = 0.06;

/** The share of a way after which there is most paint: beyond a thin stem lies the ground again. */
function farthestUp(density: PeriodicField, x: number, y: number, dx: number, dy: number): number {
  if (dx * dx + dy * dy < 0.01) return 0;
  let [best, share] = [bilinearAt(density, x, y) + WORTH, 0];
  for (let look = 1; look <= LOOKS; look++) {
    const here = bilinearAt(density, x + (dx * look) / LOOKS, y + (dy * look) / LOOKS);
    if (here > best) [best, share] = [here + WORTH, look / LOOKS];
  }
  return share;
}

/** mm from the front over which a line gathers. */
const GATHERED = 0.9;

function linedFronts(density: PeriodicField, x: Float32Array, y: Float32Array): PeriodicField {
  const { width, height, mmPerCellX, mmPerCellY } = density;
  const covered = new Float32Array(width * height);
  for (let j = 0, k = 0; j < height; j++) {
    for (let i = 0; i < width; i++, k++) {
      if (x[k] === 0 && y[k] === 0) continue;
      const came = bilinearAt(density, (i + 0.5) * mmPerCellX + x[k], (j + 0.5) * mmPerCellY + y[k]);
      covered[k] = Math.max(0, Math.min(1, (came - density.values[k]) / OUTDONE - 0.4));
    }
  }
  const within = gaussianBlur({ ...density, values: covered }, GATHERED).values;
  const values = covered.map((share, k) => {
    const thinned = THIN * (0.4 + Math.hypot(x[k], y[k]) / THINNED);
    return share * (LINE * (1 - within[k]) - thinned * within[k]);
  });
  return { ...density, values };
}
