import { extname } from 'node:path';
import { Fault } from '../../../fault.ts';

const MOST_LETTERS = 120;

/** Nothing that leads elsewhere, that a terminal obeys, or that one of the usual systems cannot hold. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for.
const UNFIT = /[\x00-\x1f\x7f/\\:*?"<>|\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/;

/**
 * A name for a file in the folder of the work, as the page sent it.
 *
 * @param endings That it may have; the first is added where it has none of them.
 * @throws Fault (usage) for a path, a hidden file, or letters that a name cannot have.
 */
export function fileName(name: string, endings: readonly string[]): string {
  const isPlain = !UNFIT.test(name) && !/^[.\s-]|[.\s]$/.test(name) && name.length <= MOST_LETTERS;
  if (!isPlain) {
    throw new Fault({
      kind: 'usage',
      expected: `a plain name of at most ${MOST_LETTERS} letters, without / \\ : * ? " < > |`,
      subject: 'the name of the file',
      received: `"${name.slice(0, MOST_LETTERS)}"`,
      remedy: 'It goes into the folder of the work; give it a name alone.',
    });
  }
  return endings.includes(extname(name).toLowerCase()) ? name : `${name}${endings[0]}`;
}

/** A word for a file name, of any text. */
export function fileWord(text: string): string {
  const word = text.replaceAll(/[^\p{L}\p{N}_-]+/gu, '-').replaceAll(/^-+|-+$/g, '');
  return word.slice(0, 60) || 'unnamed';
}
