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
/** A unit that a number may be given in. */
export type Unit = (typeof UNITS)[number];

interface Described {
  /** One sentence that says what a person sees change. */
  readonly help: string;
}

/** A parameter that is a number in a unit; made by `numeric`. */
export interface NumberParameter extends Described {
  /** Set by `numeric`. */
  readonly kind: 'number';
  /** What the number is in; said in help, pages and messages. */
  readonly unit: Unit;
  /** The least it may be, in `unit`. */
  readonly min: number;
  /** The most it may be, in `unit`. */
  readonly max: number;
  /** In `unit`, from `min` to `max`. */
  readonly default: number;
  /** True where only whole numbers make sense; false where absent. */
  readonly whole?: boolean;
}

/** A parameter that is one of a few words; made by `choice`. */
export interface ChoiceParameter<Option extends string = string> extends Described {
  /** Set by `choice`. */
  readonly kind: 'choice';
  /** The words to choose from. */
  readonly options: readonly Option[];
  /** One of `options`. */
  readonly default: Option;
}

/** A parameter that is a colour; made by `colour`. */
export interface ColourParameter extends Described {
  /** Set by `colour`. */
  readonly kind: 'colour';
  /** `#rrggbb`, sRGB. */
  readonly default: string;
}

/** A parameter that is on or off; made by `toggle`. */
export interface SwitchParameter extends Described {
  /** Set by `toggle`. */
  readonly kind: 'switch';
  /** What it is where nothing is said. */
  readonly default: boolean;
}

/** A parameter of any kind. */
export type Parameter = NumberParameter | ChoiceParameter | ColourParameter | SwitchParameter;
/** The parameters of an effect, by name. */
export type ParameterSet = Readonly<Record<string, Parameter>>;

/** The value of a parameter: a number in its unit, a word or `#rrggbb`, or on and off. */
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

/** One of a few words; `spec` is a `ChoiceParameter` without its `kind`. */
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
