import type { AnyLayer } from '../layer.ts';
import { atDensity, type Bench } from './bench.ts';
import { channelsOf } from './channels.ts';
import { differenceOf } from './compare.ts';
import { Failed, Refused } from './failed.ts';
import { showLayer, sideBySide } from './picture.ts';
import { HOME, type Trial } from './trial.ts';
import { thinned } from './vary.ts';

/** px per mm: the light on threads shows in full where one is many pixels wide, and turns round where it is two or three. */
const DENSITIES = [16, 32, 64];
export const VIEW = { x: 3, y: 5, width: 96, height: 96 };
export const BOX: Trial = { ...HOME, layout: 'straight', width: 16, height: 14, quality: 'sketch' };
/**
 * Of the first density that has more. Over all presets of the cloths that come with the host it is 0.05 to 0.35 at the
 * first and 0.13 or more at the best; would their light turn the other way it were the same below nothing. Over smooth
 * bumps it is 1 and -1; over ribs, which have slopes one way alone, 0.
 */
const LEAST_TURN = -0.1;
/** That a whole proof tries, besides the defaults. */
const MOST_PRESETS = 4;
/** The root of the mean square of what light changes: two 8-bit levels, as everywhere in the kit. */
const LEAST_SEEN = 2 / 255;
export const DIRECTIONS =
  'The direction is in degrees clockwise on the page: 0 from the right, 90 from below';

/**
 * Holds an effect that lights itself to the direction that it is told. Heights are not needed for that: light from 0
 * and from 90 shows the slopes of one surface across and down, and the one changes downwards as the other does across.
 *
 * @returns How many settings showed a light.
 * @throws Failed
 */
export async function tryOwnLight(bench: Bench): Promise<number> {
  const { effect, quick, presets = [] } = bench;
  if (effect.lightFrom === undefined) return 0;
  const some = [{ parameters: {} }, ...(quick ? [] : thinned(presets, MOST_PRESETS))];
  let shown = 0;
  for (const { parameters } of some) if (await tryLit(bench, { name: effect.lightFrom, parameters })) shown++;
  return shown;
}

type Four = readonly [right: AnyLayer, below: AnyLayer, left: AnyLayer, above: AnyLayer];

/** @returns Whether light changes anything: what is flat shows none. */
async function tryLit(bench: Bench, look: Lit): Promise<boolean> {
  let verdict: Verdict = 'flat';
  try {
    for (const density of DENSITIES) {
      verdict = await verdictOf(bench, look, density);
      if (verdict === 'sound') return true;
    }
  } catch (error) {
    if (error instanceof Refused) return false;
    throw error;
  }
  if (verdict instanceof Failed) throw verdict;
  return false;
}

type Verdict = 'sound' | 'flat' | Failed;

async function verdictOf(bench: Bench, lit: Lit, density: number): Promise<Verdict> {
  const paint = async (direction: number) =>
    bench.paint(atDensity(await bench.shared(trialOf(lit, direction)), density), VIEW);
  const four: Four = [await paint(0), await paint(90), await paint(180), await paint(270)];
  const [right, below, left, above] = four;
  const [across, down, turned] = [isSame(right, left), isSame(below, above), isSame(right, below)];
  if (across && down) return turned ? 'flat' : sameFrom(lit, four, [0, 180]);
  if (turned && !isSame(await paint(135), await paint(315))) return sameFrom(lit, four, [0, 90]);
  const turn = turnOf(change(right, left), change(below, above));
  return turn < LEAST_TURN ? turnsBack(lit, four, turn) : 'sound';
}

/** An effect's own light, and what else is set. */
interface Lit {
  readonly name: string;
  readonly parameters: Trial['parameters'];
}

function trialOf({ name, parameters }: Lit, direction: number): Trial {
  return { ...BOX, parameters: { ...parameters, [name]: direction } };
}

function isSame(a: AnyLayer, b: AnyLayer): boolean {
  return !differenceOf(a, b);
}

function sameFrom(
  lit: Lit,
  [right, below, left]: Four,
  [first, second]: readonly [number, 90 | 180],
): Failed {
  return new Failed(trialOf(lit, second), {
    expected: `light from another side, as ${lit.name} says, to fall on other slopes`,
    received: `the same picture from ${first} and from ${second}${second === 180 ? ', and from 90 and from 270' : ''}`,
    remedy: `${DIRECTIONS}. A slope is lit by its part towards the light: across * cos(direction) + down * sin(direction).`,
    picture: sideBySide([showLayer(right), showLayer(second === 90 ? below : left)]),
  });
}

function turnsBack(lit: Lit, [right, below]: Four, turn: number): Failed {
  return new Failed(trialOf(lit, 90), {
    expected: `the light of ${lit.name} to turn clockwise, so that from 0 and from 90 it shows the slopes of one surface, which go together`,
    received: `slopes that go against each other, with a correlation of ${turn.toFixed(2)}`,
    remedy: `${DIRECTIONS}. As y runs down, (cos(direction), sin(direction)) is towards the light, with no minus before the sine.`,
    picture: sideBySide([showLayer(right), showLayer(below)]),
  });
}

/** Per channel what opposite lights change: what has a colour of its own goes. */
function change(one: AnyLayer, opposite: AnyLayer): Float64Array[] {
  const others = channelsOf(opposite);
  return channelsOf(one).map(({ values }, c) => values.map((value, k) => value - others[c].values[k]));
}

/** How the change downwards of the one goes with the change across of the other; 0 where one of them hardly shows. */
function turnOf(across: readonly Float64Array[], down: readonly Float64Array[]): number {
  if (!isSeen(across) || !isSeen(down)) return 0;
  const { width, height } = VIEW;
  let [sum, squaresA, squaresB] = [0, 0, 0];
  for (const [c, first] of across.entries()) {
    for (let y = 1; y < height - 1; y++) {
      for (let x = 1; x < width - 1; x++) {
        const k = y * width + x;
        const a = first[k + width] - first[k - width];
        const b = down[c][k + 1] - down[c][k - 1];
        sum += a * b;
        squaresA += a * a;
        squaresB += b * b;
      }
    }
  }
  return squaresA > 0 && squaresB > 0 ? sum / Math.sqrt(squaresA * squaresB) : 0;
}

function isSeen(channels: readonly Float64Array[]): boolean {
  return channels.some(
    (values) => values.reduce((sum, value) => sum + value ** 2, 0) / values.length >= LEAST_SEEN ** 2,
  );
}
