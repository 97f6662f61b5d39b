import type { Bench, Sample } from '../bench.ts';
import { type Channel, channelsOf, meanOf } from '../channels.ts';
import { type Check, GROUND } from '../check.ts';
import { Failed, Refused } from '../failed.ts';
import { fillRectangle, showLayer, sideBySide } from '../picture.ts';
import { HOME, type Trial } from '../trial.ts';
import { spread } from '../vary.ts';

const EDGES = ['left and right', 'top and bottom'] as const;
type Edge = (typeof EDGES)[number];

/**
 * Small and large repeats. A texture may have a joint of its own just where the repeat ends, and in a
 * small repeat no other to compare it with; so an edge is only at fault where it shows in all of these.
 */
const REPEATS: readonly Pick<Trial, 'width' | 'height' | 'seed' | 'quality'>[] = [
  { width: 60, height: 45, seed: 'prove', quality: 'finished' },
  { width: 130, height: 97, seed: 'a', quality: 'sketch' },
  { width: 400, height: 300, seed: 'b', quality: 'sketch' },
];
const PIXELS_PER_MM = 4;
/** Pixels along an edge that are looked at; all of the repeat would say no more. */
const ALONG = 160;
const LAYOUTS = ['straight', 'drop:1/2', 'brick:1/2'];
/** The jump at the edge over the largest anywhere inside. A seam that nobody would see stays below. */
const OUTSTANDING = 1.5;

export const seam: Check = {
  name: 'seam',
  promise: 'Nothing shows where one repeat meets the next.',
  needs: GROUND,
  async run(bench) {
    for (const layout of bench.quick ? [HOME.layout] : LAYOUTS) await tryEdges(bench, { ...HOME, layout });
    for (const { parameters } of bench.quick ? [] : spread(bench).slice(1)) {
      await tryEdges(bench, { ...HOME, parameters });
    }
    return { status: 'passed' };
  },
};

interface Suspect extends Jump {
  readonly edge: Edge;
  readonly sample: Sample;
}

/** An edge that shows in one repeat is looked at in the next, larger one. */
async function tryEdges(bench: Bench, base: Trial): Promise<void> {
  let suspects: Suspect[] | undefined;
  for (const repeat of REPEATS) {
    const sample = await prepareOrPass(bench, { ...base, ...repeat, pixelsPerMm: PIXELS_PER_MM });
    if (!sample) continue;
    const found = EDGES.flatMap((edge) => {
      const jump = outstanding(bench, sample, edge);
      return jump ? [{ edge, sample, ...jump }] : [];
    });
    suspects = suspects?.filter(({ edge }) => found.some((again) => again.edge === edge)) ?? found;
    if (suspects.length === 0) return;
  }
  if (suspects) throw notClosed(bench, suspects[0]);
}

async function prepareOrPass(bench: Bench, trial: Trial): Promise<Sample | undefined> {
  try {
    return await bench.prepare(trial);
  } catch (error) {
    if (error instanceof Refused) return undefined;
    throw error;
  }
}

function notClosed(bench: Bench, { sample, edge, ratio, channel }: Suspect): Failed {
  return new Failed(sample.trial, {
    expected: `the ${edge} of a repeat to meet like any two lines inside it`,
    received: `a jump of ${channel} ${ratio.toFixed(1)} times as large as anywhere inside, at every size of repeat`,
    remedy:
      'Bringing places home into the box is not enough: what is drawn there must itself run on across its edges. Use noise, points and fields that close over the box.',
    picture: showEdge(bench, sample, edge),
  });
}

/** Half a repeat on either side of the edge; the edge stands in the middle. */
function viewOf({ grid }: Sample, edge: Edge) {
  const { width, height } = grid;
  return edge === 'left and right'
    ? { x: -Math.floor(width / 2), y: 0, width, height: Math.min(height, ALONG) }
    : { x: 0, y: -Math.floor(height / 2), width: Math.min(width, ALONG), height };
}

interface Jump {
  /** Over the largest inside. */
  readonly ratio: number;
  readonly channel: string;
}

function outstanding(bench: Bench, sample: Sample, edge: Edge): Jump | undefined {
  const view = viewOf(sample, edge);
  for (const channel of channelsOf(bench.paint(sample, view))) {
    const jumps = jumpsOf(channel, edge);
    const at = edge === 'left and right' ? -view.x : -view.y;
    const inside = jumps.filter((_, line) => Math.abs(line - at) > 1 && line > 0);
    const ratio = jumps[at] / Math.max(...inside, Number.MIN_VALUE);
    if (ratio > OUTSTANDING && jumps[at] > channel.least / 8) return { ratio, channel: channel.name };
  }
  return undefined;
}

/** The mean step from each line to the one before it; lines run along the edge. */
function jumpsOf({ values, width, height }: Channel, edge: Edge): number[] {
  const across = edge === 'left and right';
  const [lines, along] = across ? [width, height] : [height, width];
  const [step, stride] = across ? [1, width] : [width, 1];
  return Array.from({ length: lines }, (_, line) => {
    if (line === 0) return 0;
    const steps = Array.from({ length: along }, (_, k) => {
      const here = line * step + k * stride;
      return Math.abs(values[here] - values[here - step]);
    });
    return meanOf(steps);
  });
}

function showEdge(bench: Bench, sample: Sample, edge: Edge) {
  const view = viewOf(sample, edge);
  const picture = showLayer(bench.paint(sample, view));
  const tick = 6;
  if (edge === 'left and right') {
    for (const y of [0, view.height - tick]) fillRectangle(picture, [-view.x, y, 1, tick]);
  } else {
    for (const x of [0, view.width - tick]) fillRectangle(picture, [x, -view.y, tick, 1]);
  }
  return sideBySide([picture]);
}
