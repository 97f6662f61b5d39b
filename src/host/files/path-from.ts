import { relative } from 'node:path';

/** A path as a file in the folder says it, on every system with slashes. */
export function pathFrom(folder: string, path: string): string {
  return relative(folder, path).replaceAll('\\', '/');
}
