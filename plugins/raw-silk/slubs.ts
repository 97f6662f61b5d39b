import { type Box, cellIndex, type FieldShape, poissonPoints, type RandomStream, smoothstep } from 'tenter';

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
 * Each is lumpy, and drawn out longer at one end than at the other.
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
    const body = slubBody(random);
    if (!isKept) continue;
    const room = Math.min(STOUTEST * long, THICKEST) / shape.mmPerCellY;
    const swell = bold / Math.hypot(1, bold / room);
    const pick = Math.floor(points.y[k] / shape.mmPerCellY);
    const centre = points.x[k] / shape.mmPerCellX;
    // A slub that met its own tip in a tiny box would be a thick thread.
    const reach = Math.min(long / shape.mmPerCellX, 0.8 * shape.width) / 2;
    for (let knot = Math.ceil(centre - reach); knot <= centre + reach; knot++) {
      thickness[cellIndex(shape, knot, pick)] += swell * body((knot - centre) / reach);
    }
  }
}

/** Lumps of a slub: turns of each from tip to tip, and shares. */
const LUMPS = [
  { turns: 1.3, share: 0.3 },
  { turns: 2.7, share: 0.2 },
  { turns: 5.3, share: 0.08 },
] as const;

/**
 * How thick a slub is along its way, z from -1 to 1, its thickest about 1. Where two cocoons were entangled
 * the filament is thick for a while and not evenly so: lumps and waists, one end drawn out into a long thin
 * tail, the other shorter. It is no lens.
 */
export function slubBody(random: RandomStream): (z: number) => number {
  const isTailed = random.next() < 0.5;
  const short = random.between(0.25, 0.5);
  const long = random.between(0.5, 1.3);
  const [rise, fall] = isTailed ? [long, short] : [short, long];
  const phases = LUMPS.map(() => random.between(0, 2 * Math.PI));
  const strength = random.between(0.4, 1);
  return (z) => {
    const ends = smoothstep((1 + z) / rise) * smoothstep((1 - z) / fall);
    if (ends <= 0) return 0;
    let lumps = 0;
    for (let k = 0; k < LUMPS.length; k++) {
      lumps += LUMPS[k].share * Math.cos(Math.PI * LUMPS[k].turns * z + phases[k]);
    }
    return ends * Math.max(0.08, 0.72 + strength * lumps);
  };
}
