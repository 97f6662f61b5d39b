import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));
const BROWSER_ROOMS = ['repeat', 'field', 'colour', 'effect', 'composite', 'inspect'];
/** Each room may use those below it; contracts (types) may also be read upwards. */
const BELOW: Record<string, string[]> = {
  repeat: [],
  field: ['repeat'],
  colour: [],
  effect: ['field', 'colour', 'repeat'],
  composite: ['effect', 'field', 'colour', 'repeat'],
  inspect: ['effect', 'field', 'colour', 'repeat'],
  picture: ['repeat', 'colour', 'field'],
  host: ['picture', 'inspect', 'composite', 'effect', 'field', 'colour', 'repeat'],
  collection: ['host', 'picture', 'inspect', 'composite', 'effect', 'field', 'colour', 'repeat'],
  cli: ['collection', 'host', 'picture', 'inspect', 'composite', 'effect', 'field', 'colour', 'repeat'],
};

function sources(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts') && !/\.test\.ts$|\.d\.ts$|testing/.test(file))
    .map((file) => join(root, folder, file));
}

function imports(file: string): string[] {
  const text = readFileSync(file, 'utf8');
  return [...text.matchAll(/^\s*(?:import|export)[^'"]*?from '([^']+)'/gms)].map((match) => match[1]);
}

describe('the house', () => {
  it.each(BROWSER_ROOMS)('%s runs in a browser: no Node', (room) => {
    for (const file of sources(`src/${room}`)) {
      expect(
        imports(file).filter((name) => name.startsWith('node:') || name === 'sharp'),
        relative(root, file),
      ).toEqual([]);
      expect(readFileSync(file, 'utf8'), relative(root, file)).not.toMatch(
        /\b(Buffer\.|process\.|Math\.random|Date\.now)/,
      );
    }
  });
  it.each(Object.keys(BELOW))('%s imports only what lies below it', (room) => {
    for (const file of sources(`src/${room}`)) {
      for (const name of imports(file).filter((path) => path.startsWith('.'))) {
        const target = relative(join(root, 'src'), resolve(dirname(file), name)).split('/')[0];
        if (target === room || target === 'fault.ts') continue;
        expect(BELOW[room], `${relative(root, file)} imports ${name}`).toContain(target);
      }
    }
  });
  it('effects import nothing of the house but its public entry', () => {
    for (const file of sources('plugins')) {
      const strange = imports(file).filter((name) => name !== 'tenter' && !/^\.\/[^/]+$/.test(name));
      expect(strange, relative(root, file)).toEqual([]);
    }
  });
});
