import type { NumberParameter, Parameter } from '../parameter.ts';
import { isWithin } from '../value.ts';
import { atDensity, type Bench } from './bench.ts';
import { channelsOf, correlationOf, deviationOf, meanOf } from './channels.ts';
import { Failed } from './failed.ts';
import { BOX, DIRECTIONS, VIEW } from './own-light.ts';
import { showLayer, sideBySide } from './picture.ts';
import type { Trial } from './trial.ts';
import { unlessRefused } from './unless-refused.ts';

const PIXELS_PER_MM = 16;
/** Light from the other side brightens what was dark: so far the two go against each other. */
const MOST_LIKENESS = -0.5;
/** And light from between two sides is made of both: so much of it they explain. What is turned itself is not. */
const LEAST_EXPLAINED = 0.7;

/**
 * Looks at every parameter in degrees whether it turns a light, where the effect says of none that it does.
 *
 * @throws Failed where one does: in a recipe with a light it would be lit from elsewhere than all other steps.
 */
export async function tryUnsaidLight(bench: Bench): Promise<void> {
  if (bench.effect.lightFrom !== undefined) return;
  for (const [name, parameter] of Object.entries<Parameter>(bench.effect.parameters)) {
    if (parameter.kind !== 'number' || !isWholeTurn(parameter)) continue;
    const isLit = await unlessRefused(() => isLight(bench, name));
    if (isLit) throw unsaid(bench, name, await paintAt(bench, name, 45));
  }
}

function isWholeTurn(parameter: NumberParameter): boolean {
  return parameter.unit === 'deg' && [0, 45, 90, 180].every((direction) => isWithin(parameter, direction));
}

async function isLight(bench: Bench, name: string): Promise<boolean> {
  const [right, between, below, left] = await Promise.all(
    [0, 45, 90, 180].map(async (direction) => toneOf(await paintAt(bench, name, direction))),
  );
  if (![right, between, below, left].every(Boolean)) return false;
  return (
    correlationOf(right!, left!) < MOST_LIKENESS && explained(between!, right!, below!) > LEAST_EXPLAINED
  );
}

async function paintAt(bench: Bench, name: string, direction: number) {
  const sample = await bench.shared(trialOf(name, direction));
  return bench.paint(atDensity(sample, PIXELS_PER_MM), VIEW);
}

function trialOf(name: string, direction: number): Trial {
  return { ...BOX, parameters: { [name]: direction } };
}

/** The shade about its mean; nothing where it is flat. */
function toneOf(layer: Parameters<typeof channelsOf>[0]): Float64Array | undefined {
  const shade = channelsOf(layer).find((channel) => channel.name === 'shade');
  if (!shade || deviationOf(shade.values) < shade.least) return undefined;
  const mean = meanOf(shade.values);
  return shade.values.map((value) => value - mean);
}

/** The share of `values` that a mix of the other two accounts for: R squared of least squares. */
function explained(values: Float64Array, a: Float64Array, b: Float64Array): number {
  const [aa, ab, bb, av, bv] = [dot(a, a), dot(a, b), dot(b, b), dot(a, values), dot(b, values)];
  const determinant = aa * bb - ab * ab;
  if (determinant <= 1e-9 * aa * bb) return 0;
  const [forA, forB] = [(av * bb - bv * ab) / determinant, (bv * aa - av * ab) / determinant];
  return (forA * av + forB * bv) / dot(values, values);
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k] * b[k];
  return sum;
}

function unsaid(bench: Bench, name: string, layer: Parameters<typeof showLayer>[0]): Failed {
  const version = bench.effect.apiVersion === 1 ? 'apiVersion: 2 and ' : '';
  return new Failed(trialOf(name, 45), {
    expected: `the effect to say that ${name} is the direction of its light`,
    received: `nothing, though shade at 0 and at 180 go against each other and both with 90 make up what is between, as under a light that turns`,
    remedy: `Write ${version}lightFrom: '${name}': a recipe with a light then turns it like that of all other steps. ${DIRECTIONS}.`,
    picture: sideBySide([showLayer(layer)], 'Lit from 45 degrees.'),
  });
}
