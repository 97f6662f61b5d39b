import { type AnyLayer, PLANE_NAMES } from '../layer.ts';
import type { Parameter, ParameterValue } from '../parameter.ts';
import { atDensity, type Bench } from './bench.ts';
import { differenceOf } from './compare.ts';
import { Failed, Refused } from './failed.ts';
import { HOME, type Trial } from './trial.ts';
import { pairs, SMALL, variants } from './vary.ts';

/** Cheap: most of what a parameter does shows here. */
const NEAR: Trial = { ...SMALL, pixelsPerMm: 4, quality: 'sketch' };
/** Large enough to hold what stands here and there, as knots do. */
const WIDE: Trial = { ...HOME, width: 90, height: 72, pixelsPerMm: 2, quality: 'sketch' };
/** A part of the wide one in pixels that show fine detail. */
const CLOSE = { pixelsPerMm: 12, x: 0, y: 0, width: 144, height: 96 };
/** The last bits of a float are no change. */
const NOTHING = 1e-6;

/** Values of one parameter that must not all give the same picture. */
interface Claim {
  /** In words, e.g. `the upper half of stripe, 20 to 40 mm`. */
  readonly what: string;
  readonly values: readonly ParameterValue[];
}

/**
 * Tries whether every parameter does something: each half of a number's range, each option beside the
 * others, each switch. What does nothing beside the defaults is tried beside other values of the others: it may
 * need another one that is switched on.
 *
 * @returns How many claims were tried.
 * @throws Failed with the name of what changes nothing anywhere.
 */
export async function tryAlive(bench: Bench): Promise<number> {
  let tried = 0;
  for (const [name, parameter] of Object.entries<Parameter>(bench.effect.parameters)) {
    const pictures = new Pictures(bench);
    for (const claim of claimsOf(name, parameter)) {
      tried++;
      if (!(await isAlive(bench, pictures, name, claim))) throw dead(name, claim);
    }
  }
  return tried;
}

function claimsOf(name: string, parameter: Parameter): Claim[] {
  switch (parameter.kind) {
    case 'number':
      return halvesOf(name, parameter);
    case 'choice':
      return parameter.options.flatMap((option, k) =>
        parameter.options.slice(0, k).map((other) => ({
          what: `${option} of ${name}, beside ${other},`,
          values: [other, option],
        })),
      );
    case 'switch':
      return [{ what: `switch ${name}`, values: [false, true] }];
    case 'colour':
      return [{ what: `colour ${name}`, values: ['#000000', '#ffffff', '#ff0000'] }];
  }
}

function halvesOf(name: string, parameter: Extract<Parameter, { kind: 'number' }>): Claim[] {
  const { min, max, whole, unit } = parameter;
  const at = (share: number) => {
    const value = min + (max - min) * share;
    return whole ? Math.round(value) : Number(value.toPrecision(12));
  };
  const half = (which: string, shares: readonly number[]): Claim => {
    const values = [...new Set(shares.map(at))];
    return {
      what: `the ${which} half of ${name}, ${values[0]} to ${values[values.length - 1]} ${unit},`,
      values,
    };
  };
  const halves = [half('lower', [0, 0.25, 0.5]), half('upper', [0.5, 0.75, 1])];
  return halves.filter(({ values }) => values.length > 1);
}

async function isAlive(bench: Bench, pictures: Pictures, name: string, { values }: Claim): Promise<boolean> {
  for (const surrounding of surroundings(bench, name)) {
    let first: readonly AnyLayer[] | undefined;
    for (const value of values) {
      const picture = await pictures.of(surrounding, name, value);
      if (first && picture && differ(first, picture)) return true;
      first ??= picture;
    }
  }
  return false;
}

function differ(first: readonly AnyLayer[], second: readonly AnyLayer[]): boolean {
  return first.some((layer, k) => {
    const other = second[k];
    const planes = PLANE_NAMES.filter((name) => Boolean(layer[name]) !== Boolean(other[name]));
    return planes.length > 0 || differenceOf(layer, other, NOTHING) !== undefined;
  });
}

/** The defaults, the presets, then the others at their extremes, one by one and together. */
function surroundings({ effect, presets = [] }: Bench, name: string): Trial[] {
  const others = [
    ...presets.map(({ parameters }) => ({ ...WIDE, parameters })),
    ...variants(effect, WIDE).slice(1),
    ...pairs(effect, WIDE),
  ].filter(({ parameters }) => Object.keys(parameters).some((other) => other !== name));
  return [NEAR, WIDE, ...others];
}

/** What was painted for one parameter, kept so that its claims can share it. */
class Pictures {
  private readonly bench: Bench;
  private readonly kept = new Map<string, readonly AnyLayer[] | undefined>();

  constructor(bench: Bench) {
    this.bench = bench;
  }

  /** None where the effect refuses the values. */
  async of(
    surrounding: Trial,
    name: string,
    value: ParameterValue,
  ): Promise<readonly AnyLayer[] | undefined> {
    const trial = { ...surrounding, parameters: { ...surrounding.parameters, [name]: value } };
    const key = JSON.stringify(trial);
    if (!this.kept.has(key)) this.kept.set(key, await this.paint(trial));
    return this.kept.get(key);
  }

  private async paint(trial: Trial): Promise<readonly AnyLayer[] | undefined> {
    try {
      const sample = await this.bench.prepare(trial);
      const { width, height } = sample.grid;
      const whole = this.bench.paint(sample, { x: 0, y: 0, width, height });
      if (trial.width < WIDE.width) return [whole];
      return [whole, this.bench.paint(atDensity(sample, CLOSE.pixelsPerMm), CLOSE)];
    } catch (error) {
      if (error instanceof Refused) return undefined;
      throw error;
    }
  }
}

function dead(name: string, { what, values }: Claim): Failed {
  const parameters = { [name]: values[values.length - 1] };
  return new Failed(
    { ...WIDE, parameters },
    {
      expected: `${what} to change what is painted`,
      received: `the same picture at ${values.join(', ')}, beside the defaults and beside every extreme of the others`,
      remedy: `Let paint use it, ${typeof values[0] === 'number' ? 'narrow the range' : 'take it out'}, or mend where "${name}" is lost.`,
    },
  );
}
