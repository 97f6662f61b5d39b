import type { Bench, Sample } from './bench.ts';
import { openBudget } from './budget.ts';
import { type Channel, channelsOf, meanOf } from './channels.ts';
import { type Mark, marksOf } from './edge-marks.ts';
import { EDGES, type Edge } from './edge-view.ts';
import { orderOfLines } from './line-order.ts';
import { HOME, type Trial } from './trial.ts';
import { unlessRefused } from './unless-refused.ts';

/** mm: sizes that hold a whole number of nothing in particular. */
const BOXES = [
  { width: 61.7, height: 52.9 },
  { width: 87.1, height: 73.3 },
] as const;
const PIXELS_PER_MM = 3;
/** Textures whose means are taken together: with all of them an edge is a metre long and more. */
const MOST_SEEDS = 24;
/** With fewer a lane is empty by chance too often. */
const LEAST_SEEDS = 8;
const SECONDS = { quick: 0.3, whole: 6 };
/** Of a contrast, or a step from pixel to pixel: a change of less is nothing to see. */
const LEAST_SHARE = 0.08;
/** How many times what shows anywhere inside. */
const OUTSTANDING = 1.5;

/** What of a texture may be otherwise along an edge, one number per pixel. */
const MEASURES: Readonly<Record<string, (channel: Channel) => Float64Array>> = {
  'the mean': ({ values }) => values,
  'the contrast': (channel) => squaredContrast(channel),
  'what changes from pixel to pixel across': (channel) => stepsOf(channel, 1, 0),
  'what changes from pixel to pixel down': (channel) => stepsOf(channel, 0, 1),
};

const FROM_SEED_TO_SEED = 'what changes from seed to seed';
const SQUARED = ['the contrast', FROM_SEED_TO_SEED];
const ORDER = 'how regular a line is';
/** Of a coefficient of correlation. */
const LEAST_ORDER = 0.06;

/** A lane along an edge that is unlike all others, over many seeds. */
export interface Lane extends Mark {
  readonly sample: Sample;
  readonly edge: Edge;
  readonly channel: string;
  readonly measure: string;
}

/**
 * Looks over many seeds whether anything is most unusual just where repeats meet: things strewn so that none lies across
 * the edge leave a lane there, those drawn on both sides of it double. In one texture that hides behind chance.
 *
 * @returns The lane, where it is so in boxes of both sizes.
 */
export async function edgeLane(bench: Bench): Promise<Lane | undefined> {
  const [first, second] = [await lanesOf(bench, BOXES[0]), undefined];
  if (first.length === 0) return second;
  const again = await lanesOf(bench, BOXES[1]);
  return first.find((lane) =>
    again.some(
      ({ edge, channel, measure }) =>
        edge === lane.edge && channel === lane.channel && measure === lane.measure,
    ),
  );
}

async function lanesOf(bench: Bench, size: (typeof BOXES)[number]): Promise<Lane[]> {
  const budget = openBudget(bench, SECONDS);
  const profiles = new Map<string, Profile>();
  const spread = new Map<string, Spread>();
  let [seeds, sample] = [0, undefined as Sample | undefined];
  while (seeds < MOST_SEEDS && !budget.isOver()) {
    const trial: Trial = {
      ...HOME,
      ...size,
      layout: 'straight',
      seed: `lane ${seeds}`,
      pixelsPerMm: PIXELS_PER_MM,
      quality: 'sketch',
    };
    const prepared = await unlessRefused(() => bench.prepare(trial));
    if (!prepared) return [];
    sample ??= prepared;
    const { width, height } = prepared.grid;
    const channels = channelsOf(bench.paint(prepared, { x: 0, y: 0, width, height }));
    addProfiles(profiles, channels);
    for (const channel of channels) {
      const values = spread.get(channel.name) ?? newSpread(channel);
      addTo(values, channel);
      spread.set(channel.name, values);
    }
    seeds++;
  }
  if (!sample || seeds < LEAST_SEEDS) return [];
  for (const one of spread.values()) addSpread(profiles, one, seeds);
  return [...profiles.values()].flatMap((profile) => laneOf(profile, seeds, sample));
}

interface Profile {
  readonly edge: Edge;
  readonly channel: string;
  readonly measure: string;
  readonly least: number;
  readonly sums: Float64Array;
}

function addProfiles(profiles: Map<string, Profile>, channels: readonly Channel[]): void {
  for (const channel of channels) {
    for (const [measure, values] of Object.entries(MEASURES)) {
      const field = { ...channel, values: values(channel) };
      for (const edge of EDGES) {
        addLines(profileFor(profiles, channel, measure, edge).sums, field, edge);
      }
    }
    for (const edge of EDGES) {
      const { sums } = profileFor(profiles, channel, ORDER, edge);
      for (const [line, order] of orderOfLines(channel, edge).entries()) sums[line] += order;
    }
  }
}

function profileFor(profiles: Map<string, Profile>, channel: Channel, measure: string, edge: Edge): Profile {
  const key = `${channel.name}, ${measure}, ${edge}`;
  const count = edge === 'left and right' ? channel.width : channel.height;
  const { name, least } = channel;
  const profile = profiles.get(key) ?? {
    edge,
    channel: name,
    measure,
    least,
    sums: new Float64Array(count),
  };
  profiles.set(key, profile);
  return profile;
}

/** How far each pixel goes from seed to seed. */
interface Spread {
  readonly channel: Channel;
  readonly sums: Float64Array;
  readonly squares: Float64Array;
}

function newSpread(channel: Channel): Spread {
  const { length } = channel.values;
  return { channel, sums: new Float64Array(length), squares: new Float64Array(length) };
}

function addTo({ sums, squares }: Spread, { values }: Channel): void {
  for (let k = 0; k < values.length; k++) {
    sums[k] += values[k];
    squares[k] += values[k] ** 2;
  }
}

function addSpread(profiles: Map<string, Profile>, { channel, sums, squares }: Spread, seeds: number): void {
  const values = sums.map((sum, k) => Math.max(0, squares[k] / seeds - (sum / seeds) ** 2));
  for (const edge of EDGES) {
    const profile = profileFor(profiles, channel, FROM_SEED_TO_SEED, edge);
    addLines(profile.sums, { ...channel, values }, edge);
    for (let line = 0; line < profile.sums.length; line++) profile.sums[line] *= seeds;
  }
}

/** Adds the mean of each line that runs along an edge. */
function addLines(sums: Float64Array, { values, width, height }: Channel, edge: Edge): void {
  const isAcross = edge === 'left and right';
  const along = isAcross ? height : width;
  for (let y = 0, at = 0; y < height; y++)
    for (let x = 0; x < width; x++, at++) sums[isAcross ? x : y] += values[at] / along;
}

function laneOf({ edge, channel, measure, least, sums }: Profile, seeds: number, sample: Sample): Lane[] {
  const means = sums.map((sum) => sum / seeds);
  const profile = SQUARED.includes(measure) ? means.map(Math.sqrt) : means;
  const isMean = measure === 'the mean';
  const isOrder = measure === ORDER;
  const [mark] = marksOf(profile, [0], {
    mmPerPixel: 1 / PIXELS_PER_MM,
    least: isMean ? least : isOrder ? 4 * LEAST_ORDER : Math.max(least, 4 * LEAST_SHARE * meanOf(profile)),
    lookForLikes: false,
    isWhole: true,
  });
  return mark && mark.ratio > OUTSTANDING ? [{ ...mark, sample, edge, channel, measure }] : [];
}

function squaredContrast({ values }: Channel): Float64Array {
  const mean = meanOf(values);
  return values.map((value) => (value - mean) ** 2);
}

/** From each pixel to the next, in a box that stands straight. */
function stepsOf({ values, width, height }: Channel, across: number, down: number): Float64Array {
  return values.map((value, at) => {
    const x = ((at % width) + across) % width;
    const y = (Math.floor(at / width) + down) % height;
    return Math.abs(values[y * width + x] - value);
  });
}
