/**
 * What a terminal obeys instead of showing: control characters but for line feed and tab, and those
 * that turn the direction of writing (Unicode Standard Annex 9, 2).
 */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for.
const OBEYED = /[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

/**
 * The text with such characters written out as `\u001b`, so that a file name, a recipe or a plugin cannot
 * rewrite what stands on the terminal. JSON means the same afterwards.
 */
export function visible(text: string): string {
  return text.replace(OBEYED, (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

/** Makes all that a console prints visible. Progress lines do not go through it. */
export function printVisibly(target: Pick<Console, 'log' | 'error' | 'warn'>): void {
  for (const name of ['log', 'error', 'warn'] as const) {
    const print = target[name].bind(target);
    target[name] = (...parts: unknown[]) =>
      print(...parts.map((part) => (typeof part === 'string' ? visible(part) : part)));
  }
}
