import type { AnyLayer } from '../layer.ts';
import { PLANE_NAMES } from '../layer.ts';
import type { Parameter, ParameterValue } from '../parameter.ts';
import { atDensity, type Bench, type Sample } from './bench.ts';
import { type Claim, claimsOf } from './claims.ts';
import { differenceOf } from './compare.ts';
import { Failed, Refused } from './failed.ts';
import { HOME, type Trial } from './trial.ts';
import { CORNER } from './try-sound.ts';
import { pairs, variants } from './vary.ts';

/** Large enough to hold what stands here and there, as knots do. */
const WIDE: Trial = { ...HOME, width: 60, height: 48, pixelsPerMm: 2, quality: 'sketch' };
/** A part of the wide one in pixels that show fine detail. */
const CLOSE = { pixelsPerMm: 12, x: 0, y: 0, width: 144, height: 96 };
/** Large enough for what stands once or twice in a square decimetre. */
const LARGE: Trial = { ...WIDE, width: 200, height: 160, pixelsPerMm: 0.8 };
/** Large enough for whole numbers of what is as wide as a wall's panel. */
const WALL: Trial = { ...WIDE, width: 900, height: 720, pixelsPerMm: 0.2 };
/** Presets that set a parameter, tried over the wide box before anything that costs more. */
const MOST_PRESETS = 3;
/** The last bits of a float are no change. */
const NOTHING = 1e-6;

/**
 * Tries whether every parameter does something. What does nothing beside the defaults is tried over larger boxes and
 * beside other values of the others: it may need another one that is switched on. A value that is refused
 * where others are taken counts as a change.
 *
 * @param base What the extremes were tried over; their pictures are looked at first.
 * @returns How many claims were tried.
 * @throws Failed with the name of what changes nothing anywhere.
 */
export async function tryAlive(bench: Bench, base: Trial): Promise<number> {
  const pictures = new Pictures(bench);
  let tried = 0;
  for (const [name, parameter] of Object.entries<Parameter>(bench.effect.parameters)) {
    for (const claim of claimsOf(name, parameter)) {
      tried++;
      if (!(await isAlive(bench, pictures, base, name, claim))) throw dead(name, claim);
    }
  }
  return tried;
}

async function isAlive(
  bench: Bench,
  pictures: Pictures,
  base: Trial,
  name: string,
  claim: Claim,
): Promise<boolean> {
  const where = { bench, base, name, claim, showing: pictures.showing.get(name) };
  for (const [surrounding, count] of surroundings(where)) {
    if (!(await changes(pictures, surrounding, name, claim.values.slice(0, count)))) continue;
    pictures.showing.set(name, surrounding);
    return true;
  }
  return false;
}

async function changes(
  pictures: Pictures,
  surrounding: Trial,
  name: string,
  values: readonly ParameterValue[],
): Promise<boolean> {
  const own = surrounding.parameters[name];
  const tried = own === undefined || !isWithin(own, values) ? values : new Set([own, ...values]);
  let first: Picture | undefined;
  for (const value of tried) {
    const picture = await pictures.of(surrounding, name, value);
    if (first && differ(first, picture)) return true;
    first ??= picture;
  }
  return false;
}

/** Whether a surrounding's own value, as a preset has it, is one that the claim is about. */
function isWithin(own: ParameterValue, values: readonly ParameterValue[]): boolean {
  const numbers = values.filter((value) => typeof value === 'number');
  if (typeof own !== 'number') return values.includes(own);
  return own >= Math.min(...numbers) && own <= Math.max(...numbers);
}

interface Where {
  readonly bench: Bench;
  readonly base: Trial;
  readonly name: string;
  readonly claim: Claim;
  /** Where another claim of this parameter showed. */
  readonly showing?: Trial;
}

/** A surrounding and how many of a claim's values to try in it: the first two are its ends. */
type Place = readonly [surrounding: Trial, count: number];

/**
 * Where a claim may show, the likeliest first: what showed another claim of this parameter; the defaults, over a small
 * and a wide box; presets that set it; the defaults over a large box; then all presets and the others at
 * their extremes, what switches (options and switches) by itself, then all together, then numbers by themselves;
 * and all of these over the wide box.
 */
function* surroundings({ bench, base, name, claim: { values }, showing }: Where): Generator<Place> {
  const { effect, presets = [] } = bench;
  const all = values.length;
  if (showing) yield* [place(showing, 2), place(widened(showing), all)];
  yield* [place(base, 2), place(WIDE, 2), place(base, all), place(WIDE, all)];
  const { kind, unit } = effect.parameters[name] as { kind: string; unit?: string };
  const isLong = kind === 'number' && unit === 'mm';
  const needsWall = isLong && values.every((value) => Number(value) > WIDE.width / 2);
  if (needsWall) yield place(WALL, 2);
  const sets = ({ parameters }: Trial) => parameters[name] !== undefined;
  const made = presets.map(({ parameters }): Trial => ({ ...base, parameters }));
  const alone = variants(effect, base)
    .slice(1)
    .filter((trial) => !sets(trial));
  const gates = alone.filter((trial) => isGate(effect.parameters, trial));
  const setting = made.filter(sets).slice(0, MOST_PRESETS);
  for (const trial of setting) yield place(widened(trial), all);
  yield place(LARGE, 2);
  for (const { parameters } of setting) yield place({ ...LARGE, parameters }, 2);
  const others = [
    ...made.filter(sets).map((trial) => place(trial, all)),
    ...made.filter((trial) => !sets(trial)).map((trial) => place(trial, all)),
    ...gates.map((trial) => place(trial, 2)),
    ...pairs(effect, base).map((trial) => place(trial, all)),
    ...alone
      .filter((trial) => !gates.includes(trial))
      .reverse()
      .map((trial) => place(trial, 2)),
  ];
  yield* others;
  for (const [trial, count] of others) yield place(widened(trial), count);
  if (isLong && !needsWall) yield place(WALL, all);
}

function place(surrounding: Trial, count: number): Place {
  return [surrounding, count];
}

function isGate(parameters: Readonly<Record<string, Parameter>>, trial: Trial): boolean {
  return Object.keys(trial.parameters).some((name) => ['choice', 'switch'].includes(parameters[name].kind));
}

function widened(trial: Trial): Trial {
  return { ...WIDE, parameters: trial.parameters };
}

/** `refused` is what one sees of values that the effect does not take. */
type Picture = readonly AnyLayer[] | 'refused';

function differ(first: Picture, second: Picture): boolean {
  if (first === 'refused' || second === 'refused') return first !== second;
  return first.some((layer, k) => {
    const other = second[k];
    const planes = PLANE_NAMES.filter((name) => Boolean(layer[name]) !== Boolean(other[name]));
    return planes.length > 0 || differenceOf(layer, other, NOTHING) !== undefined;
  });
}

/** What was painted, kept so that claims can share it. */
class Pictures {
  /** Where a parameter has shown what it does. */
  readonly showing = new Map<string, Trial>();
  private readonly bench: Bench;
  private readonly kept = new Map<string, Picture>();

  constructor(bench: Bench) {
    this.bench = bench;
  }

  async of(surrounding: Trial, name: string, value: ParameterValue): Promise<Picture> {
    const trial = this.without(surrounding, name, value);
    const key = JSON.stringify([trial, Object.entries(trial.parameters).sort()]);
    const picture = this.kept.get(key) ?? (await this.paint(trial));
    this.kept.set(key, picture);
    return picture;
  }

  /** A trial says only what is not at its default. */
  private without(surrounding: Trial, name: string, value: ParameterValue): Trial {
    const { [name]: _, ...others } = surrounding.parameters;
    const isDefault = value === this.bench.effect.parameters[name].default;
    return { ...surrounding, parameters: isDefault ? others : { ...others, [name]: value } };
  }

  private async paint(trial: Trial): Promise<Picture> {
    try {
      return this.view(await this.bench.shared(trial));
    } catch (error) {
      if (error instanceof Refused) return 'refused';
      throw error;
    }
  }

  private view(sample: Sample): readonly AnyLayer[] {
    const { width, height } = sample.grid;
    if (sample.trial.width < WIDE.width) return [this.bench.paint(sample, CORNER)];
    const whole = this.bench.paint(sample, { x: 0, y: 0, width, height });
    return [whole, this.bench.paint(atDensity(sample, CLOSE.pixelsPerMm), CLOSE)];
  }
}

function dead(name: string, { what, values }: Claim): Failed {
  const sorted = typeof values[0] === 'number' ? [...values].sort((a, b) => Number(a) - Number(b)) : values;
  const last = sorted[sorted.length - 1];
  return new Failed(
    { ...WIDE, parameters: { [name]: last } },
    {
      expected: `${what} to change what is painted`,
      received: `the same picture at ${sorted.join(', ')}, beside the defaults and beside every extreme of the others`,
      remedy: `Let paint use it, ${typeof last === 'number' ? 'narrow the range' : 'take it out'}, or mend where "${name}" is lost.`,
    },
  );
}
