import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import type { CheckName } from '../src/effect/prove/index.ts';
import { provePlugin } from '../src/host/author/prove-plugin.ts';
import { bundleModule } from '../src/host/code/bundle.ts';
import { scratchModule } from '../src/host/code/scratch.ts';

/** The sentence of the only check that fails. */
async function faultOf(name: string, check: CheckName): Promise<string> {
  const file = fileURLToPath(new URL(`broken/${name}.ts`, import.meta.url));
  const moduleUrl = scratchModule(name, await bundleModule(file));
  const plugin = { effect: { name, version: '1.0.0' }, moduleUrl, presets: [] };
  const { results } = await provePlugin(plugin, { quick: true, checks: ['runs', check] });
  const failed = results.flatMap((result) => (result.status === 'failed' ? [result] : []));
  expect(failed.map((result) => result.check)).toEqual([check]);
  return failed[0].failure.sentence;
}

it.each([
  ['reads-file', 'a call of fs.readdirSync'],
  ['asks-network', 'a call of fetch'],
  ['host-name', 'another on another machine (it asks os.hostname)'],
  ['core-count', 'another on another machine (it asks os.cpus)'],
  ['own-place', 'another in every copy'],
])('what comes from outside is found though it is read once, at load: %s', async (name, words) => {
  expect(await faultOf(name, 'hidden')).toContain(words);
});

it.each([
  ['still-running', 'a timer of setInterval that is still running'],
  ['paints-later', 'a timer of setTimeout that is still running'],
])('what is left to be done later is found: %s', async (name, words) => {
  expect(await faultOf(name, 'state')).toContain(words);
});

it('a pause that prepare waits for is no timer left running, nor is one that is cleared', async () => {
  const file = fileURLToPath(new URL('sound/pauses.ts', import.meta.url));
  const moduleUrl = scratchModule('pauses', await bundleModule(file));
  const plugin = { effect: { name: 'ripple', version: '1.0.0' }, moduleUrl, presets: [] };
  const { results } = await provePlugin(plugin, { quick: true, checks: ['runs', 'hidden', 'state'] });
  expect(results.map(({ status }) => status)).toEqual(['passed', 'passed', 'passed']);
});
