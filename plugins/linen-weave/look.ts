// Numbers of the look that `row.as.ts` shares with those who look at it from outside. Both compilers read this.

/** mm of height over which the upper of two touching yarns gives way to the other. */
export const CONTACT = 0.05;

/** How much more the light between the threads varies than that on them: loose fibres cross the gaps. */
export const HAIR = 1.3;
export const BARE = 0.6;

/** What is left of light above 1, so that white paper does not burn out. */
export const BEND = 0.3;

/** How much more ink one fibre takes than the next where the ink runs out, by how much more light it returns. */
export const FIBRES = 3.5;
