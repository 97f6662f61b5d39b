import type { Bench, Sample } from './bench.ts';
import { openBudget } from './budget.ts';
import { Failed } from './failed.ts';
import { megabytesOf } from './model-bytes.ts';
import { unlessRefused } from './unless-refused.ts';
import { words } from './vary.ts';

/** The smallest box, mm, and those that are larger than the one at hand. */
const SMALL = { width: 31, height: 23.5 };
const LARGER = [300, 640];
const BAND = { x: 3, y: 5, width: 200, height: 16 };
const PAINTS = 3;
/** A small band takes longer than this only where it is dear, or more than itself is painted; ms. */
const MOST_MS = 50;
/** The box at hand has 14 times the area of the small one. */
const MOST_TIMES = 8;
/** A box is prepared where the one before says that it takes no longer, and no more memory. */
const MOST_PREPARE_MS = { quick: 150, whole: 1500 };
const MOST_MEGABYTES = 96;

/** What options and switches take together, s. */
const WORD_SECONDS = { quick: 0.2, whole: 5 };

/**
 * The same at the defaults, and then with each other option and switch by itself, which may go another way.
 *
 * @param known As below, at the defaults.
 * @throws Failed
 */
export async function tryWholeBoxes(bench: Bench, now: () => number, known: Known): Promise<void> {
  await tryWholeBox(bench, now, known);
  const budget = openBudget({ now, quick: bench.quick }, WORD_SECONDS);
  for (const trial of words(bench.effect, known.sample.trial)) {
    if (budget.isOver()) return;
    const started = now();
    const sample = await unlessRefused(() => bench.prepare(trial));
    if (sample) await tryWholeBox(bench, now, { sample, ms: now() - started });
  }
}

interface Known {
  readonly sample: Sample;
  readonly ms: number;
}

/**
 * Holds a band to its own cost: the same small band of a small box and of large ones.
 *
 * @param known A box at 300 dpi that was prepared before, and how long that took.
 * @throws Failed where it costs as much as the box.
 */
async function tryWholeBox(bench: Bench, now: () => number, known: Known): Promise<void> {
  const small = await unlessRefused(() => bench.prepare({ ...known.sample.trial, ...SMALL }));
  if (!small) return;
  bench.paint(small, BAND);
  const before = Math.max(...times(bench, now, small));
  requireOwnCost(bench, now, known.sample, before);
  for (const side of LARGER) {
    const { trial } = known.sample;
    const grown = side ** 2 / (trial.width * trial.height);
    if (grown * known.ms > MOST_PREPARE_MS[bench.quick ? 'quick' : 'whole']) return;
    if (grown * megabytesOf(known.sample) > MOST_MEGABYTES) return;
    const large = await unlessRefused(() => bench.prepare({ ...trial, width: side, height: side }));
    if (large) requireOwnCost(bench, now, large, before);
  }
}

function requireOwnCost(bench: Bench, now: () => number, sample: Sample, before: number): void {
  const isDear = (ms: number) => ms > MOST_MS && ms > MOST_TIMES * before;
  const [first] = times(bench, now, sample, 1);
  if (!isDear(first)) return;
  const least = Math.min(first, ...times(bench, now, sample));
  if (!isDear(least)) return;
  const { trial } = sample;
  throw new Failed(trial, {
    expected: `a band of ${BAND.width} x ${BAND.height} px to cost what itself is worth, ${Math.max(1, Math.round(before))} ms as in a box of ${SMALL.width} x ${SMALL.height} mm`,
    received: `${Math.round(least)} ms in one of ${trial.width} x ${trial.height} mm: a band costs as much as the whole box`,
    remedy:
      'Work out in paint only the pixels of the band, each from its own place: painting the box to copy a part of it takes the time of the box for every band, and its memory in every worker. Where each pixel goes through all points, let it ask only those near by (indexPoints). What the whole box is needed for belongs into prepare.',
  });
}

/** ms of bands one below the other: a texture need not be as dear everywhere. */
function times(bench: Bench, now: () => number, sample: Sample, count = PAINTS): number[] {
  return Array.from({ length: count }, (_, k) => {
    const started = now();
    bench.paint(sample, { ...BAND, y: BAND.y + k * BAND.height });
    return now() - started;
  });
}
