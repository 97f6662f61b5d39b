import type { AnyLayer } from '../layer.ts';
import type { Bench, Sample } from './bench.ts';
import { channelsOf, deviationOf } from './channels.ts';
import { Failed } from './failed.ts';
import { showLayer, sideBySide } from './picture.ts';
import { sizesOf, withLargestAlone } from './sizes.ts';
import { HOME, type Trial } from './trial.ts';
import { unlessRefused } from './unless-refused.ts';

/** Whatever is sized in mm fits twice into the box, but not as often as the shear has parts. */
const TIMES = 2.2;
/** mm: what is larger would make a box too dear for this; the others are tried. */
const LARGEST = 55;
const LEAST_SIDE = 20;
const LAYOUTS = { quick: ['drop:1/3'], whole: ['drop:1/3', 'brick:1/3'] };
/** What is there by chance in one may be missing in another. */
const SEEDS = ['prove', 'a', 'b'];
/** Of what is just seen. */
const BLANK = 0.02;

/**
 * Tries small boxes in sheared layouts, where a count of cells that is rounded down to the parts of the shear comes to
 * none: a texture must show there if it does in a straight box of the same size.
 *
 * @returns How many were tried.
 * @throws Failed
 */
export async function tryBlank(bench: Bench): Promise<number> {
  let tried = 0;
  const trials = bench.quick ? [HOME] : [HOME, ...withLargestAlone(bench.effect, HOME).filter(fitsABox)];
  for (const { parameters } of trials) {
    for (const layout of LAYOUTS[bench.quick ? 'quick' : 'whole']) {
      const trial = smallBox(bench, layout, parameters);
      const blank = await blankOf(bench, trial);
      if (blank === undefined) continue;
      tried++;
      if (!blank) continue;
      const others = [...seedsOf(trial).slice(1), ...seedsOf({ ...trial, layout: 'straight' })];
      const blanks: (boolean | undefined)[] = [];
      for (const other of others) blanks.push(await blankOf(bench, other));
      const sheared = blanks.slice(0, SEEDS.length - 1);
      const straight = blanks.slice(SEEDS.length - 1);
      if (sheared.every((each) => each === true) && straight.every((each) => each === false))
        throw await blankThere(bench, trial);
    }
  }
  return tried;
}

function fitsABox({ parameters }: Trial): boolean {
  return Object.values(parameters).every((size) => Number(size) <= LARGEST);
}

function smallBox({ effect }: Bench, layout: string, parameters: Trial['parameters']): Trial {
  const sizes = sizesOf(effect).map(([name, parameter]) => Number(parameters[name] ?? parameter.default));
  const side = Math.max(LEAST_SIDE, TIMES * Math.max(0, ...sizes.filter((size) => size <= LARGEST)));
  return { ...HOME, layout, width: side, height: side, pixelsPerMm: 2, quality: 'sketch', parameters };
}

function seedsOf(trial: Trial): Trial[] {
  return SEEDS.map((seed) => ({ ...trial, seed }));
}

/** Whether nothing shows anywhere in the repeat; nothing where the effect refuses it. */
async function blankOf(bench: Bench, trial: Trial): Promise<boolean | undefined> {
  const sample = await unlessRefused(() => bench.prepare(trial));
  if (!sample) return undefined;
  return channelsOf(paintWhole(bench, sample)).every(
    ({ values, least }) => deviationOf(values) <= BLANK * least,
  );
}

function paintWhole(bench: Bench, sample: Sample): AnyLayer {
  const { width, height } = sample.grid;
  return bench.paint(sample, { x: 0, y: 0, width, height });
}

async function blankThere(bench: Bench, trial: Trial): Promise<Failed> {
  const straight = await bench.prepare({ ...trial, layout: 'straight' });
  const sheared = await bench.prepare(trial);
  return new Failed(trial, {
    expected: `a texture in layout ${trial.layout} as in a straight box of the same size`,
    received: `a blank one, with ${SEEDS.length} seeds of ${SEEDS.length}`,
    remedy:
      'Look for a count that is rounded down to the parts of the shear and comes to none: let it be 1 of them at least (cellGrid and fieldShape count so), or refuse such a box by a Fault of kind usage.',
    picture: sideBySide(
      [straight, sheared].map((sample) => showLayer(paintWhole(bench, sample))),
      'The straight repeat, and beside it the sheared one.',
    ),
  });
}
