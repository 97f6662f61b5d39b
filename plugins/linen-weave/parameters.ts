import { choice, colour, numeric, type ValuesOf } from 'tenter';
import { LARGEST_ORDER, WEAVES } from './draft.ts';

export const PARAMETERS = {
  weave: choice({
    options: WEAVES,
    default: 'plain',
    help: 'How warp and weft cross: over and under by ones, in slanting lines, in groups, or nearly all on the face.',
  }),
  order: numeric({
    unit: 'count',
    min: 0,
    max: LARGEST_ORDER,
    default: 0,
    whole: true,
    help: 'Threads in one repeat of a twill, basket or satin; 0 takes the usual one.',
  }),
  move: numeric({
    unit: 'count',
    min: 0,
    max: LARGEST_ORDER - 1,
    default: 0,
    whole: true,
    help: 'Steps from one thread to the next in a twill or satin; 0 takes the usual one.',
  }),
  ends: numeric({
    unit: 'per cm',
    min: 3,
    max: 40,
    default: 13,
    help: 'Warp threads, which run down the page; snapped to close over the repeat.',
  }),
  picks: numeric({
    unit: 'per cm',
    min: 3,
    max: 40,
    default: 12,
    help: 'Weft threads, which run across the page; snapped to close over the repeat.',
  }),
  warpCount: numeric({
    unit: 'tex',
    min: 10,
    max: 1200,
    default: 138,
    help: 'How heavy the warp yarn is: heavier is thicker and closes the cloth.',
  }),
  weftCount: numeric({
    unit: 'tex',
    min: 10,
    max: 1200,
    default: 165,
    help: 'How heavy the weft yarn is: heavier is thicker and closes the cloth.',
  }),
  unevenness: numeric({
    unit: 'percent',
    min: 0,
    max: 60,
    default: 23,
    help: 'How much the yarns thicken and thin along their length.',
  }),
  slubs: numeric({
    unit: 'per m',
    min: 0,
    max: 12,
    default: 1.6,
    help: 'Thick places spun into each metre of yarn.',
  }),
  tone: numeric({
    unit: 'percent',
    min: 0,
    max: 30,
    default: 9,
    help: 'How much lighter or darker one yarn is than the next.',
  }),
  fibres: numeric({
    unit: 'percent',
    min: 0,
    max: 60,
    default: 14,
    help: 'How clearly the twisted fibres show on the yarns.',
  }),
  straying: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How far the threads stray from straight lines; 0 is ruled, 1 is cloth off the loom.',
  }),
  light: numeric({
    unit: 'deg',
    min: 0,
    max: 360,
    default: 225,
    help: 'Where the light comes from: 0 the right, 90 below, 180 the left, 270 above.',
  }),
  relief: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How deep the threads stand in light and shade; 0 leaves them flat.',
  }),
  gap: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 75,
    help: 'How dark the open ground between the threads is.',
  }),
  wear: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.2,
    help: 'From crisp off the loom (0) to washed, pressed and flattened (1).',
  }),
  warpColour: colour({
    default: '#ffffff',
    help: 'Colour of the warp yarn; white takes the colour of the artwork.',
  }),
  weftColour: colour({
    default: '#ffffff',
    help: 'Colour of the weft yarn; white takes the colour of the artwork.',
  }),
  dye: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 100,
    help: 'Strength of the yarn colours over the artwork.',
  }),
  inked: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0,
    help: 'How far the artwork is a print on top of the threads: 0 goes through the cloth, 1 misses all that lies deep.',
  }),
} as const;

export type LinenValues = ValuesOf<typeof PARAMETERS>;

/** The planes that these values need: a tint where the yarns have colours of their own, two more for a print. */
export function linenPlanes({ dye, warpColour, weftColour, inked }: LinenValues): LinenPlane[] {
  const planes: LinenPlane[] = ['shade'];
  if (dye > 0 && (warpColour !== '#ffffff' || weftColour !== '#ffffff')) planes.push('tint');
  if (inked > 0) planes.push('load', 'shift');
  return planes;
}

/** What a linen may paint. */
export type LinenPlane = 'shade' | 'tint' | 'load' | 'shift';
