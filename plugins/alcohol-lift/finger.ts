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

/** Radii up to which rims are alike in all directions, and how strong there. */
const EVEN = 0.62;
const EVEN_RIM = 0.45;

/** The strength that a rim counts for at a part of the radius: toward the middle all directions are one. */
export function rimWithin(rim: number, part: number): number {
  const near = Math.min(1, Math.max(0, (part - EVEN) / (1 - EVEN)));
  return EVEN_RIM + near * (rim - EVEN_RIM);
}
