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
      const wanted = (names ?? '').split(',').map((name) => name.trim());
      for (const name of wanted.filter((name) => name !== '')) expect(module).toHaveProperty(name);
    }
  },
);
