import { relative } from 'node:path';
import { trimNumber } from '../../repeat/length.ts';
import type { Item } from './item.ts';
import type { Plan } from './plan.ts';

/** The command that makes one item alone, from the folder that this process runs in. */
export function commandFor(
  { file, options, folder }: Plan,
  { name, address }: Item,
  plugins: readonly string[],
): string {
  const words = [
    'tenter',
    'collect',
    'run',
    quoted(relative(process.cwd(), file) || file),
    '--only',
    quoted(name || address),
  ];
  if (options.dpi !== undefined) words.push('--dpi', trimNumber(options.dpi * 25.4, 4));
  if (options.out !== undefined) words.push('--out', quoted(relative(process.cwd(), folder) || '.'));
  for (const place of plugins) words.push('--plugins', quoted(place));
  return words.join(' ');
}

/** As a POSIX shell reads it back. */
function quoted(word: string): string {
  return /^[\p{L}\p{N}_./:@%+=,-]+$/u.test(word) ? word : `'${word.replaceAll("'", `'\\''`)}'`;
}
