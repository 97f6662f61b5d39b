import { tryBare } from './bare-patch.ts';
import type { Bench, Sample } from './bench.ts';
import { Failed } from './failed.ts';
import { compare, type Large, type Patches, patchesOf } from './large.ts';
import { megabytesOf } from './model-bytes.ts';
import { crowded } from './sizes.ts';
import { HOME, type Trial } from './trial.ts';
import { unlessRefused } from './unless-refused.ts';
import { smallest } from './vary.ts';

/** mm of square boxes up to a wall of 3 m: each holds some five times as much of everything as the one before. */
const SIDES = { quick: [640, 3000], whole: [130, 290, 640, 1400, 3000] };
/** The same where as much is in them as can be: a quick proof looks at a tile alone. */
const CROWDED_SIDES = { quick: [130, 640], whole: SIDES.whole };
/** mm: up to here it is a tile of production, which must look as a small box does however much is in it. */
const LARGEST_TILE = 700;
/** Cells of whole mm do not fall on whole pixels: how much of a thin line a pixel shows is then left to none. */
const PIXELS_PER_MM = 1.93;
/** A sketch of a wall may be coarser than that of a tile, and sharpness is none of its promises; half gone, it is not that. */
const SHARES = { 'a mean': 0.2, 'a contrast': 0.5 };
/** A box is prepared where the one before it says that it takes no longer than this, and no more memory. */
const MOST_MS = { quick: 250, whole: 2500 };
/** The same for a crowded tile of production, which is what a customer may order. */
const MOST_MS_OF_TILE = 4000;
/** A quick proof looks at crowded boxes where plain ones took no longer than this. */
const QUICK_MS = 150;
const MOST_MEGABYTES = 160;
/** mm of the largest where no clock says how long anything takes. */
const MOST_UNTIMED = 640;

const DEFAULTS = {};
/** Layouts in which a tile of production is tried besides, where its repeat is all that is asked. */
const SHEARED = ['drop:1/2', 'brick:1/3'];
/** mm */
const LARGEST = 640;

/** What is known of the boxes before. */
interface Known {
  /** Patches of the smallest, to compare larger ones with. */
  readonly small?: Patches;
  readonly last?: { readonly sample: Sample; readonly ms?: number };
}

/**
 * Tries square boxes of growing size, coarsely and as sketches: at the defaults and, where it may take longer, with
 * as much in them as can be. A table, a count or a limit that a tile of production exceeds shows here.
 *
 * @param long What long, narrow boxes said: of how dear a square one is, and what it looks like.
 * @param tryRepeat Holds a sample to its repeat.
 * @returns How many were not refused, and mm of the largest side.
 * @throws Failed
 */
export async function tryWalls(
  bench: Bench,
  long: Large,
  tryRepeat: (sample: Sample) => void,
): Promise<{ tried: number; largest: number }> {
  const mode = bench.quick ? 'quick' : 'whole';
  const started = bench.now?.();
  const plain = await climb(
    bench,
    { sides: SIDES[mode], parameters: DEFAULTS },
    bench.quick ? long : {},
    tryRepeat,
  );
  for (const layout of SHEARED)
    await climb(bench, { sides: [LARGEST], parameters: DEFAULTS, layout }, { last: plain.last }, tryRepeat);
  const parameters = crowded(bench.effect);
  const isDear = bench.quick && started !== undefined && bench.now!() - started > QUICK_MS;
  if (isDear || Object.keys(parameters).length === 0) return plain;
  const full = await climb(bench, { sides: CROWDED_SIDES[mode], parameters }, {}, tryRepeat);
  return { tried: plain.tried + full.tried, largest: Math.max(plain.largest, full.largest) };
}

interface Climb {
  readonly sides: readonly number[];
  readonly parameters: Trial['parameters'];
  readonly layout?: string;
}

interface Climbed extends Pick<Known, 'last'> {
  readonly tried: number;
  /** mm of the largest side. */
  readonly largest: number;
}

/** Goes up in size until the next box would cost too much, or is refused. */
async function climb(
  bench: Bench,
  { sides, parameters, layout = 'straight' }: Climb,
  start: Known,
  tryRepeat: (sample: Sample) => void,
): Promise<Climbed> {
  let known = start;
  let [tried, largest] = [0, 0];
  for (const side of sides) {
    if (!isAffordable(bench, known, side)) break;
    const trial = { ...wallOf(side, parameters), layout };
    const { small, last } = known;
    const look = (sample: Sample) => {
      const patches = patchesOf(bench, sample, last && asideAfter(last.sample.trial));
      tryRepeat(sample);
      return patches;
    };
    const prepared = await prepareOrPass(bench, trial);
    if (!prepared) {
      if (side <= LARGEST_TILE && parameters === DEFAULTS) throw await refusedTile(bench, trial);
      break;
    }
    const outcome = await lookAt(bench, prepared.sample, look);
    if (small) tryLooks(small, outcome, parameters, side);
    known = { small: small ?? outcome, last: prepared };
    tried++;
    largest = side;
  }
  return { tried, largest, last: known.last };
}

/** A tile of production is what everybody orders: who takes a small box takes it too. */
async function refusedTile(bench: Bench, trial: Trial): Promise<Failed> {
  const words = await bench.prepare(trial).then(
    () => '',
    (error) => (error as Error).message.replace(/\.$/, ''),
  );
  return new Failed(trial, {
    expected: `a texture in a box of ${trial.width} x ${trial.height} mm, as in a small one`,
    received: `a refusal: ${words}`,
    remedy:
      'Refuse no box for its size: real tiles are 640 mm wide, and walls larger. What takes too long can be worked out coarser.',
  });
}

/** What is crowded into a wall may have a bound, so that it ends: it need not look as in a tile. */
function tryLooks(small: Patches, large: Patches, parameters: Trial['parameters'], side: number): void {
  const isCrowded = Object.keys(parameters).length > 0;
  if (isCrowded && side > LARGEST_TILE) return;
  compare(small, large, SHARES);
  if (isCrowded) tryBare(small, large);
}

/** Nothing where the effect refuses it. */
async function prepareOrPass(bench: Bench, trial: Trial): Promise<Known['last']> {
  const started = bench.now?.();
  const sample = await unlessRefused(() => bench.prepare(trial));
  return sample && { sample, ms: started === undefined ? undefined : bench.now!() - started };
}

async function lookAt(bench: Bench, sample: Sample, look: (sample: Sample) => Patches): Promise<Patches> {
  try {
    return look(sample);
  } catch (error) {
    if (!(error instanceof Failed)) throw error;
    throw await smallest(bench, sample.trial, error, (other) => void look(other));
  }
}

function wallOf(side: number, parameters: Trial['parameters']): Trial {
  return {
    ...HOME,
    layout: 'straight',
    width: side,
    height: side,
    pixelsPerMm: PIXELS_PER_MM,
    quality: 'sketch',
    parameters,
  };
}

/** Work and memory grow with the area: what the last box took says what the next one will take at most. */
function isAffordable({ quick, now }: Bench, { last }: Known, side: number): boolean {
  if (!now) return side <= MOST_UNTIMED;
  if (!last) return true;
  const { width, height, parameters } = last.sample.trial;
  const times = side ** 2 / (width * height);
  const isTile = !quick && side === MOST_UNTIMED && Object.keys(parameters).length > 0;
  const most = isTile ? MOST_MS_OF_TILE : MOST_MS[quick ? 'quick' : 'whole'];
  return times * last.ms! <= most && times * megabytesOf(last.sample) <= MOST_MEGABYTES;
}

/** What a larger box than one that is sound says of the cause. */
export function asideAfter({ width, height }: Pick<Trial, 'width' | 'height'>): string {
  return `In a box of ${width} x ${height} mm it is sound: look for a table, a count or a limit that a larger box exceeds, and let it grow with the box.`;
}
