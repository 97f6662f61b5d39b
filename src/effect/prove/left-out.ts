import { type AnyLayer, neutralLayer, type PlaneName } from '../layer.ts';
import type { NumberParameter, Parameter, ParameterValue } from '../parameter.ts';
import { endsOf } from '../value.ts';
import { atDensity, type Bench, type Sample } from './bench.ts';
import { channelsOf } from './channels.ts';
import { Failed } from './failed.ts';
import { isAmount, stepOf } from './leaving.ts';
import { showLayer, sideBySide } from './picture.ts';

/** Steps of a range that are so little of it that what they change is hardly seen. */
const HAIR = 1.5;
/** Pixels per mm at which a whole small box is looked at. */
const OVERVIEW = 2;

/**
 * A plane that planesFor leaves out at one value of a number and names a hair beside it must have come to nothing
 * there: painted all the same it is neutral. Where a word, a switch or a colour decides which planes there are,
 * nothing is asked: paint then fills whichever it is given.
 *
 * @throws Failed with the number that planesFor asked where the plane does not hang on it.
 */
export function tryLeftOut(bench: Bench, sample: Sample): void {
  const { effect } = bench;
  const away = effect.planes.filter((plane) => !sample.planes.includes(plane));
  if (away.length === 0 || !effect.planesFor) return;
  const asked = away.flatMap((plane) => {
    const number = numberThatLeavesOut(bench, sample, plane);
    return number === undefined ? [] : [{ plane, number }];
  });
  if (asked.length === 0) return;
  const lent = paintAllDeclared(bench, sample);
  if (!lent) return;
  for (const { plane, number } of asked) {
    const seen = strongestIn(lent, plane);
    if (seen === undefined) continue;
    const at = Number(valuesOf(bench, sample)[number]);
    const isEnd = endsOf(effect.parameters[number] as NumberParameter).includes(at);
    throw new Failed(sample.trial, {
      expected: `${plane}, which planesFor leaves out at ${number}=${at} and names beside it, to have come to nothing there`,
      received: `${seen} from a paint that is given it all the same`,
      remedy: isEnd
        ? `Let planesFor ask the parameter on which ${plane} hangs: it is lost at ${number}=${at}, though these values need it.`
        : `Let planesFor leave ${plane} out only where nothing comes of it: at ${number}=${at} it is seen, and missing.`,
      picture: sideBySide([showLayer(lent)], `What is lost where planesFor leaves out ${plane}.`),
    });
  }
}

/** A number of which planesFor names the plane as soon as it is moved by a hair. */
function numberThatLeavesOut(bench: Bench, sample: Sample, plane: PlaneName): string | undefined {
  const values = valuesOf(bench, sample);
  const parameters = Object.entries<Parameter>(bench.effect.parameters);
  const found = parameters.find(([name, parameter]) => {
    if (!isAmount(parameter)) return false;
    const [min, max] = endsOf(parameter);
    const hair = parameter.whole ? 1 : HAIR * stepOf(parameter);
    return [Number(values[name]) - hair, Number(values[name]) + hair]
      .filter((value) => value >= min && value <= max)
      .some((value) => bench.effect.planesFor!({ ...values, [name]: value } as never).includes(plane));
  });
  return found?.[0];
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
