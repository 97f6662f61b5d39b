import type { Ink, ShadeCard } from './card.ts';
import { measureCard } from './measure-card.ts';
import { findPeaks, type Peak } from './plain-peaks.ts';
import type { Tally } from './tally.ts';
import { MOST_INKS } from './unmix.ts';

/** What a design looks like it is, and why. */
export interface Judgement {
  readonly isFlat: boolean;
  /** A whole sentence. */
  readonly reason: string;
  /** The colours of its inks, the largest first; empty where it is painted. */
  readonly colours: readonly Ink['colour'][];
}

/** CIEDE2000 that plain pixels of one ink lie apart by: of a clean picture, and of one that was coded with loss. */
const REACH = { clean: 1, noisy: 3.5 } as const;
const OUTER = { clean: 3, noisy: 7 } as const;
/** More around a peak than this part of it is a wash, not an ink. */
const WASHED = 0.35;
/** Fewer of its pixels than this part in the inner half of its reach is a wash, or a halo. */
const DENSE = 0.55;
/** Of a flat design this part is plain at least, and inks make up this part of what is plain. */
const PLAIN = 0.2;
const INKED = 0.9;
/** Pixels that an ink has at least: this part of the picture, and so many. */
const LEAST_PART = { clean: 2e-4, noisy: 1e-3 } as const;
const LEAST_PIXELS = 9;
/** A smaller peak of a noisy picture that mixes of others explain is an edge. */
const EDGE_PART = 5e-3;
const EXPLAINED = 2.5;
/** CIEDE2000 beyond which pixels are of an ink that has no plain areas: thin lines. */
const UNEXPLAINED = { clean: 8, noisy: 14 } as const;
/** Around a line lie its soft edges, which are more of it than of an area. */
const LINE_AROUND = 1.5;
/** How far the mixes of the inks of a flat design may be from it. */
const FLAT_MEAN = 3;

/** Tells whether a design is flat, and where it is, what its inks are: the colours that make up its plain areas. */
export function judgeFlat(tally: Tally): Judgement {
  const kind = tally.within === 0 ? 'clean' : 'noisy';
  const plainPart = tally.plainPixels / tally.pixels;
  if (plainPart < PLAIN) return painted(`only ${percent(plainPart)} of it lies in areas of one colour`);
  const peaks = findPeaks({
    ...{ colours: tally.colours, counts: tally.plain, reach: REACH[kind], outer: OUTER[kind] },
    least: Math.max(LEAST_PIXELS, LEAST_PART[kind] * tally.pixels),
    most: MOST_INKS + 1,
  });
  const inks = peaks.filter(({ around, dense }) => around <= WASHED && dense >= DENSE);
  const inked = sum(inks) / tally.plainPixels;
  if (inks.length > MOST_INKS) return painted(`it has more than ${MOST_INKS} plain colours`);
  if (inked < INKED)
    return painted(`${percent(1 - inked)} of what is plain in it runs from colour to colour, as washes do`);
  const kept = kind === 'noisy' ? withoutEdges(inks, tally) : inks;
  const colours = withLines(
    kept.map(({ colour }) => colour),
    tally,
  );
  const { error } = measureCard(cardOf(colours), tally);
  if (error.mean > FLAT_MEAN)
    return painted(
      `mixes of its ${colours.length} plain colours are off by ${error.mean.toFixed(1)} on average`,
    );
  return {
    isFlat: true,
    reason: `flat: ${percent(inked)} of its plain areas (${percent(plainPart)} of the picture) ${colours.length === 1 ? 'is one colour' : `are ${colours.length} colours`}${kind === 'noisy' ? ', give or take the noise of its coding' : ''}`,
    colours,
  };
}

function painted(why: string): Judgement {
  return { isFlat: false, reason: `painted: ${why}`, colours: [] };
}

function withoutEdges(peaks: readonly Peak[], tally: Tally): readonly Peak[] {
  const large = peaks.filter(({ count }) => count >= EDGE_PART * tally.pixels);
  if (large.length === 0) return peaks;
  const card = cardOf(large.map(({ colour }) => colour));
  return peaks.filter((peak) => {
    if (large.includes(peak)) return true;
    const [red, green, blue] = peak.colour;
    const colours = Uint32Array.of((red << 16) | (green << 8) | blue);
    return measureCard(card, { colours, counts: Uint32Array.of(1) }).error.mean > EXPLAINED;
  });
}

/** Adds inks that only thin lines have: what no mix of the others comes near to. */
function withLines(plain: readonly Ink['colour'][], tally: Tally): readonly Ink['colour'][] {
  const colours = [...plain];
  const kind = tally.within === 0 ? 'clean' : 'noisy';
  // A line of a picture that is clean in its areas may still be noisy.
  const [reach, outer] = [REACH.noisy, OUTER.noisy];
  const least = Math.max(LEAST_PIXELS, LEAST_PART.noisy * tally.pixels);
  while (colours.length < MOST_INKS) {
    const { errors } = measureCard(cardOf(colours), tally);
    const counts = tally.counts.map((count, at) => (errors[at] > UNEXPLAINED[kind] ? count : 0));
    const search = { colours: tally.colours, counts, reach, outer, least, most: 1 };
    const [line] = findPeaks(search);
    if (!line || line.around > LINE_AROUND) return colours;
    colours.push(line.colour);
  }
  return colours;
}

/** A card for measuring: its names are of no use. */
export function cardOf(colours: readonly Ink['colour'][]): ShadeCard {
  const inks = colours.map(
    (colour, index): Ink => ({ name: `${index + 1}`, kind: 'ink', colour, covers: true, note: '' }),
  );
  return { name: 'measured', inks };
}

function sum(peaks: readonly Peak[]): number {
  return peaks.reduce((all, { count }) => all + count, 0);
}

function percent(part: number): string {
  const value = 100 * part;
  return `${value > 99.5 || value < 10 ? Number(value.toFixed(1)) : Math.round(value)} %`;
}
