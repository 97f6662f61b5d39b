import { HINTS } from '../../hints.ts';
import { tryArtworkEdges } from '../artwork-edges.ts';
import { atDensity, type Bench, type Sample } from '../bench.ts';
import { type Channel, channelsOf, meanOf } from '../channels.ts';
import { type Check, GROUND } from '../check.ts';
import { type Showing as CountShowing, tryCounts } from '../edge-counts.ts';
import { edgeLane, type Lane } from '../edge-lanes.ts';
import { JUMP, LIKELESS, LINE, type Mark, marksOf } from '../edge-marks.ts';
import {
  EDGES,
  type Edge,
  type Extent,
  meetingLines,
  paintEdge,
  profileOf,
  viewOf,
  WHOLE,
} from '../edge-view.ts';
import { Failed } from '../failed.ts';
import { fillRectangle, showLayer, sideBySide } from '../picture.ts';
import { sizesOf, withLargest } from '../sizes.ts';
import { HOME, type Trial } from '../trial.ts';
import { unlessRefused } from '../unless-refused.ts';
import { spread } from '../vary.ts';

/**
 * Repeats of sizes that hold a whole number of nothing in particular. A texture may have a joint of its own
 * just where the repeat ends, and in a small repeat no other to compare it with; and a count that is
 * wrong may by chance be right in one of them. So an edge is at fault where it shows in all of these but one.
 */
const REPEATS: readonly Pick<Trial, 'width' | 'height' | 'seed' | 'quality'>[] = [
  { width: 63.7, height: 46.3, seed: 'prove', quality: 'finished' },
  { width: 83.3, height: 71.9, seed: 'a', quality: 'sketch' },
  { width: 131.3, height: 97.7, seed: 'b', quality: 'sketch' },
  { width: 211.9, height: 163.1, seed: 'c', quality: 'sketch' },
];
/** Narrow ones, in which what is longest lies over itself more than once: what is cut off then ends at an edge. */
const NARROW: readonly (typeof REPEATS)[] = [false, true].map((isWide) =>
  [
    [20.3, 151.3],
    [31.1, 203.9],
    [17.9, 171.1],
    [26.7, 133.9],
  ].map(([short, long], k) => ({
    width: isWide ? long : short,
    height: isWide ? short : long,
    seed: `narrow ${k}`,
    quality: 'sketch' as const,
  })),
);
/** What a quick proof spends on values that are not the defaults: a fault that they make larger is then seen. */
const QUICK_MS = 300;
/** Where values are not the defaults, tried many times over, one size that does not show is enough. */
const MOST_UNSEEN = 1;
const PIXELS_PER_MM = 4;
/** 305 dpi: at the density of every check a line of a tenth of a mm falls between the pixels. */
const FINE_PIXELS_PER_MM = 12;
const FINE_EXTENT: Extent = { along: 12, across: 24 };
/** Cells may be larger than what is looked at so finely: a line that all of them have is then found nowhere else. */
const FINE_WHOLE: Extent = { along: 12, across: Number.POSITIVE_INFINITY };
const LAYOUTS = ['straight', 'drop:1/2', 'brick:1/2'];
/** The jump at the edge over the largest anywhere inside. A seam that nobody would see stays below. */
const OUTSTANDING = 1.5;

export const seam: Check = {
  name: 'seam',
  promise: 'Nothing shows where one repeat meets the next.',
  needs: GROUND,
  async run(bench) {
    for (const layout of bench.quick ? [HOME.layout] : LAYOUTS) await tryEdges(bench, { ...HOME, layout });
    const counted = await tryCounts(bench);
    if (counted.showing.length > 0) throw wronglyCounted(bench, counted.showing);
    await tryArtworkEdges(bench);
    const lane = await edgeLane(bench);
    if (lane) throw otherAlongEdge(bench, lane);
    const started = bench.now?.();
    const isLate = () => bench.quick && started !== undefined && bench.now!() - started > QUICK_MS;
    let settings = 1;
    for (const { parameters } of spread(bench).slice(1)) {
      if (isLate()) break;
      await tryEdges(bench, { ...HOME, parameters });
      settings++;
    }
    const sizes = sizesOf(bench.effect).length > 0 ? NARROW : [];
    for (const repeats of sizes) {
      if (isLate()) break;
      await tryEdges(bench, withLargest(bench.effect, { ...HOME, layout: 'straight' }), repeats);
    }
    return { status: 'passed', figures: { settings, 'boxes of odd and even counts': counted.boxes } };
  },
};

interface Suspect extends Showing {
  readonly edge: Edge;
}

/**
 * An edge that shows in one repeat is looked at in the next ones, until it has not shown too often: a fault shows
 * in the same way in each, and what irregular textures show by chance does not.
 */
async function tryEdges(bench: Bench, base: Trial, repeats = REPEATS): Promise<void> {
  const mostUnseen = Object.keys(base.parameters).length > 0 ? 0 : MOST_UNSEEN;
  const suspects = new Map<string, Suspect[]>();
  let tried = 0;
  const isSuspect = ({ length }: readonly Suspect[]) => length > 0 && length >= tried - mostUnseen;
  const mayShow = (edge: Edge) =>
    tried <= mostUnseen || [...suspects.values()].some((found) => found[0].edge === edge && isSuspect(found));
  for (const repeat of repeats) {
    const edges = EDGES.filter(mayShow);
    if (edges.length === 0) return;
    const trial = { ...base, ...repeat, pixelsPerMm: PIXELS_PER_MM };
    const sample = await unlessRefused(() => bench.shared(trial));
    if (!sample) continue;
    tried++;
    for (const edge of edges) {
      for (const showing of allShowingAt(bench, sample, edge)) {
        const key = `${edge}, ${showing.kind} in ${showing.channel}`;
        suspects.set(key, [...(suspects.get(key) ?? []), { edge, ...showing }]);
      }
    }
  }
  const found = [...suspects.values()].find(isSuspect);
  if (found) throw notClosed(bench, found[0]);
}

function allShowingAt(bench: Bench, sample: Sample, edge: Edge): Showing[] {
  const broad = showingAt(bench, sample, edge, WHOLE);
  return broad.length > 0 ? broad : finelyShowingAt(bench, sample, edge);
}

function notClosed(bench: Bench, { sample, edge, what, ratio, channel }: Suspect): Failed {
  return new Failed(sample.trial, {
    expected: `the ${edge} of a repeat to meet like any two lines inside it`,
    received: `${what} in ${channel}, ${ratio < 100 ? `${ratio.toFixed(1)} times what shows anywhere inside` : 'where nothing of the kind shows inside'}, in repeats of ${REPEATS.length - MOST_UNSEEN} sizes or more`,
    remedy: remedyOf(what),
    picture: showEdge(bench, sample, edge),
  });
}

function remedyOf(what: string): string {
  if (what === LIKELESS) return HINTS.strangeAtEdge;
  return what.startsWith(LINE) ? HINTS.lineAtEdge : HINTS.stepAtEdge;
}

function wronglyCounted(bench: Bench, showing: readonly CountShowing[]): Failed {
  const [{ sample, edge, channel, ratio }] = showing;
  return new Failed(sample.trial, {
    expected: `what lies about the ${edge} of a repeat to have its like inside it`,
    received: `in ${channel} what is nowhere inside${ratio < 100 ? `, ${ratio.toFixed(1)} times as unlike it as anything there` : ''}, in ${showing.length} sizes of repeat (${showing.map((one) => sizeOf(one)).join(', ')} mm) and not in others`,
    remedy: HINTS.wrongCount,
    picture: showEdge(bench, sample, edge),
  });
}

function otherAlongEdge(bench: Bench, { sample, edge, what, ratio, channel, measure }: Lane): Failed {
  return new Failed(sample.trial, {
    expected: `${measure} of ${channel} to be along the ${edge} of a repeat what it is elsewhere, over many seeds`,
    received: `${what}, ${ratio.toFixed(1)} times what shows anywhere inside`,
    remedy: HINTS.laneAtEdge,
    picture: showEdge(bench, sample, edge),
  });
}

function sizeOf({ sample: { trial } }: CountShowing): string {
  return `${trial.width} x ${trial.height}`;
}

interface Showing {
  readonly sample: Sample;
  /** A mark of the edge itself, or surroundings without their like. */
  readonly kind: 'mark' | 'surroundings';
  /** In words. */
  readonly what: string;
  /** Over the largest inside. */
  readonly ratio: number;
  readonly channel: string;
}

/** Values change what is drawn, hardly how a line of a tenth of a mm comes to be there: the defaults are enough. */
function finelyShowingAt(bench: Bench, sample: Sample, edge: Edge): Showing[] {
  if (Object.keys(sample.trial.parameters).length > 0) return [];
  const fine = atDensity(sample, FINE_PIXELS_PER_MM);
  const near = showingAt(bench, fine, edge, FINE_EXTENT);
  return near.length > 0 ? showingAt(bench, fine, edge, FINE_WHOLE) : [];
}

/** What shows, at most one for each channel. */
function showingAt(bench: Bench, sample: Sample, edge: Edge, extent: Extent): Showing[] {
  const view = viewOf(sample, edge, extent);
  const at = edge === 'left and right' ? -view.x : -view.y;
  const meets = meetingLines(sample, edge, extent);
  const { mmPerPixelX, mmPerPixelY } = sample.grid;
  const mmPerPixel = edge === 'left and right' ? mmPerPixelX : mmPerPixelY;
  return channelsOf(paintEdge(bench, sample, edge, extent)).flatMap((channel): Showing[] => {
    const { name, least } = channel;
    const jump = outstandingJump(channel, edge, at);
    if (jump) return [{ sample, kind: 'mark', ...jump, channel: name }];
    const [mark] = marksOf(profileOf(channel, edge), meets, {
      mmPerPixel,
      least,
      lookForLikes: extent === WHOLE,
      isWhole: extent.across === Number.POSITIVE_INFINITY,
    });
    const kind = mark?.what === LIKELESS ? 'surroundings' : 'mark';
    return mark ? [{ sample, kind, ...mark, channel: name }] : [];
  });
}

/** A jump at the edge that stands out, and how many times it is the largest inside; what jumps back at once is a line. */
function outstandingJump(channel: Channel, edge: Edge, at: number): Mark | undefined {
  const jumps = jumpsOf(channel, edge);
  const inside = jumps.filter((_, line) => Math.abs(line - at) > 1 && line > 0);
  const largest = Math.max(...inside, Number.MIN_VALUE);
  const ratio = jumps[at] / largest;
  if (ratio <= OUTSTANDING || jumps[at] <= channel.least / 8) return undefined;
  const back = Math.max(jumps[at - 1] ?? 0, jumps[at + 1] ?? 0);
  return { what: back > OUTSTANDING * largest ? LINE : JUMP, ratio };
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
  return sideBySide([picture], 'One repeat meets the next between the two red ticks.');
}
