import type { AnyLayer } from '../layer.ts';
import { PLANE_NAMES } from '../layer.ts';
import type { ParameterValue } from '../parameter.ts';
import { isSameValue } from '../value.ts';
import { WIDE } from './alive-places.ts';
import { atDensity, type Bench, type Sample } from './bench.ts';
import { differenceOf } from './compare.ts';
import { Refused } from './failed.ts';
import type { Trial } from './trial.ts';
import { CORNER } from './try-sound.ts';

/** A part of the wide one in pixels that show fine detail. */
const CLOSE = { pixelsPerMm: 12, x: 0, y: 0, width: 144, height: 96 };
/** The last bits of a float are no change. */
const NOTHING = 1e-6;

/** `refused` is what one sees of values that the effect does not take. */
export type Picture = readonly AnyLayer[] | 'refused';

/** Whether two pictures are not the same; a refusal is unlike any picture. */
export function differ(first: Picture, second: Picture): boolean {
  if (first === 'refused' || second === 'refused') return first !== second;
  return first.some((layer, k) => {
    const other = second[k];
    const planes = PLANE_NAMES.filter((name) => Boolean(layer[name]) !== Boolean(other[name]));
    return planes.length > 0 || differenceOf(layer, other, NOTHING) !== undefined;
  });
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
