import { readFileSync } from 'node:fs';
import { relative } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, it } from 'vitest';
import { packageRoot } from '../src/host/code/root.ts';
import { openShelf, type Shelf } from '../src/host/plugins/shelf.ts';

// Needs the build.
const dist = new URL('../dist/', import.meta.url);

it('what the build wrote of the built-in effects is what loading each of them gives', async () => {
  const described: { effect: { name: string } }[] = JSON.parse(
    readFileSync(new URL('plugins/descriptions.json', dist), 'utf8'),
  );
  const loaded = await openShelf();
  expect(loaded.faults).toEqual([]);
  expect(described.length).toBeGreaterThan(0);
  const wanted = [...loaded.effects.values()].map(({ effect, presets }) => ({
    folder: effect.name,
    effect,
    presets: presets.map((preset) => ({ ...preset, file: relative(packageRoot, preset.file) })),
  }));
  expect(described).toEqual(JSON.parse(JSON.stringify(wanted)));
});

it('the built shelf has them all without importing one, where each can be imported', async () => {
  const host = await import(new URL('host/index.js', dist).href);
  // Nothing can be loaded any more: what is on the shelf was not.
  const shelf: Shelf = await host.openShelf([], { signal: AbortSignal.abort() });
  expect(shelf.faults).toEqual([]);
  expect(shelf.effects.size).toBeGreaterThan(10);
  for (const [name, { effect, moduleUrl, place, files }] of shelf.effects) {
    expect([moduleUrl, files]).toEqual([pathToFileURL(place).href, [place]]);
    expect((await import(moduleUrl)).default).toMatchObject({ name, version: effect.version });
  }
});
