const LONG = 'x'.repeat(3000);

/** Seeds as no author thinks of them: numbers that overflow or are none, letters beyond the basic plane. */
export const ODD_SEEDS = [' ', '0', '1e309', 'NaN', '\u00e9\u{1f9f5}\u0000%'] as const;

/**
 * Seeds that are taken for one where only some of their letters or bits are looked at: they share their beginning,
 * their end, their length, their letters, all but the case of one or what stands between words, half of what one is written with, or all but the
 * last digits of a number.
 */
const ALIKE = [
  ...['rose', 'rosa', 'nose', 'sore', 'Rose', 'rose madder 1', 'rose madder 2'],
  ...['rose 1', 'rose-1', 'rose_1', 'rose1', ' rose'],
  ...[`${LONG}1`, `${LONG}2`, `1${LONG}`, `2${LONG}`],
  ...['1', '-1', '01', '1.5', '4294967297', '9007199254740992', '9007199254740993'],
  // Written in two halves, of which these share the first or the second; the last is what 16 bits keep of one.
  ...['\u{1f9f5}', '\u{1f9f6}', '\u{1f5f5}', '\uf9f5'],
] as const;

/** These have nothing in common. */
export const UNLIKE_SEEDS = ['ochre', 'Indigo 17', '640'] as const;

/** How many of the first seeds are no plain numbers. */
export const EASILY_MISREAD = UNLIKE_SEEDS.length + ALIKE.length + ODD_SEEDS.length;

/** So many seeds, all different: first those that are unlike, then those that are easily taken for one, then plain numbers. */
export function seedTexts(count: number): string[] {
  const numbers = Array.from({ length: count }, (_, index) => String(index + 2));
  const all = new Set([...UNLIKE_SEEDS, ...ALIKE, ...ODD_SEEDS, ...numbers]);
  return [...all].slice(0, count);
}

/** Whether a seed can be written out in a command, and be read there. */
export function isWritable(seed: string): boolean {
  return seed.length <= LONGEST && [...seed].every(isSeen) && !/["$`\\]/.test(seed);
}

/** A seed as it stands in a list of settings: plain words as they are. */
export function listedSeed(seed: string): string {
  return seed.length <= LONGEST && /^[\w.-]+$/.test(seed) ? seed : spokenSeed(seed);
}

/** Letters of a seed that are written out; of a longer one a few at either end. */
const LONGEST = 40;
const KEPT = 3;

/** A seed in words: a long one shortened, with its length, and by its number what cannot be seen. */
export function spokenSeed(seed: string): string {
  const letters = [...seed];
  const seen = (part: readonly string[]) =>
    part.map((letter) => (isSeen(letter) ? letter : codeOf(letter))).join('');
  if (letters.length <= LONGEST) return `"${seen(letters)}"`;
  return `"${seen(letters.slice(0, KEPT))}...${seen(letters.slice(-KEPT))}" of ${letters.length} letters`;
}

function isSeen(letter: string): boolean {
  return /[\p{L}\p{N}\p{P}\p{S} ]/u.test(letter);
}

function codeOf(letter: string): string {
  return `\\u{${letter.codePointAt(0)!.toString(16)}}`;
}

/** Letters in common from which on it is likely that the others are not looked at. */
const COMMON = 3;
/** Seeds of one length from which on it is likely that nothing else is looked at. */
const MANY = 4;

/** What some seeds have in common that an effect may look at alone, e.g. `which differ in case alone`; else nothing. */
export function likenessOf(seeds: readonly string[]): string | undefined {
  const [first, ...others] = seeds;
  const all = (isAlike: (seed: string) => boolean) => others.every(isAlike);
  if (all((seed) => seed.toLowerCase() === first.toLowerCase())) return 'which differ in case alone';
  if (all((seed) => isHalf(seed, first))) return 'whose letters have 16 of their bits in common';
  if (all((seed) => isOneNumber(seed, first))) return 'which as numbers are one, once rounded';
  const begun = Math.min(...others.map((seed) => countAlike([...seed], [...first])));
  if (begun >= COMMON) return `which have their first ${begun} letters in common`;
  const ended = Math.min(...others.map((seed) => countAlike([...seed].reverse(), [...first].reverse())));
  if (ended >= COMMON) return `which have their last ${ended} letters in common`;
  if (all((seed) => sorted(seed) === sorted(first))) return 'which have the same letters in another order';
  if (all((seed) => isSameInt(seed, first))) return 'which as whole numbers of 32 bits are one';
  const isOfOneLength = seeds.length >= MANY && all((seed) => seed.length === first.length);
  return isOfOneLength ? 'which have the same length' : undefined;
}

function isHalf(a: string, b: string): boolean {
  const arePairs = [a, b].every((text) => text.length === 2 && [...text].length === 1);
  return (arePairs && (a[0] === b[0] || a[1] === b[1])) || lowBits(a) === lowBits(b);
}

function lowBits(text: string): string {
  return [...text].map((letter) => letter.codePointAt(0)! & 0xffff).join();
}

function isSameInt(a: string, b: string): boolean {
  return [a, b].some((text) => !Number.isNaN(Number(text))) && (Number(a) | 0) === (Number(b) | 0);
}

function isOneNumber(a: string, b: string): boolean {
  return Number(a) === Number(b);
}

function countAlike(a: readonly string[], b: readonly string[]): number {
  const at = a.findIndex((letter, index) => letter !== b[index]);
  return at < 0 ? a.length : at;
}

function sorted(text: string): string {
  return [...text].sort().join('');
}
