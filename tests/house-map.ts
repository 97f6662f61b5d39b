import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

export const root = fileURLToPath(new URL('..', import.meta.url));

/** The sources in a folder of the house, without tests and what only they use. */
export function sources(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.tsx?$/.test(file) && !/\.test\.tsx?$|\.d\.ts$|testing/.test(file))
    .map((file) => join(root, folder, file));
}

/** All that a text imports or exports on: for its effect alone, when it runs, as a type, in any quotes. */
export function importsOf(text: string): string[] {
  return ts.preProcessFile(text, true, true).importedFiles.map(({ fileName }) => fileName);
}

export function imports(file: string): string[] {
  return importsOf(readFileSync(file, 'utf8'));
}

/** Which file, from the root, imports which. */
export type ImportMap = ReadonlyMap<string, readonly string[]>;

export function importMap(files: readonly string[]): ImportMap {
  const known = new Set(files);
  return new Map(
    files.map((file) => [
      relative(root, file),
      imports(file)
        .filter((name) => name.startsWith('.'))
        .map((name) => resolve(dirname(file), name))
        .filter((target) => known.has(target))
        .map((target) => relative(root, target)),
    ]),
  );
}

/** Files that import each other in a circle, each circle once with all that hang together in it (Tarjan 1972). */
export function circlesOf(map: ImportMap): string[][] {
  const order = new Map<string, number>();
  const lowest = new Map<string, number>();
  const open: string[] = [];
  const circles: string[][] = [];
  const visit = (file: string): void => {
    order.set(file, order.size);
    lowest.set(file, order.get(file)!);
    open.push(file);
    for (const next of map.get(file) ?? []) {
      if (!order.has(next)) visit(next);
      if (open.includes(next)) lowest.set(file, Math.min(lowest.get(file)!, lowest.get(next)!));
    }
    if (lowest.get(file) !== order.get(file)) return;
    const circle = open.splice(open.indexOf(file)).sort();
    if (circle.length > 1 || map.get(file)?.includes(file)) circles.push(circle);
  };
  for (const file of map.keys()) if (!order.has(file)) visit(file);
  return circles;
}
