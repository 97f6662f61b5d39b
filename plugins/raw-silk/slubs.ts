import { type Box, cellIndex, type FieldShape, poissonPoints, type RandomStream } from 'tenter';

/** What slubs a weft has. */
export interface SlubCharacter {
  /** Per mm2. */
  readonly density: number;
  /** mm from tip to tip, the median. */
  readonly length: number;
  /** How many times thicker than the yarn the boldest is, 1 or more. */
  readonly thickness: number;
}

/** Slubs keep this share of the distance that an even scatter would have: neither clumps nor rows. */
const CLOSENESS = 0.6;
/** Points of a Poisson disk set of distance d cover about this share of the area per d^2 (Bridson 2007, measured). */
const DISK_SHARE = 0.615;
/** Deviation of the logarithm of the length. */
const LENGTH_SPREAD = 0.6;
/** A slub is no thicker than this share of its length: what is shorter is a knot, and cut out at the reel. */
const STOUTEST = 1 / 13;
/** mm: what a reed of silk still lets pass. */
const THICKEST = 2.6;
/** The faintest slub's swell as a share of the boldest's. */
const FAINTEST = 0.28;

/**
 * Adds slubs to a table of thickness (1 = the even yarn), cell by cell along the picks.
 * Each swells and tapers softly, faster at one end than at the other.
 */
export function addSlubs(
  thickness: Float32Array,
  shape: FieldShape,
  box: Box,
  { density, length, thickness: most }: SlubCharacter,
  random: RandomStream,
): void {
  if (density === 0 || most <= 1) return;
  const points = poissonPoints(box, CLOSENESS * Math.sqrt(DISK_SHARE / density), random);
  const wanted = density * box.width * box.height;
  const chance = Math.min(1, wanted / points.x.length);
  for (let k = 0; k < points.x.length; k++) {
    const isKept = random.next() < chance;
    const bold = (most - 1) * (FAINTEST + (1 - FAINTEST) * random.next() ** 2);
    const long = length * Math.exp(Math.max(-1.4, Math.min(1.4, LENGTH_SPREAD * random.normal())));
    const lean = random.between(-0.6, 0.6);
    const lump = random.between(0, 0.35);
    const lumpAt = random.between(0, 2 * Math.PI);
    if (!isKept) continue;
    const room = Math.min(STOUTEST * long, THICKEST) / shape.mmPerCellY;
    const swell = bold / Math.hypot(1, bold / room);
    const pick = Math.floor(points.y[k] / shape.mmPerCellY);
    const centre = points.x[k] / shape.mmPerCellX;
    // A slub that met its own tip in a tiny box would be a thick thread.
    const reach = Math.min(long / shape.mmPerCellX, 0.8 * shape.width) / 2;
    for (let knot = Math.ceil(centre - reach); knot <= centre + reach; knot++) {
      const z = (knot - centre) / reach;
      const body = taper(z, lean) * (1 - lump + lump * Math.cos(5 * z + lumpAt));
      thickness[cellIndex(shape, knot, pick)] += swell * body;
    }
  }
}

/** 0 at z = -1 and 1, 1 in between, its crown moved to one side by `lean`; level at the tips. */
export function taper(z: number, lean: number): number {
  const moved = z + (lean * (1 - z * z)) / 2;
  const hump = 1 - moved * moved;
  return hump > 0 ? hump * Math.sqrt(hump) : 0;
}
