import { join } from 'node:path';
import type { Fault } from '../fault.ts';
import { packageRoot } from '../host/code/root.ts';

/** The line of a plugin's own code that an error came from, where it is known: none or one. */
export function ownLines({ details }: Fault): string[] {
  const lines = String(details?.stack ?? '').split('\n');
  const own = lines.find((line) => /\.m?[tj]s:\d+/.test(line) && !isHosts(line));
  return own ? [own.trim()] : [];
}

function isHosts(line: string): boolean {
  return line.includes('node:') || ['src', 'dist'].some((room) => line.includes(join(packageRoot, room)));
}
