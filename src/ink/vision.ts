import { colourDifference, encodeSrgb, labOfBytes, labOfSrgb } from '../colour/index.ts';
import { clampToUnit, decodeSrgb } from '../colour/srgb.ts';
import type { Ink } from './card.ts';

/**
 * Linear sRGB as it is seen with a colour-vision deficiency at severity 1.0: the matrices of Machado, Oliveira and
 * Fernandes, "A Physiologically-based Model for Simulation of Color Vision Deficiency", IEEE Transactions on
 * Visualization and Computer Graphics 15 (2009).
 */
const DEFICIENCIES = {
  protan: [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998],
  deutan: [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881],
  tritan: [1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.3039],
} as const;

/** Which cones fail: those of long, middle or short waves. */
export type Deficiency = keyof typeof DEFICIENCIES;

/** CIEDE2000 under which two inks side by side are taken for one. */
export const TOO_NEAR = 3;
/** And under which two inks that differ by more cannot be relied upon to be told apart by those who see fewer colours. */
export const ALIKE = 5;

/** Two inks that are hard to tell apart. */
export interface NearPair {
  readonly inks: readonly [string, string];
  /** Who cannot tell them: everybody, or those with a deficiency. */
  readonly seen: 'by all' | Deficiency;
  /** CIEDE2000, as they see it. */
  readonly difference: number;
}

/** An sRGB colour, 0..255, as it is seen with a deficiency; encoded, 0..1. */
export function seenWith(deficiency: Deficiency, colour: Ink['colour']): [number, number, number] {
  const matrix = DEFICIENCIES[deficiency];
  const [red, green, blue] = colour.map((byte) => decodeSrgb(byte / 255));
  const row = (at: number) =>
    encodeSrgb(clampToUnit(matrix[at] * red + matrix[at + 1] * green + matrix[at + 2] * blue));
  return [row(0), row(3), row(6)];
}

/** CIEDE2000 between two sRGB colours, 0..255. */
export function differenceOf(first: Ink['colour'], second: Ink['colour']): number {
  return colourDifference(labOfBytes(first), labOfBytes(second));
}

/** All pairs that are hard to tell apart, the nearest first; each is told once, for those who see it worst. */
export function nearPairs(inks: readonly Ink[]): NearPair[] {
  const found: NearPair[] = [];
  inks.forEach((first, index) => {
    for (const second of inks.slice(index + 1)) {
      const names = [first.name, second.name] as const;
      const difference = differenceOf(first.colour, second.colour);
      if (difference < TOO_NEAR) {
        found.push({ inks: names, seen: 'by all', difference });
        continue;
      }
      for (const seen of Object.keys(DEFICIENCIES) as Deficiency[]) {
        const [a, b] = [labOfSrgb(seenWith(seen, first.colour)), labOfSrgb(seenWith(seen, second.colour))];
        const left = colourDifference(a, b);
        if (left < ALIKE) found.push({ inks: names, seen, difference: left });
      }
    }
  });
  return found.sort(
    (a, b) => Number(b.seen === 'by all') - Number(a.seen === 'by all') || a.difference - b.difference,
  );
}
