import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Fault } from '../src/fault.ts';
import { Crew, openShelf, plainFrame, renderOnCrew, resolveSteps, type Shelf } from '../src/host/index.ts';
import { gridOfPixels, parseLayout } from '../src/repeat/index.ts';

/** What an effect might alter for all others of its thread; each would show in the picture of VICTIM. */
const DEEDS: readonly string[] = [
  'Math.cos = () => 1',
  'Math.sqrt = Math.abs',
  'Object.assign(Math, { hypot: () => 0 })',
  'Object.defineProperty(Math, "PI", { value: 3 })',
  'delete Math.imul',
  'globalThis.Math = { ...Object.getOwnPropertyDescriptors(Math) }',
  'globalThis.Float32Array = Float64Array',
  'globalThis.window = {}',
  'Object.defineProperty(globalThis, "parseFloat", { value: () => 2 })',
  'JSON.stringify = () => "{}"',
  'Reflect.ownKeys = () => []',
  'Atomics.add = () => 0',
  'Array.prototype.map = function () { return [4]; }',
  'Array.prototype.push = () => 0',
  'Array.prototype[Symbol.iterator] = function* () {}',
  'Array.prototype[2] = 7',
  'Array.prototype.extra = 1',
  'Array.from = () => [1, 2]',
  'Object.getPrototypeOf([][Symbol.iterator]()).next = () => ({ done: true })',
  'Object.prototype.extra = 1',
  'Object.prototype.toString = () => "no"',
  'Object.keys = () => []',
  'Object.setPrototypeOf(Array.prototype, { extra: 1 })',
  'Function.prototype.call = () => 0',
  'Function.prototype.toString = () => ""',
  'Float32Array.prototype.fill = function () { return this; }',
  'Object.getPrototypeOf(Float32Array.prototype).set = () => {}',
  'Object.defineProperty(Object.getPrototypeOf(Float32Array.prototype), "length", { get: () => 3 })',
  'Object.getPrototypeOf(function* () {}).prototype.next = () => ({ done: true })',
  'Promise.prototype.then = function () { return this; }',
  'Map.prototype.get = () => 1',
  'Number.prototype.toFixed = () => "0"',
  'String.prototype.charCodeAt = () => 65',
  'RegExp.prototype.exec = () => null',
  'Date.now = () => 5',
  'Error.prototype.name = "Odd"',
  'path.basename = () => "no"',
  'crypto.Hash.prototype.update = function () { return this; }',
  'Buffer.prototype.readUInt8 = () => 3',
  'process.hrtime = () => [0, 0]',
  'performance.now = () => -1',
  'TextEncoder.prototype.encode = () => new Uint8Array(9)',
];

const HEADER = `import { defineEffect, numeric } from 'tenter';
import path from 'node:path';
import crypto from 'node:crypto';
`;

const ALTERER = (name: string, top: string) => `${HEADER}
const deeds = [${DEEDS.map((deed) => `() => { ${deed}; }`).join(',\n')}];
const attempt = (number, hush) => { try { deeds[number](); } catch (error) { if (!hush) throw error; } };
const count = (name, most) => numeric({ unit: 'count', min: 0, max: most, default: 0, help: name });
${top}
export default defineEffect({
  apiVersion: 1, name: '${name}', version: '2.3.4', summary: 'Alters.',
  parameters: { deed: count('Which.', 99), stage: count('0 none, 1 prepare, 2 paint.', 2), hush: count('Swallows.', 1) },
  planes: ['shade'],
  async prepare({ parameters: { deed, stage, hush } }) {
    if (stage === 1) attempt(deed, hush);
    return { deed, stage, hush };
  },
  paint({ deed, stage, hush }, band, layer) {
    if (stage === 2) attempt(deed, hush);
    layer.shade.fill(0.5);
  },
});`;

/** Each number that it paints is worked out by something that could be altered. */
const VICTIM = `${HEADER}
class Odd extends Error {}
function* three() { yield 1; yield 2; yield 3; }
function numbers() {
  const map = new Map([['a', 5]]);
  const names = []; for (const name in { b: 1 }) names.push(name);
  const gap = [1, , ]; gap.length = 3;
  return [
    Math.cos(1), Math.sqrt(2), Math.hypot(3, 4), Math.PI, Math.imul(3, 5), parseFloat('2.5'),
    typeof window === 'undefined' ? 1 : 2, JSON.stringify({ a: 1 }).length, Reflect.ownKeys({ a: 1 }).length,
    Atomics.add(new Int32Array([3]), 0, 1), [1, 2, 3].map((x) => x * 2)[2], [...[1, 2], 3].length, gap[2] ? 9 : 1,
    [].extra ?? 4, ({}).extra ?? 3, Array.from([1]).length, names.length, String({}).length, Object.keys({ a: 1 }).length,
    Math.max.call(null, 4), String(Math.max).length, new Float32Array(4).fill(2)[1], [...three()].length,
    map.get('a'), Number((1.25).toFixed(1)), 'z'.charCodeAt(0), /b/.exec('abc')?.index ?? 7, Date.now() > 6 ? 1 : 2,
    new Odd('x').name.length, path.basename('/a/bcd').length, crypto.createHash('sha256').update('a').digest()[0],
    Buffer.from([8]).readUInt8(0), process.hrtime()[0] > 0 ? 1 : 2, performance.now() > 0 ? 1 : 2,
    new TextEncoder().encode('abc').length, new Float32Array(3).length,
  ];
}
export default defineEffect({
  apiVersion: 1, name: 'victim', version: '1.0.0', summary: 'Counts.', parameters: {}, planes: ['shade'],
  prepare: async () => { await null; return { numbers: numbers() }; },
  paint(model, band, layer) {
    const all = [...model.numbers, ...numbers()];
    layer.shade.set(new Float32Array(all.map((value) => Math.abs(Math.sin(value)))).subarray(0, layer.shade.length));
  },
});`;

const SIZE = { width: 80, height: 4 };
let folder: string;
let shelf: Shelf;
const crews = new Map<number, Crew>();
const references = new Map<number, Uint8Array>();

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-altering-'));
  writeFileSync(join(folder, 'alterer.ts'), ALTERER('alterer', ''));
  writeFileSync(join(folder, 'victim.ts'), VICTIM);
  const places = ['alterer', 'victim'].map((name) => join(folder, `${name}.ts`));
  shelf = await openShelf(places, { consent: { trust: true }, builtIn: false });
  expect(shelf.faults).toEqual([]);
  for (const workers of [1, 2]) {
    crews.set(workers, new Crew(workers, { seconds: 60 }));
    references.set(workers, await bytesOf(workers, [{ effect: 'alterer' }, { effect: 'victim' }]));
  }
});
afterAll(async () => {
  for (const crew of crews.values()) await crew.close();
  rmSync(folder, { recursive: true, force: true });
});

async function bytesOf(workers: number, steps: object[], from = shelf): Promise<Uint8Array> {
  const { width, height } = SIZE;
  const grid = gridOfPixels({ layout: parseLayout('straight'), width, height }, width, height);
  const resolved = resolveSteps(from, steps as Parameters<typeof resolveSteps>[1], 'seven');
  const tile = plainFrame(width, height, '#ffffff');
  const job = { grid, tile, steps: resolved, follow: 'cloth' as const };
  const { frame } = await renderOnCrew(job, { crew: crews.get(workers)! });
  return Uint8Array.from(frame.pixels);
}

async function faultOf(work: Promise<unknown>): Promise<Fault> {
  return work.then(
    () => expect.fail('nothing was refused'),
    (fault) => fault as Fault,
  );
}

/** An alterer is stopped by its own render, and says so. */
function expectTold(fault: Fault, stage: string): void {
  expect(fault.kind).toBe('effect');
  expect(fault.message).toContain('alterer 2.3.4');
  expect(fault.message).toMatch(/TypeError: .*(read only|delete|redefine|extensible)/);
  expect(fault.message).toContain('keep a changed copy');
  expect(fault.details).toMatchObject({ effect: 'alterer', version: '2.3.4', stage, seed: 'seven' });
}

const numbered = DEEDS.map((deed, number) => [deed, number] as const);
const STAGES = ['none', 'prepare', 'paint'];

describe.each([1, 2])('with %i threads, what an effect tries to alter', (workers) => {
  describe.each([1, 2])('in stage %i', (stage) => {
    it.each(numbered)('%s', async (_deed, deed) => {
      const parameters = { deed, stage, hush: 0 };
      const told = bytesOf(workers, [{ effect: 'alterer', parameters }, { effect: 'victim' }]);
      expectTold(await faultOf(told), STAGES[stage]);
      // Swallowed, it is no fault; nor is it anything to the effect beside it, or to the next render.
      const hushed = { effect: 'alterer', parameters: { ...parameters, hush: 1 } };
      const beside = await bytesOf(workers, [hushed, { effect: 'victim' }]);
      expect(beside).toEqual(references.get(workers));
      const next = await bytesOf(workers, [{ effect: 'alterer' }, { effect: 'victim' }]);
      expect(next).toEqual(references.get(workers));
    });
  });
});

it('in the scope of its module, it is told when that is loaded', async () => {
  const places = DEEDS.map((_, number) => join(folder, `top-${number}.ts`));
  for (const [number, place] of places.entries())
    writeFileSync(place, ALTERER(`top-${number}`, `attempt(${number}, false);`));
  const { faults, effects } = await openShelf(places, { consent: { trust: true }, builtIn: false });
  expect([...effects.keys()]).toEqual([]);
  for (const place of places) {
    const { message } = faults.find((fault) => fault.subject === place)!;
    expect(message).toMatch(/a module that loads .* TypeError: .*keep a changed copy/);
  }
});

it.each([1, 2])('nor where its module swallows it, with %i threads', async (workers) => {
  const all = DEEDS.map((_, number) => `attempt(${number}, true);`).join('\n');
  const place = join(folder, 'hushed.ts');
  writeFileSync(place, ALTERER('hushed', all));
  const places = [place, join(folder, 'victim.ts')];
  const hushed = await openShelf(places, { consent: { trust: true }, builtIn: false });
  const bytes = await bytesOf(workers, [{ effect: 'hushed' }, { effect: 'victim' }], hushed);
  expect(bytes).toEqual(references.get(workers));
});

it('an effect cannot alter the band that the next one paints', async () => {
  const place = join(folder, 'moves-band.ts');
  writeFileSync(place, ALTERER('moves-band', '').replace('layer.shade.fill(0.5)', 'band.y = 7'));
  const moving = await openShelf([place], { consent: { trust: true }, builtIn: false });
  const fault = await faultOf(bytesOf(1, [{ effect: 'moves-band' }], moving));
  expect(fault.details).toMatchObject({ effect: 'moves-band', stage: 'paint' });
});

it('what ordinary modules do goes on working', async () => {
  const ORDINARY = `${HEADER}
const told = new Error('a'); told.name = 'Own'; told.message = 'mine';
function Old() {} Old.prototype = Object.create(Array.prototype); Old.prototype.toString = () => 'old';
function Kind() {} Kind.prototype.constructor = Kind; Kind.prototype.valueOf = () => 3;
class Late extends Error { constructor() { super(); this.name = 'Late'; } }
const table = {}; table.toString = () => 'table'; table.constructor = 4; table.hasOwnProperty = () => true;
const list = [1]; list.extra = 2; Error.stackTraceLimit = 30; Error.prepareStackTrace = undefined;
const figures = [String(told), new Old().toString(), +new Kind(), new Late().name, \`\${table}\`, list.extra];
if (figures.join() !== 'Own: mine,old,3,Late,table,2') throw new Error(figures.join());
${VICTIM.slice(HEADER.length).replace("'victim'", "'ordinary'")}`;
  const place = join(folder, 'ordinary.ts');
  writeFileSync(place, ORDINARY);
  const { faults } = await openShelf([place], { consent: { trust: true }, builtIn: false });
  expect(faults).toEqual([]);
});
