import { isAbsolute, relative } from 'node:path';
import { MM_PER_INCH, parseDensity, type Size, trimNumber } from '../../../repeat/length.ts';

/** A command and what it is called with. */
export type Words = readonly string[];

/** A line to be pasted into a terminal. */
export function lineOf(words: Words): string {
  return ['tenter', ...words].map(quoted).join(' ');
}

/** Single quotes keep everything as it is (POSIX Shell Command Language, 2.2.2). */
function quoted(word: string): string {
  return /^[\w@%+=:,./-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
}

/** A path from the working folder where it is inside, so that it can be read. */
export function pathWord(path: string): string {
  const way = relative(process.cwd(), path);
  if (way === '' || way.startsWith('..') || isAbsolute(way)) return path;
  return way.startsWith('-') ? `./${way}` : way;
}

export function sizeWord({ width, height }: Size): string {
  return `${width}x${height}mm`;
}

/** As people say it where that is exactly the same. @param density Pixels per mm. */
export function densityWord(density: number): string {
  const dpi = `${trimNumber(density * MM_PER_INCH, 4)}dpi`;
  return parseDensity(dpi) === density ? dpi : `${density}px/mm`;
}
