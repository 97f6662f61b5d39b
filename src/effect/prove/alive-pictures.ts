import type { AnyLayer } from '../layer.ts';
import { PLANE_NAMES } from '../layer.ts';
import type { ParameterValue } from '../parameter.ts';
import { isSameValue } from '../value.ts';
import { WIDE } from './alive-places.ts';
import { atDensity, type Bench, type Sample } from './bench.ts';
import { channelsOf } from './channels.ts';
import type { Claim } from './claim.ts';
import { differenceOf } from './compare.ts';
import { Refused } from './failed.ts';
import type { Trial } from './trial.ts';
import { CORNER } from './try-sound.ts';

/** A part of the wide one in pixels that show fine detail. */
const CLOSE = { pixelsPerMm: 12, x: 0, y: 0, width: 144, height: 96 };
/** The last bits of a float are no change. */
const NOTHING = 1e-6;
/** Of what is just seen: what is less at the most is nothing at all. */
const SHARE_SEEN = 1 / 4;

/** `refused` is what one sees of values that the effect does not take. */
export type Picture = readonly AnyLayer[] | 'refused';

/**
 * Whether two pictures are not the same; a refusal is unlike any picture.
 *
 * @param isSeen Whether they must differ by as much as anybody could see.
 */
export function differ(first: Picture, second: Picture, isSeen = false): boolean {
  if (first === 'refused' || second === 'refused') return first !== second;
  return first.some((layer, k) => {
    const other = second[k];
    const planes = PLANE_NAMES.filter((name) => Boolean(layer[name]) !== Boolean(other[name]));
    if (planes.length > 0) return true;
    return isSeen ? isSeenBetween(layer, other) : differenceOf(layer, other, NOTHING) !== undefined;
  });
}

function isSeenBetween(layer: AnyLayer, other: AnyLayer): boolean {
  const others = channelsOf(other);
  return channelsOf(layer).some(({ values, least }, index) =>
    values.some((value, k) => Math.abs(value - others[index].values[k]) > SHARE_SEEN * least),
  );
}

/** What was painted, kept so that claims can share it. */
export class Pictures {
  /** Where a parameter has shown what it does. */
  readonly showing = new Map<string, Trial>();
  private readonly bench: Bench;
  private readonly kept = new Map<string, Picture>();

  constructor(bench: Bench) {
    this.bench = bench;
  }

  /** Notes where a parameter has shown what it does; of two places the smaller, which costs less. */
  show(name: string, surrounding: Trial): void {
    const before = this.showing.get(name);
    if (!before || surrounding.width < before.width) this.showing.set(name, surrounding);
  }

  /** What the effect paints beside all of a surrounding but this value. */
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
    const isDefault = isSameValue(value, this.bench.effect.parameters[name].default);
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

/** Whether any of these values of a parameter paints another picture, beside all else of a surrounding. */
export async function changes(
  pictures: Pictures,
  surrounding: Trial,
  name: string,
  { values, isSeen }: Pick<Claim, 'values' | 'isSeen'>,
): Promise<'changed' | 'same' | 'refused'> {
  const own = surrounding.parameters[name];
  const tried = own === undefined || !isWithin(own, values) ? values : new Set([own, ...values]);
  let first: Picture | undefined;
  for (const value of tried) {
    const picture = await pictures.of(surrounding, name, value);
    if (first && differ(first, picture, isSeen)) return 'changed';
    first ??= picture;
  }
  return first === 'refused' ? 'refused' : 'same';
}

/** Whether a surrounding's own value, as a preset has it, is one that the claim is about. */
function isWithin(own: ParameterValue, values: readonly ParameterValue[]): boolean {
  const numbers = values.filter((value) => typeof value === 'number');
  if (typeof own !== 'number') return values.includes(own);
  return own >= Math.min(...numbers) && own <= Math.max(...numbers);
}
