import type { NumberParameter, Parameter } from '../parameter.ts';
import { atDensity, type Bench } from './bench.ts';
import { type Budget, openBudget } from './budget.ts';
import { type Channel, channelsOf, deviationOf } from './channels.ts';
import { Failed } from './failed.ts';
import { showLayer, sideBySide } from './picture.ts';
import { HOME, type Trial } from './trial.ts';
import { unlessRefused } from './unless-refused.ts';

/** Wide enough that what is long turns nearly freely, though it has to close. */
const BOX: Trial = { ...HOME, layout: 'straight', width: 60, height: 48, quality: 'sketch' };
const PIXELS_PER_MM = 8;
const VIEW = { x: 3, y: 5, width: 160, height: 160 };
/** For all parameters. */
const SECONDS = { quick: 0.25, whole: 4 };
/** Angles that are tried: from the least on, so far apart at most, deg. */
const ANGLES = 4;
const MOST_STEP = 25;
/** With less between the angles a texture that closes may not turn at all. */
const LEAST_STEP = 12;
/** 0 for what runs every way alike, 1 for ruled lines: below it a texture has no direction to be sure of. */
const LEAST_COHERENCE = 0.4;
/** deg: how far a line may lie off, as what closes over the box has to. */
const MOST_OFF = 7;

/**
 * Looks at every parameter in degrees whether what it turns goes round against the clock: the direction in which the
 * texture runs is measured at four angles, and is at fault where it falls by as much as they rise.
 *
 * @returns How many parameters turn what is painted.
 * @throws Failed
 */
export async function tryTurning(bench: Bench): Promise<number> {
  const budget = openBudget(bench, SECONDS);
  let turning = 0;
  for (const [name, parameter] of Object.entries<Parameter>(bench.effect.parameters)) {
    if (parameter.kind !== 'number' || parameter.unit !== 'deg' || name === bench.effect.lightFrom) continue;
    if (budget.isOver()) break;
    const angles = anglesOf(parameter);
    const runs = angles && (await unlessRefused(() => runsAt(bench, name, angles, budget)));
    if (!angles || !runs) continue;
    const isRadian = [1, -1].some((sense) => isTurned(angles, runs, (sense * 180) / Math.PI));
    if (isTurned(angles, runs, 1)) turning++;
    else if (isRadian) throw inRadians(bench, name, angles, await picturesOf(bench, name, angles));
    else if (isTurned(angles, runs, -1))
      throw turnsBack(bench, name, angles, await picturesOf(bench, name, angles));
  }
  return turning;
}

/** Nothing where the range is too narrow. */
function anglesOf({ min, max, whole }: NumberParameter): readonly number[] | undefined {
  const step = Math.min(MOST_STEP, (max - min) / (ANGLES - 1));
  if (step < LEAST_STEP) return undefined;
  return Array.from({ length: ANGLES }, (_, k) => (whole ? Math.round(min + k * step) : min + k * step));
}

/** The directions, deg clockwise from the right; nothing where one is not to be told, or no time is left. */
async function runsAt(
  bench: Bench,
  name: string,
  angles: readonly number[],
  budget: Budget,
): Promise<number[] | undefined> {
  const runs: number[] = [];
  for (const angle of angles) {
    if (budget.isOver()) return undefined;
    const run = directionOf(strongestOf(channelsOf(await paintAt(bench, name, angle))));
    if (run === undefined) return undefined;
    runs.push(run);
  }
  return runs;
}

async function paintAt(bench: Bench, name: string, angle: number) {
  const sample = await bench.shared({ ...BOX, parameters: { [name]: angle } });
  return bench.paint(atDensity(sample, PIXELS_PER_MM), VIEW);
}

async function picturesOf(bench: Bench, name: string, angles: readonly number[]) {
  return [await paintAt(bench, name, angles[1]), await paintAt(bench, name, angles[2])].map(showLayer);
}

function strongestOf(channels: readonly Channel[]): Channel {
  const shown = channels.map((channel) => deviationOf(channel.values) / channel.least);
  return channels[shown.indexOf(Math.max(...shown))];
}

/**
 * Where lines run: across the direction of the steepest slopes, the first axis of the structure tensor (J. Bigun and
 * G. Granlund, Optimal orientation detection of linear symmetry, 1987).
 */
function directionOf({ values, width, height, least }: Channel): number | undefined {
  if (deviationOf(values) < least) return undefined;
  let [xx, xy, yy] = [0, 0, 0];
  for (let y = 1; y < height - 1; y++) {
    for (let x = 1; x < width - 1; x++) {
      const k = y * width + x;
      const [across, down] = [values[k + 1] - values[k - 1], values[k + width] - values[k - width]];
      xx += across * across;
      xy += across * down;
      yy += down * down;
    }
  }
  if (Math.hypot(xx - yy, 2 * xy) < LEAST_COHERENCE * (xx + yy)) return undefined;
  return (Math.atan2(2 * xy, xx - yy) * 90) / Math.PI + 90;
}

/** Whether the directions turn with the angles, so many degrees for each. */
function isTurned(angles: readonly number[], runs: readonly number[], sense: number): boolean {
  return angles.every((angle, k) => {
    const off = runs[k] - runs[0] - sense * (angle - angles[0]);
    return Math.abs(off - 180 * Math.round(off / 180)) < MOST_OFF;
  });
}

function inRadians(
  bench: Bench,
  name: string,
  [, first, second]: readonly number[],
  pictures: ReturnType<typeof showLayer>[],
): Failed {
  return new Failed(
    { ...BOX, pixelsPerMm: PIXELS_PER_MM, parameters: { [name]: second } },
    {
      expected: `what ${name} turns to turn by as many degrees as its value grows`,
      received: `a texture of ${bench.effect.name} that turns as if they were radians, as from ${first} to ${second}`,
      remedy: 'Math.cos and Math.sin take radians: multiply the degrees by Math.PI / 180.',
      picture: sideBySide(pictures, `At ${first} degrees, and beside it at ${second}.`),
    },
  );
}

function turnsBack(
  bench: Bench,
  name: string,
  [, first, second]: readonly number[],
  pictures: ReturnType<typeof showLayer>[],
): Failed {
  return new Failed(
    { ...BOX, pixelsPerMm: PIXELS_PER_MM, parameters: { [name]: second } },
    {
      expected: `what ${name} turns to turn clockwise on the page as its degrees grow`,
      received: `a texture of ${bench.effect.name} that turns the other way by as much, as from ${first} to ${second}`,
      remedy:
        'Directions are 0 to the right and 90 down the page. As y runs down, (cos(angle), sin(angle)) points along the angle, with no minus before it.',
      picture: sideBySide(pictures, `At ${first} degrees, and beside it at ${second}.`),
    },
  );
}
