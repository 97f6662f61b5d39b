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

/** How many a list may hold. */
interface Listed {
  /** How many at least, from 1. */
  readonly least: number;
  /** How many at most, up to 256. */
  readonly most: number;
}

/** A list of numbers in one unit and range. */
export interface NumbersParameter extends Described, Listed {
  /** Says which kind it is; `numbers` fills it in. */
  readonly kind: 'numbers';
  /** Of every number, as are the range and `whole`. */
  readonly unit: Unit;
  /** The least value of each, in its unit. */
  readonly min: number;
  /** The greatest value of each, in its unit. */
  readonly max: number;
  /** True where only whole numbers make sense; any number where absent. */
  readonly whole?: boolean;
  /** Within the range, and no more and no fewer than it may hold. */
  readonly default: readonly number[];
}

/** A list of colours. */
export interface ColoursParameter extends Described, Listed {
  /** Says which kind it is; `palette` fills it in. */
  readonly kind: 'colours';
  /** Each `#rrggbb`, sRGB. */
  readonly default: readonly string[];
}

/** A text that fits a pattern. */
export interface TextParameter extends Described {
  /** Says which kind it is; `text` fills it in. */
  readonly kind: 'text';
  /**
   * The source of a regular expression that the whole text must fit. It is matched in time that grows with the
   * length of the text alone, so it may not look around itself (`(?=`) or back (`\1`).
   */
  readonly pattern: string;
  /** How many characters at most, 1 to 1,000. */
  readonly longest: number;
  /** A text that fits. */
  readonly default: string;
  /** What it takes, in words that follow "expected": `a thread order such as A24 B4`. */
  readonly say: string;
}

/** A picture from a file: its value is the file's path, and `setting.picture` hands over what it shows. */
export interface PictureParameter extends Described {
  /** Says which kind it is; `picture` fills it in. */
  readonly kind: 'picture';
  /**
   * The path of a picture that the effect brings along, from the folder of its own module. Where the file states
   * no density its size is written behind it: `swatch.png@100x80mm` or `swatch.png@300dpi`.
   */
  readonly default: string;
}

/** The kinds that the first version of the contract does not have. */
export const LATER_KINDS = ['numbers', 'colours', 'text', 'picture'] as const;

/** A parameter of any kind. */
export type Parameter =
  | NumberParameter
  | ChoiceParameter
  | ColourParameter
  | SwitchParameter
  | NumbersParameter
  | ColoursParameter
  | TextParameter
  | PictureParameter;
/** The parameters of an effect, by name. */
export type ParameterSet = Readonly<Record<string, Parameter>>;

/**
 * The value of a parameter: a number in its unit, a word, `#rrggbb` or a path, on and off, or a list of these,
 * which keeps its order and is frozen.
 */
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
              : P extends PictureParameter
                ? string
                : never;

/** The validated values of a parameter set, each in its declared unit. */
export type ValuesOf<P extends ParameterSet> = { readonly [Name in keyof P]: ValueOf<P[Name]> };

/** The names of those parameters of a set that are pictures. */
export type PictureNames<P extends ParameterSet> = {
  [Name in keyof P]: P[Name] extends PictureParameter ? Name : never;
}[keyof P] &
  string;

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

/** A picture from a file; the host reads it for `setting.picture`. Needs `apiVersion: 2`. */
export function picture(spec: Without<PictureParameter>): PictureParameter {
  return { kind: 'picture', ...spec };
}
