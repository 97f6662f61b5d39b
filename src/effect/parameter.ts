/** Units a number may be given in. One vocabulary for validation, help and pages. */
export const UNITS = [
  'mm',
  'deg',
  'ratio',
  'percent',
  'count',
  'per cm',
  'per m',
  'per dm2',
  'turns/m',
  'tex',
  'g/cm3',
  'g/m2',
  's',
] as const;
export type Unit = (typeof UNITS)[number];

interface Described {
  /** One sentence that says what a person sees change. */
  readonly help: string;
}

export interface NumberParameter extends Described {
  readonly kind: 'number';
  readonly unit: Unit;
  readonly min: number;
  readonly max: number;
  readonly default: number;
  /** True where only whole numbers make sense. */
  readonly whole?: boolean;
}

export interface ChoiceParameter<Option extends string = string> extends Described {
  readonly kind: 'choice';
  readonly options: readonly Option[];
  readonly default: Option;
}

export interface ColourParameter extends Described {
  readonly kind: 'colour';
  /** `#rrggbb`, sRGB. */
  readonly default: string;
}

export interface SwitchParameter extends Described {
  readonly kind: 'switch';
  readonly default: boolean;
}

export type Parameter = NumberParameter | ChoiceParameter | ColourParameter | SwitchParameter;
export type ParameterSet = Readonly<Record<string, Parameter>>;

export type ParameterValue = number | string | boolean;

type ValueOf<P> = P extends NumberParameter
  ? number
  : P extends ChoiceParameter<infer Option>
    ? Option
    : P extends ColourParameter
      ? string
      : P extends SwitchParameter
        ? boolean
        : never;

/** The validated values of a parameter set, each in its declared unit. */
export type ValuesOf<P extends ParameterSet> = { readonly [Name in keyof P]: ValueOf<P[Name]> };

type Without<P extends Parameter> = Omit<P, 'kind'>;

/** A number in a unit, within a range. */
export function numeric(spec: Without<NumberParameter>): NumberParameter {
  return { kind: 'number', ...spec };
}

/** One of a few words. */
export function choice<const Option extends string>(spec: {
  readonly options: readonly Option[];
  readonly default: NoInfer<Option>;
  readonly help: string;
}): ChoiceParameter<Option> {
  return { kind: 'choice', ...spec };
}

/** An sRGB colour, `#rrggbb`. */
export function colour(spec: Without<ColourParameter>): ColourParameter {
  return { kind: 'colour', ...spec };
}

/** On or off. */
export function toggle(spec: Without<SwitchParameter>): SwitchParameter {
  return { kind: 'switch', ...spec };
}
