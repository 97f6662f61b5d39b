/** Radii between which fingers reach, from nothing to full and to nothing again. */
const ROOT = 0.62;
const TIP = 0.95;
const GONE = 1.25;

/**
 * The part of the radius that a place in a finger counts as: spirit ran ahead along rays, so that edges
 * are drawn out there and held back between.
 *
 * @param part  Of the radius of the opening.
 * @param reach How far the finger reaches beyond the edge, in radii; below 0 held back.
 */
export function fingered(part: number, reach: number): number {
  if (part <= ROOT || part >= GONE) return part;
  const grown = Math.min(1, (part - ROOT) / (TIP - ROOT));
  const weight = part < 1 ? grown * grown : (GONE - part) / (GONE - 1);
  return Math.max(0, part - Math.max(-0.13, Math.min(0.13, reach)) * weight);
}

/** Radii between which paint that flowed back is drawn out into feathers, and by how much, in radii. */
const FEATHERS = { from: 0.1, to: 0.74, most: 0.12 };

/** The part of the radius that a place counts as where paint flowed back along rays; a finger's reach drives it. */
export function feathered(part: number, reach: number): number {
  const along = (part - FEATHERS.from) / (FEATHERS.to - FEATHERS.from);
  if (along <= 0 || along >= 1) return part;
  const drawn = Math.max(-FEATHERS.most, Math.min(FEATHERS.most, reach));
  return part + 4 * along * (1 - along) * drawn;
}

/** Radii up to which rims are alike in all directions, and how strong there. */
const EVEN = 0.62;
export const EVEN_RIM = 0.45;

/** The strength that a rim counts for at a part of the radius: toward the middle all directions are one. */
export function rimWithin(rim: number, part: number): number {
  const near = Math.min(1, Math.max(0, (part - EVEN) / (1 - EVEN)));
  return EVEN_RIM + near * (rim - EVEN_RIM);
}

/** How much fine spokes tell between weak and strong. */
const SPOKES = 0.3;

/** The strength of a rim with the spokes along which paint was swept out. */
export function spoke(strength: number, part: number, finger: number): number {
  if (part < 0.25 || part > 1) return strength;
  const within = (part - 0.25) * (1 - part) * 7;
  return Math.max(0, Math.min(1, strength + SPOKES * within * finger));
}
