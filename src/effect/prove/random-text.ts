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

/** Texts that have, between them, the characters of all. */
const MOST_VARIED = 3;
/** Lengths, as shares of all that many texts have, whose texts are also made of the least and the greatest characters. */
const LENGTHS = [0, 0.5, 1];
const found = new WeakMap<TextParameter, readonly string[]>();
const mets = new WeakMap<TextParameter, ReadonlyMap<RegExp, readonly string[]>>();
const sampled = new WeakMap<TextParameter, readonly string[]>();

/**
 * The shortest of many texts that fit, texts of several lengths with every digit and letter as small and as great as
 * fits, and last the longest.
 */
export function extremeTexts(parameter: TextParameter): readonly string[] {
  const before = found.get(parameter);
  if (before) return before;
  const texts = manyTexts(parameter);
  const byLength = [...texts, parameter.default].sort((a, b) => a.length - b.length);
  const last = byLength.length - 1;
  const orders = [DIGITS, ...LETTERS.map((kind) => metIn(texts, kind))];
  const between = LENGTHS.map((share) => byLength[Math.round(share * last)]).flatMap((text) => [
    replaced(parameter, text, orders),
    replaced(
      parameter,
      text,
      orders.map((order) => order.toReversed()),
    ),
  ]);
  const others = [byLength[0], ...between].filter((text) => text !== byLength[last]);
  const varied = variedTexts(parameter, MOST_VARIED).filter((text) => text !== byLength[last]);
  const extremes = [...new Set([...others, ...varied, byLength[last]])];
  found.set(parameter, extremes);
  return extremes;
}

/** The same two hundred texts each time. */
export function manyTexts(parameter: TextParameter): readonly string[] {
  const texts = sampled.get(parameter) ?? fc.sample(textValue(parameter), { numRuns: 200, seed: TEXT_SEED });
  sampled.set(parameter, texts);
  return texts;
}

/** The characters that may stand for this one, from the least to the greatest: digits, or the letters of its kind met. */
export function charactersMet(parameter: TextParameter, character: string): readonly string[] {
  if (DIGITS.includes(character)) return DIGITS;
  const kind = LETTERS.find((one) => one.test(character));
  if (!kind) return [character];
  const met = metOf(parameter, kind);
  return met.includes(character) ? met : [character, ...met].sort();
}

function metOf(parameter: TextParameter, kind: RegExp): readonly string[] {
  const before = mets.get(parameter)?.get(kind);
  const met = before ?? metIn(manyTexts(parameter), kind);
  if (!before) mets.set(parameter, new Map([...(mets.get(parameter) ?? []), [kind, met]]));
  return met;
}

const DIGITS = [...'0123456789'];
/** Letters that may stand for one another. */
const LETTERS = [/^\p{Ll}$/u, /^\p{Lu}$/u];

/** The characters of a kind that texts have, from the least to the greatest. */
function metIn(texts: readonly string[], kind: RegExp): string[] {
  const met = new Set(texts.flatMap((text) => [...text]));
  return [...met].filter((character) => kind.test(character)).sort();
}

/** The text with each character that is in one of the orders exchanged for the first of that order that fits there. */
function replaced(
  { pattern, longest }: TextParameter,
  text: string,
  orders: readonly (readonly string[])[],
): string {
  const characters = [...text];
  for (const [at, character] of characters.entries()) {
    const order = orders.find((one) => one.includes(character)) ?? [];
    const fits = (other: string) => fitsPattern(characters.with(at, other).join(''), pattern, longest);
    characters[at] = order.slice(0, order.indexOf(character)).find(fits) ?? character;
  }
  return characters.join('');
}

/** Few texts that have, between them, every character that many texts have: each takes the one that adds most. */
export function variedTexts(parameter: TextParameter, most: number): readonly string[] {
  const texts = manyTexts(parameter);
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
