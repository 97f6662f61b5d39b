import { colourDifference, leastDifference } from '../colour/difference.ts';
import type { Rgb } from '../colour/hex.ts';
import { type Lab, labOfLinear } from '../colour/lab.ts';
import { decodeSrgb } from '../colour/srgb.ts';
import type { Pixels } from './working.ts';

/** Where a step applies, by the colours of the artwork. */
export interface ColourMask {
  readonly colours: readonly Lab[];
  /** CIEDE2000 up to which a colour counts in full. */
  readonly tolerance: number;
  /** CIEDE2000 beyond that over which it fades out. */
  readonly softness: number;
  /** True to apply everywhere but there. */
  readonly spare: boolean;
  /** What shows through translucent artwork, encoded sRGB; white unless given. */
  readonly paper?: Rgb;
}

/** Fills `mask` with 0..1 for as many pixels of `pixels` from sample `firstSample` on. */
export type MaskFiller = (pixels: Pixels, firstSample: number, mask: Float32Array) => void;

const COLOURS = 2 ** 24;
/** In full precision, so that a colour differs from itself by nothing at all. */
const LINEAR: readonly number[] = /* @__PURE__ */ Array.from({ length: 256 }, (_, byte) =>
  decodeSrgb(byte / 255),
);
const STEPS = 254;

/**
 * Opens a mask by colour: 1 for colours within the tolerance of any that is named, 0 for those beyond
 * tolerance and softness, smooth between.
 *
 * Each 24-bit colour is measured once and remembered in 254 steps: artwork has few colours, and even
 * a photograph has far fewer than pixels. 16-bit samples count as their nearest 8-bit colour.
 * Translucent pixels count as the colour they show over the paper, mixed as pictures are shown: on
 * encoded values.
 */
export function openColourMask(mask: ColourMask): MaskFiller {
  const known = openTable(mask);
  const paper = mask.paper ?? [1, 1, 1];
  return (pixels, firstSample, out) => {
    const colourAt = pixels.BYTES_PER_ELEMENT === 1 ? colourOfBytes : colourOfShorts;
    for (let pixel = 0, at = firstSample; pixel < out.length; pixel++, at += 4) {
      const colour = colourAt(pixels, at, paper);
      const step = known[colour] || (known[colour] = 1 + stepOf(measure(colour, mask), mask));
      out[pixel] = (step - 1) / STEPS;
    }
  };
}

/** What was measured for the masks opened last: a look opens the same one for every picture that it draws. */
const RECENT: { readonly key: string; readonly known: Uint8Array }[] = [];
const MOST_RECENT = 2;

/** A table for a mask. 0 is "not measured yet", so that the 16 MB come zeroed from the system and only used pages are touched. */
function openTable({ colours, tolerance, softness, spare }: ColourMask): Uint8Array {
  const key = JSON.stringify([colours, tolerance, softness, spare]);
  const index = RECENT.findIndex((recent) => recent.key === key);
  const found = index >= 0 ? RECENT.splice(index, 1)[0] : { key, known: new Uint8Array(COLOURS) };
  RECENT.unshift(found);
  RECENT.length = Math.min(RECENT.length, MOST_RECENT);
  return found.known;
}

/** The 24-bit colour that an 8-bit pixel shows over the paper. */
export function colourOfBytes(pixels: Pixels, at: number, paper: Rgb): number {
  if (pixels[at + 3] === 255) return (pixels[at] << 16) | (pixels[at + 1] << 8) | pixels[at + 2];
  return colourOver(pixels, at, 255, paper);
}

function colourOfShorts(pixels: Pixels, at: number, paper: Rgb): number {
  return colourOver(pixels, at, 65_535, paper);
}

/** The 24-bit colour that a pixel shows over the paper. */
function colourOver(pixels: Pixels, at: number, most: number, paper: Rgb): number {
  const cover = pixels[at + 3] / most;
  const shown = (channel: number) =>
    (255 * ((pixels[at + channel] / most) * cover + paper[channel] * (1 - cover)) + 0.5) | 0;
  return (shown(0) << 16) | (shown(1) << 8) | shown(2);
}

/**
 * What a colour comes to in the very steps of a mask, 0..1.
 *
 * @param difference CIEDE2000 from the nearest of the mask's colours.
 */
export function maskShare(difference: number, mask: Omit<ColourMask, 'colours' | 'paper'>): number {
  return stepOf(difference, mask) / STEPS;
}

/** L*a*b* of a 24-bit colour, as a mask by colour measures it. */
export function labOfColour(colour: number): Lab {
  return labOfLinear(LINEAR[colour >> 16], LINEAR[(colour >> 8) & 255], LINEAR[colour & 255]);
}

function stepOf(
  difference: number,
  { tolerance, softness, spare }: Omit<ColourMask, 'colours' | 'paper'>,
): number {
  const share = softEdge(difference, tolerance, softness);
  return Math.round(STEPS * (spare ? 1 - share : share));
}

/** CIEDE2000 from the nearest of the colours; without end where none is near enough to matter. */
function measure(colour: number, { colours, tolerance, softness }: ColourMask): number {
  const lab = labOfColour(colour);
  const beyond = tolerance + softness;
  let nearest = Number.POSITIVE_INFINITY;
  for (const wanted of colours) {
    if (leastDifference(wanted, lab) <= Math.min(nearest, beyond))
      nearest = Math.min(nearest, colourDifference(wanted, lab));
  }
  return nearest;
}

/** 1 up to `tolerance`, 0 from `tolerance + softness` on, smooth between (3t^2 - 2t^3). */
function softEdge(difference: number, tolerance: number, softness: number): number {
  if (difference <= tolerance) return 1;
  if (difference >= tolerance + softness) return 0;
  const t = (difference - tolerance) / softness;
  return 1 - t * t * (3 - 2 * t);
}
