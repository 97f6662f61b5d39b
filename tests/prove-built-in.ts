import { existsSync, readdirSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { describeFailures } from '../src/effect/prove/index.ts';
import { provePlugin } from '../src/host/author/prove-plugin.ts';
import { openShelf, type Shelf } from '../src/host/plugins/shelf.ts';

const folders = readdirSync(new URL('../plugins', import.meta.url)).filter((name) =>
  existsSync(new URL(`../plugins/${name}/index.ts`, import.meta.url)),
);

/** s of a proof: the slowest takes a fortieth of it by itself, and a third beside ten other programs. */
const PROOF_SECONDS = 900;
/** ms. */
const LONGEST = 1000 * PROOF_SECONDS + 10_000;

/** Proves every third effect that comes with the host, from the first, second or third on: files run side by side. */
export function proveEveryThird(first: 0 | 1 | 2): void {
  let shelf: Shelf;
  beforeAll(async () => {
    shelf = await openShelf();
  });
  describe('an effect that comes with the host is proven, with its presets', () => {
    it.each(folders.filter((_, index) => index % 3 === first))(
      '%s',
      async (folder) => {
        const plugin = shelf.effects.get(folder);
        expect(plugin, shelf.faults.map(({ message }) => message).join('; ')).toBeDefined();
        const report = await provePlugin(plugin!, { quick: true, limits: { proofSeconds: PROOF_SECONDS } });
        expect(report.results.length).toBeGreaterThan(20);
        expect(report.proven, describeFailures(report)).toBe(true);
      },
      LONGEST,
    );
  });
}
