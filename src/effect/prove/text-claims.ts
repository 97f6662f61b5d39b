import type { TextParameter } from '../parameter.ts';
import { fitsPattern } from '../text-pattern.ts';
import type { Claim } from './claim.ts';
import { charactersMet, manyTexts } from './random-text.ts';
import { thinned } from './vary.ts';

/** Of digits in a row, or letters, so many are claimed something of. */
const MOST_PLACES = 3;
const ORDINALS = ['first', 'second', 'third'] as const;
/** Characters that each is exchanged for, the farther first. */
const EXCHANGES = 2;
/** Texts that are chosen from. */
const TEXTS = 60;
/** Letters that a text is brought to whose default has none that fit. */
const LEAST_LETTERS = 2;
/** Characters of the same kind that stand in a row. */
const ROWS = [
  { word: 'digit of a number', kind: /^[0-9]$/ },
  { word: 'letter of a word', kind: /^\p{L}$/u },
] as const;

/**
 * That the first digit of some number in a text changes something, and so does the second, and the third; and letters
 * of words in the same way. A single one may do nothing, so that several are exchanged, one at a time.
 *
 * @param count How many of them to exchange.
 */
export function characterClaims(name: string, parameter: TextParameter, count: number): Claim[] {
  const texts = [
    parameter.default,
    ...manyTexts(parameter)
      .slice(0, TEXTS)
      .map((text) => inWordsOf(parameter, text)),
  ];
  return ROWS.flatMap(({ word, kind }) =>
    ORDINALS.slice(0, MOST_PLACES).flatMap((ordinal, place): Claim[] => {
      const placesIn = (text: string) => placesOf(text, kind, place);
      const [text] = [...texts].sort(
        (a, b) =>
          Math.min(count, placesIn(b).length) - Math.min(count, placesIn(a).length) || a.length - b.length,
      );
      const changed = thinned(placesIn(text), count).flatMap((at) => exchanged(parameter, text, at));
      // One character alone may be of no account.
      if (changed.length < 2) return [];
      return [
        {
          what: `the ${ordinal} ${word} in ${name}`,
          values: [text, ...changed],
          isOfText: true,
          instead: 'let the pattern allow no more than is read',
        },
      ];
    }),
  );
}

/** A number in a text that is larger than this has an upper half. */
const LEAST_LARGEST = 8;
/** Digits that a number in a text is tried with at the most. */
const MOST_DIGITS = 4;
/** Places of the upper half of what a number in a text can be. */
const UPPER = [1, 0.78, 0.55];
/** Numbers of a text that are tried. */
const MOST_NUMBERS = 3;
/** What stands in the last part of the longest text, so many characters of it. */
const LAST_PART = 0.75;
const MOST_LAST = 6;
/** A text that is shorter has no end to speak of. */
const SHORTEST_LONG = 8;

/**
 * That each number in a text changes something in the upper half of what it can be there: what is more than a count may
 * all be taken for that count.
 */
export function numberClaims(name: string, parameter: TextParameter): Claim[] {
  const { default: usual } = parameter;
  const texts = [usual, ...manyTexts(parameter).map((text) => inWordsOf(parameter, text))];
  const text = texts.find((one) => one.match(/[0-9]+/g)) ?? usual;
  return [text, ...inTwoLetters(parameter, text)].flatMap((one) => upperClaims(name, parameter, one));
}

/** The text with no more than two letters by turns: what is found by its letter is then not the only one of it. */
function inTwoLetters({ pattern, longest }: TextParameter, text: string): string[] {
  const letters = [...new Set([...text].filter(isLetter))].slice(0, 2);
  if (letters.length < 2) return [];
  let turn = 0;
  const changed = [...text]
    .map((character) => (isLetter(character) ? letters[turn++ % 2] : character))
    .join('');
  return changed !== text && fitsPattern(changed, pattern, longest) ? [changed] : [];
}

function upperClaims(name: string, { pattern, longest }: TextParameter, text: string): Claim[] {
  const numbers = thinned([...text.matchAll(/[0-9]+/g)], MOST_NUMBERS);
  return numbers.flatMap(({ 0: digits, index }): Claim[] => {
    const withNumber = (value: number) =>
      text.slice(0, index) + String(value) + text.slice(index + digits.length);
    const fits = (value: number) => fitsPattern(withNumber(value), pattern, longest);
    const largest = Array.from({ length: MOST_DIGITS }, (_, k) => 10 ** (MOST_DIGITS - k) - 1).find(fits);
    if (largest === undefined || largest < LEAST_LARGEST) return [];
    const upper = [...new Set(UPPER.map((share) => Math.round(share * largest)))].filter(fits);
    if (upper.length < 2) return [];
    return [
      {
        what: `the number ${digits} in ${name}, from ${upper.at(-1)} to ${largest},`,
        values: upper.map(withNumber),
        isOfText: true,
        instead: 'let the pattern allow no larger number than is told apart',
      },
    ];
  });
}

/** That what stands at the end of the longest texts changes something: it may be read up to a count alone. */
export function endClaims(name: string, parameter: TextParameter): Claim[] {
  const texts = manyTexts(parameter).map((text) => inWordsOf(parameter, text));
  const [text] = texts.sort((a, b) => b.length - a.length);
  const characters = [...text];
  if (characters.length < SHORTEST_LONG) return [];
  const from = Math.ceil(LAST_PART * characters.length);
  const places = characters.flatMap((character, at) =>
    at >= from && ROWS.some(({ kind }) => kind.test(character)) ? [at] : [],
  );
  const changed = thinned(places, MOST_LAST).flatMap((at) => exchanged(parameter, text, at).slice(0, 1));
  if (changed.length < 2) return [];
  return [
    {
      what: `the end of a long text in ${name}`,
      values: [text, ...changed],
      isOfText: true,
      instead: 'let "longest" or the pattern allow no more than is read',
    },
  ];
}

/** Where the characters of a kind stand that have so many of it right before them. */
function placesOf(text: string, kind: RegExp, before: number): number[] {
  let row = 0;
  return [...text].flatMap((character, at) => {
    row = kind.test(character) ? row + 1 : 0;
    return row === before + 1 ? [at] : [];
  });
}

/** The text with one character exchanged for others of its kind that fit, the farther first. */
export function exchanged(parameter: TextParameter, text: string, at: number): string[] {
  const met = charactersMet(parameter, [...text][at]);
  const own = met.indexOf([...text][at]);
  const half = own + Math.floor(met.length / 2);
  const others = [...met, ...met].slice(half % met.length, (half % met.length) + met.length);
  return others
    .map((other) => [...text].with(at, other).join(''))
    .filter((changed) => changed !== text && fitsPattern(changed, parameter.pattern, parameter.longest))
    .slice(0, EXCHANGES);
}

/** The text with the letters that the default has, by turns, or the least: others may name what is not there. */
function inWordsOf(parameter: TextParameter, text: string): string {
  const { pattern, longest, default: usual } = parameter;
  const letters = [...usual].filter(isLetter);
  const characters = [...text];
  let turn = 0;
  for (const [at, character] of characters.entries()) {
    if (!isLetter(character)) continue;
    const least = charactersMet(parameter, character).slice(0, LEAST_LETTERS);
    const others = [letters, least].filter((list) => list.length > 0).map((list) => list[turn % list.length]);
    turn++;
    const fits = (other: string) => fitsPattern(characters.with(at, other).join(''), pattern, longest);
    characters[at] = others.find(fits) ?? character;
  }
  return characters.join('');
}

function isLetter(character: string): boolean {
  return ROWS[1].kind.test(character);
}
