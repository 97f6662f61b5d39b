import { addNoiseRow, hashUnit, latticeNoise, NOISE_DEVIATION, type RandomStream } from 'tenter';
import { sectionAt } from './section.ts';
import { FIBRE_BANDS } from './steps.ts';
import { lapCount, loopCount, type ThreadSet, threadOfLap } from './threads.ts';

/**
 * The fibres of a yarn's surface, unrolled: a strip that closes along the yarn and is laid along
 * every yarn of the set, each starting elsewhere in it. Plain data.
 */
export interface FibreStrip {
  /** Cells after which the strip repeats; divides the cells of a thread, so it closes over every loop. */
  readonly cells: number;
  /** Samples per cell. */
  readonly samples: number;
  /** `cells * samples` rows of FIBRE_BANDS, and the first again: light returned, less 1. */
  readonly streaks: Float32Array;
  /** Two per sample, and the first again; lower and upper edge: how much the edge lies further in (> 0) or out. */
  readonly fray: Float32Array;
  /** Per thread of the set: the cell of the strip its cell 0 lies on. */
  readonly start: Int32Array;
}

/** Fibre bundles: length and breadth in mm, share of the deviation. */
const BUNDLES = [
  { along: 4, across: 0.13, share: 0.8 },
  { along: 2.5, across: 0.055, share: 0.6 },
] as const;
/** A strip shorter than this would show as beads. */
const SHORTEST_STRIP = 36;
/** A streak at its darkest: no fibre returns less than no light, nor quite none. */
const DARKEST = -0.95;
const SAMPLE_LENGTH = 0.07;
const FRAY_LENGTH = 0.45;

/**
 * Draws the strip of a set of yarns.
 *
 * @param diameter mm.
 * @param streaks  Deviation of the light from fibre to fibre.
 * @param fray     Deviation of the edge, as a share of half the width.
 * @param twist    Turns per metre; fibres lean by atan(pi * diameter * twist / 1000).
 */
export function drawFibres(
  set: ThreadSet,
  diameter: number,
  streaks: number,
  fray: number,
  twist: number,
  random: RandomStream,
): FibreStrip {
  const cells = stripCells(set);
  const samples = Math.min(24, Math.max(4, Math.round(set.cellLength / SAMPLE_LENGTH)));
  const step = set.cellLength / samples;
  const count = cells * samples;
  const girth = Math.PI * diameter;
  const surface = { ax: cells * set.cellLength, ay: 0, bx: 0, by: girth };
  const direction = (Math.atan((girth * twist) / 1000) * 180) / Math.PI;
  const bundles = BUNDLES.map(({ along, across, share }) => ({
    noise: latticeNoise(surface, { along, across: Math.min(across, girth / 6), direction }, random),
    gain: (streaks * share) / NOISE_DEVIATION,
  }));
  const strip = new Float32Array((count + 1) * FIBRE_BANDS);
  const line = new Float32Array(count);
  for (let band = 0; band < FIBRE_BANDS; band++) {
    const angle = Math.asin(Math.max(-1, Math.min(1, sectionAt(4 * band + 1.5))));
    line.fill(0);
    for (const { noise, gain } of bundles) {
      addNoiseRow(noise, step / 2, step, (angle / (2 * Math.PI)) * girth, gain, line, count);
    }
    for (let k = 0; k < count; k++) strip[k * FIBRE_BANDS + band] = Math.max(DARKEST, line[k]);
  }
  strip.copyWithin(count * FIBRE_BANDS, 0, FIBRE_BANDS);
  return {
    cells,
    samples,
    streaks: strip,
    fray: frayedEdges(count, step, fray, random),
    start: startingCells(set, cells, random.bits()),
  };
}

/** The smallest divisor of the cells of a thread that is long enough. */
function stripCells({ cells }: ThreadSet): number {
  for (let divisor = Math.min(cells, SHORTEST_STRIP); divisor < cells; divisor++) {
    if (cells % divisor === 0) return divisor;
  }
  return cells;
}

function frayedEdges(count: number, step: number, fray: number, random: RandomStream): Float32Array {
  const edges = new Float32Array((count + 1) * 2);
  const line = new Float32Array(count);
  const length = count * step;
  const shape = { along: FRAY_LENGTH, across: 1 };
  for (let edge = 0; edge < 2; edge++) {
    line.fill(0);
    const noise = latticeNoise({ ax: length, ay: 0, bx: 0, by: 1 }, shape, random);
    addNoiseRow(noise, step / 2, step, 0.5, fray / NOISE_DEVIATION, line, count);
    for (let k = 0; k < count; k++) edges[2 * k + edge] = line[k];
  }
  edges.copyWithin(2 * count, 0, 2);
  return edges;
}

/** One start per yarn: the threads of a loop share it, so the fibres run on from lap to lap. */
function startingCells(set: ThreadSet, cells: number, seed: number): Int32Array {
  const start = new Int32Array(set.count);
  for (let loop = 0; loop < loopCount(set); loop++) {
    const cell = Math.floor(hashUnit(seed, loop, 0) * cells);
    for (let lap = 0; lap < lapCount(set); lap++) start[threadOfLap(set, loop, lap)] = cell;
  }
  return start;
}
