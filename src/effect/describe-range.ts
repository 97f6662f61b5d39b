import type { ColoursParameter, NumberParameter, NumbersParameter, Parameter } from './parameter.ts';

/** What a parameter takes, in words: `a number from 4 to 40 per cm`. */
export function describeRange(parameter: Parameter): string {
  switch (parameter.kind) {
    case 'number':
      return describeNumber(parameter);
    case 'choice':
      return `one of ${parameter.options.join(', ')}`;
    case 'colour':
      return 'a colour written #rrggbb';
    case 'switch':
      return 'true or false';
    case 'numbers':
      return `a list of ${describeLength(parameter)} from ${rangeWords(parameter)}`;
    case 'colours':
      return `a list of ${describeLength(parameter)} written #rrggbb`;
    case 'text':
      return `${parameter.say}, in ${parameter.longest} characters at most`;
    case 'picture':
      return 'the path of a picture, such as swatch.png, swatch.png@100x80mm or swatch.png@300dpi';
  }
}

/** What each number takes: `a whole number from 1 to 9`. */
export function describeNumber(range: Range): string {
  return `a ${range.whole ? 'whole ' : ''}number from ${rangeWords(range)}`;
}

/** How many a list takes: `2 to 6 colours`. */
export function describeLength(parameter: NumbersParameter | ColoursParameter): string {
  const { least, most } = parameter;
  const one = parameter.kind === 'colours' ? 'colour' : parameter.whole ? 'whole number' : 'number';
  return `${least === most ? most : `${least} to ${most}`} ${one}${most === 1 ? '' : 's'}`;
}

type Range = Pick<NumberParameter, 'unit' | 'min' | 'max' | 'whole'>;

function rangeWords({ unit, min, max }: Range): string {
  return `${min} to ${max}${unit === 'ratio' || unit === 'count' ? '' : ` ${unit}`}`;
}
