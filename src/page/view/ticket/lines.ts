import type { EffectDescription } from '../../../render/description.ts';

/** A place in a sentence where a value stands. */
export interface Slot {
  readonly parameter: string;
  /** How a switch reads. */
  readonly on?: string;
  readonly off?: string;
}

/** A line of the ticket. */
export interface Line {
  readonly parts: readonly (string | Slot)[];
  /** True for what the effect's own sentences do not say. */
  readonly isRest: boolean;
}

/** `warpSett` as it is said: warp sett. */
export function spokenName(name: string): string {
  return name.replace(/([a-z\d])([A-Z])/g, '$1 $2').toLowerCase();
}

/** All parameters of an effect, each once. */
export function linesOf({ parameters }: EffectDescription): Line[] {
  return Object.keys(parameters).map((parameter, index) => ({
    parts: [`${spokenName(parameter)}: `, { parameter }],
    isRest: index >= 5,
  }));
}
