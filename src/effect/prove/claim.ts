import type { ParameterValue } from '../parameter.ts';

/** Values of one parameter that must not all give the same picture. */
export interface Claim {
  /** In words, e.g. `the upper half of stripe, 20 to 40 mm,`. */
  readonly what: string;
  readonly values: readonly ParameterValue[];
  /** What may be left out of the parameter where this changes nothing, as `narrow the range to 0 to 20 mm`. */
  readonly instead?: string;
  /** Where the change must be large enough to be seen. */
  readonly isSeen?: boolean;
  /** Where the claim is of one entry of a list, which only some texts, lists or counts may use. */
  readonly isOfEntry?: boolean;
  /** Where the values are texts that differ in one character each. */
  readonly isOfText?: boolean;
  /** Where only this channel of a colour differs: 0 red, 1 green, 2 blue. */
  readonly channel?: number;
}
