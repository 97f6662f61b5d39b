// How fine the tables of a yarn are. Two compilers read this: that of `row.as.ts` as well.

/**
 * Steps of the tables across a yarn. They span u = -SECTION_EDGE .. SECTION_EDGE, where u is the
 * distance from the centre line over half the width: beyond |u| = 1 lies what the yarn shades.
 */
export const SECTION_STEPS = 96;
export const SECTION_EDGE = 1.5;
/** SECTION_STEPS / (2 SECTION_EDGE). */
export const STEPS_PER_UNIT = 32;
export const SECTION_CENTRE = SECTION_STEPS / 2;

/** Bands of a yarn's visible half, from one edge to the other. */
export const FIBRE_BANDS = SECTION_STEPS / 4;

/** Steps of the tables along a yarn, from one crossing to the next. */
export const ALONG_STEPS = 32;
