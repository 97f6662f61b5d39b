import { existsSync, readdirSync } from 'node:fs';
import { expectProven } from 'tenter/prove';
import { beforeAll, describe, expect, it } from 'vitest';
import { describeFailures } from '../src/effect/prove/index.ts';
import { provePlugin } from '../src/host/author/prove-plugin.ts';
import { openShelf, type Shelf } from '../src/host/plugins/shelf.ts';
import ripple from './broken/ripple.ts';
import wrongDrop from './broken/wrong-drop.ts';

const folders = readdirSync(new URL('../plugins', import.meta.url)).filter((name) =>
  existsSync(new URL(`../plugins/${name}/index.ts`, import.meta.url)),
);
let shelf: Shelf;
beforeAll(async () => {
  shelf = await openShelf();
});

describe('every effect that comes with the host is proven, with its presets', () => {
  it.each(folders)('%s', async (folder) => {
    const plugin = shelf.effects.get(folder);
    expect(plugin, shelf.faults.map(({ message }) => message).join('; ')).toBeDefined();
    const report = await provePlugin(plugin!, { quick: true });
    expect(report.results.length).toBeGreaterThan(20);
    expect(report.proven, describeFailures(report)).toBe(true);
  });
});

describe('inside a test of an author', () => {
  it('says nothing of an effect that keeps the contract', async () => {
    await expect(expectProven(ripple, { quick: true })).resolves.toMatchObject({ proven: true });
  });
  it('lists what is not kept, and with which setting', async () => {
    await expect(expectProven(wrongDrop, { quick: true })).rejects.toThrow(
      /ripple 1\.0\.0 does not keep its contract:\n {2}periodic: Expected the same floats.*\n {4}with all parameters at their defaults; seed prove; drop:1\/2/,
    );
  });
});
