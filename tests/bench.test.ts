import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const folder = new URL('bench/', import.meta.url);
const IMPORT = /import (?:\{([^}]+)\}|\w+) from '(\.[^']+)'/g;

// Nobody waits for the bench in a test, but what it calls by name must be there.
it.each(readdirSync(folder).filter((name) => name.endsWith('.mjs')))(
  '%s finds what it imports',
  async (name) => {
    const file = new URL(name, folder);
    for (const [, names, from] of readFileSync(file, 'utf8').matchAll(IMPORT)) {
      if (!from.includes('/dist/')) continue;
      const module = await import(new URL(from, file).href);
      for (const wanted of names?.split(',') ?? []) expect(module).toHaveProperty(wanted.trim());
    }
  },
);
