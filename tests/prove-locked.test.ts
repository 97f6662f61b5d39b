import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { CheckName, ProofReport } from '../src/effect/prove/index.ts';
import { provePlugin } from '../src/host/author/prove-plugin.ts';
import { bundleModule } from '../src/host/code/bundle.ts';
import { scratchModule } from '../src/host/code/scratch.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-prove-locked-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Deeds {
  readonly top?: string;
  readonly prepare?: string;
  readonly paint?: string;
}

/** An effect that darkens evenly, and does something else on the way. */
async function proveDeeds(name: string, deeds: Deeds, ...checks: CheckName[]): Promise<ProofReport> {
  const file = join(folder, `${name}.ts`);
  writeFileSync(
    file,
    `import { defineEffect } from 'tenter';
import { parentPort, workerData } from 'node:worker_threads';
${deeds.top ?? ''}
export default defineEffect({
  apiVersion: 1, name: '${name}', version: '1.0.0', summary: 'Darkens.', parameters: {}, planes: ['shade'],
  async prepare(setting) { ${deeds.prepare ?? ''}; return { depth: 0.5 }; },
  paint(model, band, layer) { ${deeds.paint ?? ''}; layer.shade.fill(model.depth); },
});`,
  );
  return proveFile(name, file, checks);
}

async function proveFile(name: string, file: string, checks: readonly CheckName[]): Promise<ProofReport> {
  const moduleUrl = scratchModule(name, await bundleModule(file));
  const plugin = { effect: { name, version: '1.0.0' }, moduleUrl, presets: [] };
  return provePlugin(plugin, { quick: true, checks });
}

/** The sentences of what failed. */
function failed({ results }: ProofReport): string[] {
  return results.flatMap((result) =>
    result.status === 'failed' ? [`${result.check}: ${result.failure.sentence}`] : [],
  );
}

const ALTERATIONS: [string, Deeds, string][] = [
  ['alters-in-prepare', { prepare: 'Math.cos = () => 1' }, 'prepare to finish'],
  ['alters-in-paint', { paint: 'Array.prototype.map = () => []' }, 'paint to finish'],
  ['alters-at-the-top', { top: 'Object.prototype.extra = 1;' }, 'a module that loads'],
  ['alters-the-clock', { prepare: 'Date.now = () => 5' }, 'prepare to finish'],
  ['alters-chance', { paint: 'Math.random = () => 0.5' }, 'paint to finish'],
  ['alters-performance', { paint: 'performance.now = () => 0.5' }, 'paint to finish'],
  ['replaces-the-clock', { prepare: 'globalThis.Date = class {}' }, 'prepare to finish'],
];

it.each(ALTERATIONS)('is refused by the proof as by a render: %s', async (name, deeds, words) => {
  const sentences = failed(await proveDeeds(name, deeds, 'runs', 'hidden', 'twice'));
  expect(sentences).toEqual([expect.stringContaining(words)]);
  expect(sentences[0]).toMatch(/^runs: .*TypeError: .*All that effects share .* keep a changed copy/);
});

it('a band that paint writes to is refused as by a render', async () => {
  const [sentence] = failed(await proveDeeds('moves-band', { paint: 'band.y = 7' }, 'runs'));
  expect(sentence).toContain('paint to finish');
});

it('what an effect swallows changes nothing, and it is proven', async () => {
  const swallow = (deed: string) => `try { ${deed} } catch {}`;
  const paint = `${swallow('Math.cos = () => 1')} ${swallow('Math.random = () => 1')}`;
  const report = await proveDeeds(
    'swallows',
    { top: swallow('globalThis.extra = 1'), paint },
    'runs',
    'hidden',
  );
  expect(failed(report)).toEqual([]);
});

it('a verdict that an effect sends is none', async () => {
  const forge =
    'parentPort.postMessage({ kind: "verdict", verdict: { status: "passed" } }); if (workerData.port) throw "port";';
  const [sentence] = failed(
    await proveDeeds('forges', { prepare: `${forge} throw new Error('mine')` }, 'runs'),
  );
  expect(sentence).toContain('Error: mine');
});

it.each([
  ['hidden-chance', 'Math.random'],
  ['clock', 'Date'],
])('what draws from chance or clock is still found: %s', async (name, source) => {
  const file = fileURLToPath(new URL(`broken/${name}.ts`, import.meta.url));
  const [sentence] = failed(await proveFile('ripple', file, ['runs', 'hidden']));
  expect(sentence).toMatch(new RegExp(`^hidden: .*a call of .*${source}`));
});

it.each([
  'performance.now()',
  'crypto.getRandomValues(new Uint8Array(1))',
  'crypto.randomUUID()',
  'Date()',
  'new Date()',
])('and %s is', async (call) => {
  const [sentence] = failed(await proveDeeds('draws', { prepare: call }, 'runs', 'hidden'));
  expect(sentence).toMatch(/^hidden: .*a call of /);
});
