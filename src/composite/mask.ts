import { colourDifference } from '../colour/difference.ts';
import { type Lab, labOfSrgb } from '../colour/lab.ts';
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
}

/** Fills `mask` with 0..1 for as many pixels of `pixels` from sample `firstSample` on. */
export type MaskFiller = (pixels: Pixels, firstSample: number, mask: Float32Array) => void;

const COLOURS = 1 << 24;
const STEPS = 254;

/**
 * Opens a mask by colour. Each 24-bit colour is measured once and remembered in 254 steps: artwork
 * has few colours, and even a photograph has far fewer than pixels. 16-bit samples count as their
 * nearest 8-bit colour; alpha does not count.
 */
export function openColourMask(mask: ColourMask): MaskFiller {
  // 0 is "not measured yet", so that the 16 MB come zeroed from the system and only used pages are touched.
  const known = new Uint8Array(COLOURS);
  return (pixels, firstSample, out) => {
    const shift = pixels.BYTES_PER_ELEMENT === 1 ? 0 : 1;
    for (let k = 0, at = firstSample; k < out.length; k++, at += 4) {
      const colour = shift
        ? (toByte(pixels[at]) << 16) | (toByte(pixels[at + 1]) << 8) | toByte(pixels[at + 2])
        : (pixels[at] << 16) | (pixels[at + 1] << 8) | pixels[at + 2];
      const step = known[colour] || (known[colour] = 1 + Math.round(STEPS * measure(colour, mask)));
      out[k] = (step - 1) / STEPS;
    }
  };
}

function toByte(short: number): number {
  return Math.round(short / 257);
}

function measure(colour: number, { colours, tolerance, softness, spare }: ColourMask): number {
  const lab = labOfSrgb([(colour >> 16) / 255, ((colour >> 8) & 255) / 255, (colour & 255) / 255]);
  const nearest = Math.min(...colours.map((wanted) => colourDifference(wanted, lab)));
  const share = softEdge(nearest, tolerance, softness);
  return spare ? 1 - share : share;
}

/** 1 up to `tolerance`, 0 from `tolerance + softness` on, smooth between (3t^2 - 2t^3). */
function softEdge(difference: number, tolerance: number, softness: number): number {
  if (difference <= tolerance) return 1;
  if (difference >= tolerance + softness) return 0;
  const t = (difference - tolerance) / softness;
  return 1 - t * t * (3 - 2 * t);
}
