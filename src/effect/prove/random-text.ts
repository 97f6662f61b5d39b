import * as fc from 'fast-check';
import type { TextParameter } from '../parameter.ts';
import { fitsPattern } from '../text-pattern.ts';

/** Any text that fits the pattern; one that is too long gives way to the default, so that none is waited for. */
export function textValue(parameter: TextParameter): fc.Arbitrary<string> {
  const { pattern, longest } = parameter;
  const short = matching(pattern, 'small');
  const any = isNested(pattern) ? short : fc.oneof(short, matching(pattern, 'medium'));
  return any.map((text) => (fitsPattern(text, pattern, longest) ? text : parameter.default));
}

/** The same texts in every run. */
const TEXT_SEED = 20_261_127;

/** The shortest and the longest of many texts that fit. */
export function extremeTexts(parameter: TextParameter): readonly string[] {
  const texts = fc.sample(textValue(parameter), { numRuns: 200, seed: TEXT_SEED });
  const byLength = [...texts, parameter.default].sort((a, b) => a.length - b.length);
  return [byLength[0], byLength[byLength.length - 1]];
}

/** Few texts that have, between them, every character that many texts have: each takes the one that adds most. */
export function variedTexts(parameter: TextParameter, most: number): readonly string[] {
  const texts = fc.sample(textValue(parameter), { numRuns: 200, seed: TEXT_SEED });
  const met = new Set<string>();
  const chosen: string[] = [];
  const gainOf = (text: string) => [...new Set(text)].filter((character) => !met.has(character)).length;
  while (chosen.length < most) {
    const gains = texts.map(gainOf);
    const gain = Math.max(...gains);
    if (gain === 0) break;
    const text = texts[gains.indexOf(gain)];
    for (const character of text) met.add(character);
    chosen.push(text);
  }
  return chosen;
}

/**
 * True where repeats stand within repeats, so that texts of ten repeats are already long: those of a hundred would
 * be as long as books.
 */
function isNested(pattern: string): boolean {
  const texts = fc.sample(matching(pattern, 'small'), { numRuns: 50, seed: TEXT_SEED });
  return texts.some(({ length }) => length > 100);
}

function matching(pattern: string, size: 'small' | 'medium'): fc.Arbitrary<string> {
  return fc.stringMatching(new RegExp(`^(?:${pattern})$`, 'u'), { size });
}
