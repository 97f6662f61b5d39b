import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import {
  type CheckName,
  describeFailures,
  type Failure,
  type ProofReport,
} from '../src/effect/prove/index.ts';
import { type ProvePluginOptions, provePlugin } from '../src/host/author/prove-plugin.ts';
import { bundleModule } from '../src/host/code/bundle.ts';
import { scratchModule } from '../src/host/code/scratch.ts';

async function prove(name: string, options: ProvePluginOptions): Promise<ProofReport> {
  const file = fileURLToPath(new URL(`broken/${name}.ts`, import.meta.url));
  const moduleUrl = scratchModule(name, await bundleModule(file));
  const presets = [{ name: 'flat', parameters: { height: 0.1 } }];
  return provePlugin({ effect: { name, version: '1.0.0' }, moduleUrl, presets }, { quick: true, ...options });
}

function failuresOf({ results }: ProofReport): [CheckName, Failure][] {
  return results.flatMap((result) => (result.status === 'failed' ? [[result.check, result.failure]] : []));
}

const names = (report: ProofReport) => failuresOf(report).map(([check]) => check);
const namesOf = (report: ProofReport, status: string) =>
  report.results.filter((result) => result.status === status).map(({ check }) => check);

it('stops an endless loop, names its setting, and goes on with the other checks', async () => {
  const checks = ['runs', 'parameters', 'seed'] as const;
  const report = await prove('endless', { checks, limits: { seconds: 2 } });
  expect(names(report)).toEqual(['parameters']);
  const [[, failure]] = failuresOf(report);
  expect(failure.setting.parameters).toEqual({ depth: 0 });
  expect(failure.sentence).toContain('an end within 2 s of prepare');
  expect(namesOf(report, 'passed')).toEqual(['runs', 'seed']);
});

it.each(['leak', 'remembered-rows'])('finds memory that is kept from call to call: %s', async (name) => {
  const report = await prove(name, { checks: ['runs', 'memory'] });
  expect(names(report)).toEqual(['memory']);
  expect(failuresOf(report)[0][1].received).toMatch(/[0-9]+ kB more each time/);
});

it('finds none in a sound effect, and proves its presets', async () => {
  // Every size of it is tried in tests/broken.test.ts; here it is the thread that is looked at.
  const report = await prove('ripple', {});
  expect(names(report)).toEqual([]);
  expect(namesOf(report, 'not applicable')).toEqual(['sentences', 'sketch']);
});

it('stops a flood of memory', async () => {
  const report = await prove('flood', {
    checks: ['runs', 'parameters', 'abort'],
    limits: { megabytes: 400 },
  });
  expect(names(report)).toEqual(['parameters']);
  const [[, failure]] = failuresOf(report);
  expect(failure.setting.parameters).toEqual({ depth: 0.4 });
  expect(failure.sentence).toContain('at most 400 MB of memory of paint');
  expect(namesOf(report, 'passed')).toEqual(['runs', 'abort']);
});

it('outlives an effect that ends its thread', async () => {
  const report = await prove('quits', { checks: ['runs', 'parameters', 'seed'] });
  expect(names(report)).toEqual(['parameters']);
  expect(failuresOf(report)[0][1].received).toContain('exit code 3');
  expect(namesOf(report, 'passed')).toEqual(['runs', 'seed']);
});

it('lays an error that is left behind at the door of the check that left it', async () => {
  const report = await prove('leaves-error', { checks: ['runs', 'periodic', 'finite'] });
  // A quick proof has two hands, and each has loaded the effect.
  expect(names(report)).toEqual(['runs', 'finite']);
  const [[, failure]] = failuresOf(report);
  expect(failure.received).toContain('RangeError: too late');
  expect(failure.setting.seed).toBe('prove');
  expect(report.proven).toBe(false);
  expect(namesOf(report, 'passed')).toEqual(['periodic']);
});

it('tells of a preset that the effect does not take', async () => {
  const file = fileURLToPath(new URL('broken/extreme-nan.ts', import.meta.url));
  const moduleUrl = scratchModule('extreme-nan', await bundleModule(file));
  const presets = [{ name: 'still', parameters: { height: 0 } }];
  const effect = { name: 'ripple', version: '1.0.0' };
  const report = await provePlugin({ effect, moduleUrl, presets }, { checks: ['runs', 'presets'] });
  expect(names(report)).toEqual(['presets']);
  expect(failuresOf(report)[0][1].sentence).toContain('of preset still');
});

it('a proof whose time is over is not finished: it says what was not reached, and what each check cost', async () => {
  const checks = ['runs', 'setting', 'planes', 'parameters'] as const;
  // Enough for the first check on a busy machine, and too little for the last on any.
  const report = await prove('slow', { checks, limits: { proofSeconds: 6 } });
  expect(report.proven).toBe(false);
  expect(names(report)).toEqual([]);
  expect(namesOf(report, 'passed').slice(0, 1)).toEqual(['runs']);
  expect(report.notReached.at(-1)).toBe('parameters');
  expect(namesOf(report, 'not reached')).toEqual(report.notReached);
  expect(report.results.map(({ check }) => check)).toEqual(checks);
  for (const { status, seconds } of report.results.slice(0, 2))
    if (status === 'passed') expect(seconds).toBeGreaterThan(0.3);
  expect(() => expectFinished(report)).toThrow(/not finished.*parameters/);
});

it('nor are checks reached that only wait for one another', async () => {
  const report = await prove('slow', { checks: ['runs', 'seed', 'cost'], limits: { proofSeconds: 0.2 } });
  expect(report.notReached).toEqual(['runs', 'cost', 'seed']);
});

function expectFinished(report: ProofReport): void {
  if (!report.proven) throw new Error(describeFailures(report));
}
