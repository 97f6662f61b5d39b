import { RE2JS } from 're2js';

/** Characters that a pattern may have. */
export const MOST_PATTERN = 500;
/** Characters that a text may have. */
export const MOST_TEXT = 1000;

/**
 * True where the whole text fits the pattern and is no longer than it may be. Patterns come with plugins and are
 * held against the user's text in the host's own threads, so they are matched by automata (RE2) and not by trying:
 * the time grows with the length of the text times that of the pattern, both of which are bounded.
 *
 * @param longest Characters, as people count them: a letter outside the basic plane is one.
 */
export function fitsPattern(text: string, pattern: string, longest: number): boolean {
  return lengthOf(text) <= longest && compiled(pattern).matches(text);
}

/** As much of the beginning of a text as fits the pattern; empty where none does. */
export function longestBeginning(text: string, pattern: string): string {
  const matcher = compiled(pattern, RE2JS.LONGEST_MATCH).matcher(text);
  return matcher.lookingAt() ? text.slice(0, matcher.end()) : '';
}

/** Characters of a text, each counted once. */
export function lengthOf(text: string): number {
  let count = 0;
  for (const _ of text) count++;
  return count;
}

/** What is wrong with a pattern, in words that follow "received"; nothing where it can be used. */
export function patternFault(pattern: string): string | undefined {
  if (pattern.length > MOST_PATTERN) return `one of ${pattern.length} characters`;
  try {
    // Both must read it: the kit makes texts from it as the language's own expressions are written.
    new RegExp(pattern, 'u');
    compiled(pattern);
    return undefined;
  } catch (error) {
    return `"${pattern}" (${(error as Error).message.replace(/^[^:]*: /, '').replace(/: .*$/, '')})`;
  }
}

const known = new Map<string, RE2JS>();

function compiled(pattern: string, flags = 0): RE2JS {
  const key = `${flags} ${pattern}`;
  const before = known.get(key);
  if (before) return before;
  const made = RE2JS.compile(pattern, flags);
  known.set(key, made);
  return made;
}
