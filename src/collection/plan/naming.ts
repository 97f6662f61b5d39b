import { Fault } from '../../fault.ts';
import { suggestName } from '../../nearest.ts';
import { sha256 } from '../disk/hash.ts';
import type { Axis } from '../file/axes.ts';

/** What the words of a template stand for. */
export type NameWords = Readonly<Record<string, string | undefined>>;

const WORD = /\{([^{}]*)\}/g;
const OWN_WORDS = ['tile', 'recipe', 'hash'];

/** The template where none is given: a folder per tile, and every axis that has more than one value. */
export function defaultTemplate(axes: readonly Axis[]): string {
  const many = axes.filter(({ values }) => values.length > 1).map(({ name }) => `{${name}}`);
  return ['{tile}/{recipe}', ...new Set(many)].join('-');
}

/**
 * Checks a template before anything is named by it.
 *
 * @throws Fault (usage) for an unknown word, a brace without its other, or a path that leads out of the folder.
 */
export function checkTemplate(template: string, axes: readonly string[]): void {
  const words = [...OWN_WORDS, ...axes];
  for (const [, word] of template.matchAll(WORD)) {
    if (!words.includes(word))
      throw badTemplate(`one of the words ${words.join(', ')}`, `{${word}}`, suggestName(word, words));
  }
  const rest = template.replaceAll(WORD, 'x');
  if (/[{}]/.test(rest)) throw badTemplate('words between { and }', template);
  if (/^([/\\]|[a-z]:)/i.test(template) || rest.split(/[/\\]/).includes('..')) {
    throw badTemplate(
      'a path inside the output folder',
      template,
      'Name another folder with "folder" in output.',
    );
  }
  if (rest.split('/').some((part) => part === '' || part === '.' || part.startsWith('.')))
    throw badTemplate('a name in every folder of it', template);
}

/**
 * The path of a picture in the output folder, without its ending. A word that stands for nothing (an
 * axis that the recipe does not have) goes, with one hyphen beside it.
 */
export function nameOf(template: string, words: NameWords): string {
  const parts = template.split('/').map((part) => {
    const filled = part.replaceAll(/-?\{([^{}]*)\}/g, (whole, word: string) => {
      const value = words[word];
      if (value === undefined) return '';
      return (whole.startsWith('-') ? '-' : '') + (OWN_WORDS.includes(word) ? safe(value) : short(value));
    });
    return filled.replace(/^-+/, '') || 'x';
  });
  return parts.join('/');
}

/** Letters of a list or a text in a name: several of them stand in it, and a name holds 255 bytes. */
const MOST_LETTERS = 60;

/** The value of an axis; of a long list or text the beginning, and what tells it from others that begin so. */
function short(value: string): string {
  const whole = safe(value);
  if (whole.length <= MOST_LETTERS) return whole;
  return `${whole.slice(0, MOST_LETTERS - 9).replace(/[.-]+$/, '')}-${sha256(value).slice(0, 8)}`;
}

/** Letters, digits, dot, hyphen and underscore name a file on every system; Windows refuses a dot at the end. */
function safe(value: string): string {
  const clean = value
    .normalize('NFC')
    .replaceAll(/[^\p{L}\p{N}._-]+/gu, '-')
    .replaceAll(/^[.-]+|[.-]+$/g, '');
  return clean || 'x';
}

function badTemplate(expected: string, received: string, remedy?: string): Fault {
  return new Fault({
    kind: 'usage',
    expected,
    subject: 'the naming of outputs',
    received: `"${received}"`,
    remedy,
  });
}
