import { type BlendMode, blendColours } from '../../colour/blend.ts';
import type { Rgb } from '../../colour/hex.ts';
import { type AnyLayer, neutralLayer, type PlaneName } from '../layer.ts';
import type { NumberParameter, NumbersParameter, Parameter, ParameterValue } from '../parameter.ts';
import { endsOf, spokenValue } from '../value.ts';
import { atDensity, type Bench, type Sample } from './bench.ts';
import { channelsOf, LEAST_SEEN } from './channels.ts';
import { Failed } from './failed.ts';
import { isAmount, stepOf } from './leaving.ts';
import { showLayer, sideBySide } from './picture.ts';

/** Steps of a range that are so little of it that what they change is hardly seen. */
const HAIR = 1.5;
/** Artworks that a tint is laid over, to see whether it changes any: dark, light and one of a colour. */
const BELOW: readonly Rgb[] = [
  [0, 0, 0],
  [1, 1, 1],
  [0.8, 0.4, 0.1],
];
/** Pixels per mm at which a whole small box is looked at. */
const OVERVIEW = 2;

/**
 * A plane that planesFor leaves out at one value of a number or a colour and names a hair beside it must have come to
 * nothing there: painted all the same it is neutral, as a white tint is that is laid by multiply. Where a word or a
 * switch decides which planes there are, nothing is asked: paint then fills whichever it is given.
 *
 * @throws Failed with the number or colour that planesFor asked where the plane does not hang on it.
 */
export function tryLeftOut(bench: Bench, sample: Sample): void {
  const { effect } = bench;
  const away = effect.planes.filter((plane) => !sample.planes.includes(plane));
  if (away.length === 0 || !effect.planesFor) return;
  const asked = away.flatMap((plane) => {
    const name = nameThatLeavesOut(bench, sample, plane);
    return name === undefined ? [] : [{ plane, name }];
  });
  if (asked.length === 0) return;
  const lent = paintAllDeclared(bench, sample);
  if (!lent) return;
  for (const { plane, name } of asked) {
    const seen = strongestIn(lent, plane);
    if (seen === undefined || (plane === 'tint' && !isTinted(lent, effect.blend))) continue;
    const value = valuesOf(bench, sample)[name];
    const at = `${name}=${spokenValue(value)}`;
    const isEnd =
      typeof value === 'number' && endsOf(effect.parameters[name] as NumberParameter).includes(value);
    throw new Failed(sample.trial, {
      expected: `${plane}, which planesFor leaves out at ${at} and names beside it, to have come to nothing there`,
      received: `${seen} from a paint that is given it all the same`,
      remedy: isEnd
        ? `Let planesFor ask the parameter on which ${plane} hangs: it is lost at ${at}, though these values need it.`
        : `Let planesFor leave ${plane} out only where nothing comes of it: at ${at} it is seen, and missing.`,
      picture: sideBySide([showLayer(lent)], `What is lost where planesFor leaves out ${plane}.`),
    });
  }
}

/** A number or a colour of which planesFor names the plane as soon as it is moved by a hair. */
function nameThatLeavesOut(bench: Bench, sample: Sample, plane: PlaneName): string | undefined {
  const values = valuesOf(bench, sample);
  const parameters = Object.entries<Parameter>(bench.effect.parameters);
  const found = parameters.find(([name, parameter]) =>
    besideIt(parameter, values[name]).some((value) =>
      bench.effect.planesFor!({ ...values, [name]: value } as never).includes(plane),
    ),
  );
  return found?.[0];
}

/** The values a hair beside one, where there are such. */
function besideIt(parameter: Parameter, value: ParameterValue): ParameterValue[] {
  if (parameter.kind === 'colour') return [nextColour(String(value))];
  if (parameter.kind === 'colours') return [(value as readonly string[]).map(nextColour)];
  if (parameter.kind === 'numbers') return listsBeside(parameter, value as readonly number[]);
  if (!isAmount(parameter)) return [];
  const [min, max] = endsOf(parameter);
  const hair = parameter.whole ? 1 : HAIR * stepOf(parameter);
  return [Number(value) - hair, Number(value) + hair].filter((next) => next >= min && next <= max);
}

/** One entry at a time a hair away: planesFor may ask some of them alone. */
function listsBeside({ min, max, whole }: NumbersParameter, list: readonly number[]): ParameterValue[] {
  const hair = whole ? 1 : (HAIR * (max - min)) / 1000;
  return list.flatMap((own, at) =>
    [own - hair, own + hair].filter((next) => next >= min && next <= max).map((next) => list.with(at, next)),
  );
}

/** One step of 256 away in every channel. */
function nextColour(hex: string): string {
  const channels = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
  const next = channels.map((value) => (value === 255 ? 254 : value + 1).toString(16).padStart(2, '0'));
  return `#${next.join('')}`;
}

/** Whether the tint changes any artwork by as much as is seen, laid as the effect lays it. */
function isTinted({ tint }: AnyLayer, blend: BlendMode = 'normal'): boolean {
  if (!tint) return false;
  for (let at = 0; at < tint.length; at += 4) {
    const source: Rgb = [tint[at], tint[at + 1], tint[at + 2]];
    for (const below of BELOW) {
      const laid = blendColours(blend, below, source);
      if (below.some((value, c) => tint[at + 3] * Math.abs(laid[c] - value) > LEAST_SEEN)) return true;
    }
  }
  return false;
}

function valuesOf(bench: Bench, { trial }: Sample): Readonly<Record<string, ParameterValue>> {
  return bench.setting(trial).parameters as Readonly<Record<string, ParameterValue>>;
}

/** The whole box from afar with every declared plane there is; nothing where paint throws, which others look into. */
function paintAllDeclared(bench: Bench, sample: Sample): AnyLayer | undefined {
  const seen = atDensity(sample, OVERVIEW);
  const { width, height } = seen.grid;
  const lent = neutralLayer(bench.effect.planes, width, height);
  try {
    bench.paintInto(seen, { x: 0, y: 0, width, height }, lent);
  } catch {
    return undefined;
  }
  return lent;
}

/** How far the plane is from neutral where it is farthest, in words; nothing where that is not seen. */
function strongestIn(lent: AnyLayer, plane: PlaneName): string | undefined {
  const { width, height } = lent;
  const only: AnyLayer = { width, height, [plane]: lent[plane] };
  const neutral = channelsOf(neutralLayer([plane], width, height));
  for (const [index, { name, values, least }] of channelsOf(only).entries()) {
    const at = neutral[index].values[0];
    const far = values.reduce(
      (most, value) => (Math.abs(value - at) > Math.abs(most - at) ? value : most),
      at,
    );
    if (Math.abs(far - at) > least) return `${name} ${Number(far.toPrecision(3))}`;
  }
  return undefined;
}
