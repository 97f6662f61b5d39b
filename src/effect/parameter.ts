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

/** How many a list may hold. */
interface Listed {
  /** From 1. */
  readonly least: number;
  /** Up to 256. */
  readonly most: number;
}

export interface NumbersParameter extends Described, Listed {
  readonly kind: 'numbers';
  /** Of every number, as are the range and `whole`. */
  readonly unit: Unit;
  readonly min: number;
  readonly max: number;
  readonly whole?: boolean;
  readonly default: readonly number[];
}

export interface ColoursParameter extends Described, Listed {
  readonly kind: 'colours';
  /** Each `#rrggbb`, sRGB. */
  readonly default: readonly string[];
}

export interface TextParameter extends Described {
  readonly kind: 'text';
  /**
   * The source of a regular expression that the whole text must fit. It is matched in time that grows with the
   * length of the text alone, so it may not look around itself (`(?=`) or back (`\1`).
   */
  readonly pattern: string;
  /** Characters at most, 1 to 1,000. */
  readonly longest: number;
  readonly default: string;
  /** What it takes, in words that follow "expected": `a thread order such as A24 B4`. */
  readonly say: string;
}

/** The kinds that the first version of the contract does not have. */
export const LATER_KINDS = ['numbers', 'colours', 'text'] as const;

export type Parameter =
  | NumberParameter
  | ChoiceParameter
  | ColourParameter
  | SwitchParameter
  | NumbersParameter
  | ColoursParameter
  | TextParameter;
export type ParameterSet = Readonly<Record<string, Parameter>>;

/** A list keeps its order, and is frozen. */
export type ParameterValue = number | string | boolean | readonly number[] | readonly string[];

type ValueOf<P> = P extends NumberParameter
  ? number
  : P extends ChoiceParameter<infer Option>
    ? Option
    : P extends ColourParameter
      ? string
      : P extends SwitchParameter
        ? boolean
        : P extends NumbersParameter
          ? readonly number[]
          : P extends ColoursParameter
            ? readonly string[]
            : P extends TextParameter
              ? string
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

/** A list of numbers in a unit, each within a range. Needs `apiVersion: 2`. */
export function numbers(spec: Without<NumbersParameter>): NumbersParameter {
  return { kind: 'numbers', ...spec };
}

/** A list of sRGB colours, each `#rrggbb`. Needs `apiVersion: 2`. */
export function palette(spec: Without<ColoursParameter>): ColoursParameter {
  return { kind: 'colours', ...spec };
}

/** A text that fits a pattern. Needs `apiVersion: 2`. */
export function text(spec: Without<TextParameter>): TextParameter {
  return { kind: 'text', ...spec };
}
