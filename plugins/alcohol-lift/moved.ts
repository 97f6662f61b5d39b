import { type Box, emptyField, type PeriodicField } from 'tenter';
import { type DropMaps, type Meet, pullBack, type Traveller } from './compose.ts';
import { rimWithin } from './finger.ts';
import { REACH, RINGS } from './profile.ts';
import { isBaked, slopeAt } from './tables.ts';
import { clamp } from './wetness.ts';

/** What the film did at each place, as far as it is smooth. */
export interface Moved {
  /** Where the colours at each place came from, mm. */
  readonly x: PeriodicField;
  readonly y: PeriodicField;
  /** How far colours ran into one another: standard deviation, mm. */
  readonly bleed: PeriodicField;
  /** Load on the slopes around openings; 1 undisturbed. */
  readonly slope: PeriodicField;
}

/** mm; colours that ran further than this are seen no more. */
const MOST_BLEED = 2.6;

export function movedPaint(
  box: Box,
  maps: DropMaps,
  mmPerCell: number,
  progress: (done: number) => void,
): Moved {
  const [x, y, bleed, slope] = [0, 1, 2, 3].map(() => emptyField(box, mmPerCell));
  const { width, height, mmPerCellX, mmPerCellY } = x;
  const point: Traveller = { x: 0, y: 0 };
  const sum = new Float64Array(4);
  const meet = meeting(maps, sum);
  for (let j = 0, at = 0; j < height; j++) {
    for (let i = 0; i < width; i++, at++) {
      point.x = (i + 0.5) * mmPerCellX;
      point.y = (j + 0.5) * mmPerCellY;
      sum.fill(0);
      pullBack(maps, point, -1, meet);
      x.values[at] = sum[0];
      y.values[at] = sum[1];
      bleed.values[at] = Math.min(MOST_BLEED, Math.sqrt(sum[2]));
      slope.values[at] = Math.exp(sum[3]);
    }
    progress(j / height);
  }
  return { x, y, bleed, slope };
}

/** Sums up what each drop in turn did: the way (x, y), the variance of bleeding, the logarithm of the load. */
function meeting({ drops, bank, kinds }: DropMaps, sum: Float64Array): Meet {
  return (k, dx, dy, part, { rim, finger }) => {
    const { sweep, bleed, stain, radius } = drops[k];
    const { weak, strong, weakSource, strongSource } = bank[kinds[k]];
    const ring = Math.min(RINGS - 1, (part * (RINGS / REACH)) | 0);
    const between = part * (RINGS / REACH) - ring;
    const from = weakSource[ring] + between * (weakSource[ring + 1] - weakSource[ring]);
    const to = strongSource[ring] + between * (strongSource[ring + 1] - strongSource[ring]);
    // The middle of an opening was laid bare from a point; what is seen there is what trailed behind.
    const source = Math.max(LEAST_SOURCE, Math.sqrt(from * from + rim * (to * to - from * from)));
    const way = (source - 1) * clamp(sweep * (1 + RAGGED * finger));
    sum[0] += dx * way;
    sum[1] += dy * way;
    const run = bleed * dampness(part) * clamp(1 + 0.4 * finger, 0.3, 2);
    sum[2] += run * run;
    if (!isBaked(radius)) return;
    const strength = rimWithin(rim, part);
    const height = slopeAt(weak, part) + strength * (slopeAt(strong, part) - slopeAt(weak, part));
    // Heaps where the rim is strong, next to none where the film ran on.
    sum[3] += Math.log(stain + (1 - stain) * height) * Math.min(1, 0.12 + 0.75 * strength);
  };
}

/** The least share of the way in from which colours come. */
export const LEAST_SOURCE = 0.25;
/** How much further fingers sweep, as a share. */
const RAGGED = 0.32;

/** How wet it was: flooded inside, held at the edge, damp beyond. */
function dampness(part: number): number {
  if (part < 0.8) return 1;
  if (part < 1.02) return 1 - ((part - 0.8) / 0.22) * 0.5;
  return part < DRY ? 0.5 * ((DRY - part) / (DRY - 1.02)) ** 1.5 : 0;
}

/** Radii from which on the paint is dry. */
const DRY = 1.6;
