import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { MessagePort } from 'node:worker_threads';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import type { Fault } from '../src/fault.ts';
import {
  Crew,
  type CrewOptions,
  openShelf,
  plainFrame,
  type Rendered,
  renderOnCrew,
  resolveSteps,
  type Shelf,
} from '../src/host/index.ts';
import type { TextureKeeper } from '../src/render/textures.ts';
import { gridOfPixels, parseLayout } from '../src/repeat/index.ts';

let folder: string;
const crews: Crew[] = [];

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-isolation-'));
});
afterEach(async () => {
  await Promise.all(crews.splice(0).map((crew) => crew.close()));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** An effect that darkens, and does something unheard of on the way. */
async function shelfOf(name: string, prepare: string, paint = '', top = ''): Promise<Shelf> {
  const path = join(folder, `${name}.ts`);
  const code = `import { defineEffect, numeric } from 'tenter';
${top}
export default defineEffect({
  apiVersion: 1, name: '${name}', version: '2.3.4', summary: 'Darkens.',
  parameters: { depth: numeric({ unit: 'ratio', min: 0, max: 1, default: 0.5, help: 'How dark.' }) },
  planes: ['shade'],
  async prepare(setting) { ${prepare}; return { depth: setting.parameters.depth }; },
  paint(model, band, layer) { ${paint}; layer.shade.fill(model.depth); },
});`;
  writeFileSync(path, code);
  return openShelf([path], { consent: { trust: true }, builtIn: false });
}

function crewOf(limits = {}): Crew {
  const crew = new Crew(2, { seconds: 60, ...limits });
  crews.push(crew);
  return crew;
}

function render(shelf: Shelf, name: string, crew: Crew, height = 40, options: CrewOptions = {}) {
  const grid = gridOfPixels({ layout: parseLayout('straight'), width: 40, height }, 40, height);
  const steps = resolveSteps(shelf, [{ effect: name, parameters: { depth: 0.25 } }], 'seven');
  const tile = plainFrame(40, height, '#ffffff');
  return renderOnCrew({ grid, tile, steps, follow: 'cloth' }, { crew, ...options });
}

/** Every pixel of white, darkened by a quarter of the light, and opaque. */
function expectSound({ frame }: Rendered): void {
  const wrong = frame.pixels.findIndex((value, index) => value !== (index % 4 === 3 ? 255 : 137));
  expect({ length: frame.pixels.length, wrong }).toEqual({ length: 40 * 40 * 4, wrong: -1 });
}

async function faultOf(work: Promise<unknown>): Promise<Fault> {
  return work.then(
    () => expect.fail('nothing went wrong'),
    (fault) => fault as Fault,
  );
}

const LOOP = 'for (;;) {}';
const HANG_SECONDS = 1.2;

/** What an effect does, at which stage it is told, and what of it the message has to say. */
const FAILURES: [string, string, string, string, string][] = [
  ['loops-in-prepare', LOOP, '', 'prepare', 'no progress for 1.2 s'],
  ['loops-in-paint', '', LOOP, 'paint', 'no progress for 1.2 s'],
  ['loops-and-reports', 'for (;;) setting.progress(0.5)', '', 'prepare', 'no progress for 1.2 s'],
  ['never-answers', 'await new Promise(() => {})', '', 'prepare', 'no progress for 1.2 s'],
  ['throws-text', 'throw "ink"', '', 'prepare', 'a thrown string: ink'],
  ['throws-null', '', 'throw null', 'paint', 'a thrown null'],
  ['throws-unprintable', '', 'throw Object.create(null)', 'paint', 'cannot be printed'],
  ['rejects', 'await Promise.reject(new RangeError("far"))', '', 'prepare', 'RangeError: far'],
  [
    'rejects-apart',
    'Promise.reject("alone"); await 0; for (;;) await new Promise(setImmediate)',
    '',
    'prepare',
    'alone',
  ],
  ['exits-in-prepare', 'process.exit(0)', '', 'prepare', 'process.exit(0)'],
  ['exits-in-paint', '', 'process.exit(3)', 'paint', 'process.exit(3)'],
  [
    'throws-later',
    'setTimeout(() => { throw new Error("late") }, 5); await new Promise(() => {})',
    '',
    'prepare',
    'late',
  ],
  ['paints-later', '', 'return Promise.resolve()', 'paint', 'paint returned a promise'],
  ['sends-a-function', 'return { depth: () => 1 }', '', 'prepare', 'not plain data'],
  ['recurses', 'const down = () => 1 + down(); down()', '', 'prepare', 'Maximum call stack'],
];

describe('an effect that misbehaves costs its own render alone', () => {
  it.each(FAILURES)('%s', async (name, prepare, paint, stage, words) => {
    const crew = crewOf(words.startsWith('no progress') ? { seconds: HANG_SECONDS } : {});
    const fault = await faultOf(render(await shelfOf(name, prepare, paint), name, crew));
    expect(fault.kind).toBe('effect');
    expect(fault.message).toContain(words);
    expect(fault.message).toContain(`${name} 2.3.4`);
    expect(fault.details).toMatchObject({
      effect: name,
      version: '2.3.4',
      stage,
      seed: 'seven',
      parameters: { depth: 0.25 },
    });
    expectSound(await render(await shelfOf('sound', ''), 'sound', crew));
  });

  const HOARDS: [string, string][] = [
    ['hoards-numbers', 'const kept = []; for (;;) kept.push(new Float32Array(1e6).fill(1))'],
    ['hoards-objects', 'const kept = []; for (;;) kept.push({ here: kept.length })'],
    ['hoards-in-one-list', 'const kept = []; for (;;) kept.push(kept)'],
    [
      'hoards-shared',
      'const kept = []; for (;;) kept.push(new Uint8Array(new SharedArrayBuffer(1e7)).fill(1))',
    ],
  ];
  it.each(HOARDS)('%s', async (name, prepare) => {
    const crew = crewOf({ megabytes: 200 });
    const fault = await faultOf(render(await shelfOf(name, prepare), name, crew));
    expect(fault.message).toContain('more than 200 MB of memory');
    expect(fault.details).toMatchObject({ effect: name, stage: 'prepare', seed: 'seven' });
    expectSound(await render(await shelfOf('sound', ''), 'sound', crew));
  });

  it('also where it was left behind by a render that is over', async () => {
    const crew = crewOf();
    const warned: Error[] = [];
    const listen = (warning: Error) => warned.push(warning);
    process.on('warning', listen);
    const shelf = await shelfOf('leaves-a-timer', '', 'setTimeout(() => { throw "late" }, 1500)');
    expectSound(await render(shelf, 'leaves-a-timer', crew));
    const waits = await shelfOf('waits', 'await new Promise((resolve) => setTimeout(resolve, 3000))');
    expectSound(await render(waits, 'waits', crew));
    process.off('warning', listen);
    expect(warned.map(String).join()).toContain('leaves-a-timer');
  });

  it('and a render beside it on the same crew is not lost', async () => {
    const crew = crewOf({ seconds: HANG_SECONDS });
    const hanging = faultOf(render(await shelfOf('hangs', LOOP), 'hangs', crew));
    const beside = render(await shelfOf('sound', ''), 'sound', crew);
    expect((await hanging).details).toMatchObject({ effect: 'hangs' });
    expectSound(await beside);
  });

  it('stops the other threads at the end of their bands', async () => {
    const crew = crewOf();
    const shelf = await shelfOf(
      'fails-once',
      '',
      'if (band.y === 0) throw "first"; for (let end = Date.now() + 5; Date.now() < end; );',
    );
    // 40 x 131072 px are 20 bands; the thread that did not fail finishes the one that it has.
    let done = 0;
    const fault = await faultOf(
      render(shelf, 'fails-once', crew, 131_072, { onProgress: (now) => (done = now) }),
    );
    expect(fault.message).toContain('first');
    expect(done).toBeLessThan(0.26);
  });

  it('and the user can still give it up', async () => {
    const crew = crewOf();
    const stopping = new AbortController();
    setTimeout(() => stopping.abort(), 200);
    const shelf = await shelfOf('loops', LOOP);
    const fault = await faultOf(render(shelf, 'loops', crew, 40, { signal: stopping.signal }));
    expect(fault.kind).toBe('cancelled');
    expectSound(await render(await shelfOf('sound', ''), 'sound', crew));
  });

  it('an error left behind leaves no hole in the picture that another render is painting', async () => {
    const crew = new Crew(1, { seconds: 60 });
    crews.push(crew);
    const late = await shelfOf('late-once', 'setTimeout(() => { throw "late" }, 200)');
    const wait = 'for (let end = Date.now() + 400; Date.now() < end; );';
    const beside = await shelfOf('beside', wait, 'layer.shade.fill(0.25); if (band.y >= 0) return;');
    // 40 x 65536 px are ten bands.
    const whole = (await render(beside, 'beside', crew, 65_536)).frame.pixels;
    await render(late, 'late-once', crew);
    const warned: Error[] = [];
    const listen = (warning: Error) => warned.push(warning);
    process.on('warning', listen);
    // The host hears of the error only once the thread has taken a band.
    const post = MessagePort.prototype.postMessage;
    const spy = vi.spyOn(MessagePort.prototype, 'postMessage').mockImplementation(function (
      this: MessagePort,
      posted,
      ...rest
    ) {
      post.call(this, posted, ...(rest as []));
      const next: Int32Array | undefined = posted?.order?.pass?.nextBand;
      for (let end = Date.now() + 10_000; next && Atomics.load(next, 0) === 0 && Date.now() < end; );
    });
    const pixels = (await render(beside, 'beside', crew, 65_536)).frame.pixels;
    spy.mockRestore();
    await new Promise((resolve) => setTimeout(resolve, 20));
    process.off('warning', listen);
    expect(warned.map(String).join()).toContain('late-once');
    expect(Buffer.compare(Buffer.from(pixels), Buffer.from(whole))).toBe(0);
  });

  it('a layer lent is given back where there is no room for the next', async () => {
    const ended: boolean[] = [];
    const textures: TextureKeeper = {
      findPrepared: () => undefined,
      keepPrepared: (_order, prepared) => void prepared.catch(() => {}),
      lendLayer: async () => {
        if (ended.length > 0 || lent++ > 0) throw new RangeError('no room');
        return { planes: {}, isPainted: false, end: (isPainted) => void ended.push(isPainted) };
      },
    };
    let lent = 0;
    const shelf = await shelfOf('sound', '');
    const grid = gridOfPixels({ layout: parseLayout('straight'), width: 40, height: 40 }, 40, 40);
    const steps = resolveSteps(shelf, [{ effect: 'sound' }, { effect: 'sound' }], 'seven');
    const job = { grid, tile: plainFrame(40, 40, '#ffffff'), steps, follow: 'cloth' as const };
    await expect(renderOnCrew(job, { crew: crewOf(), memory: { textures } })).rejects.toThrow('no room');
    expect(ended).toEqual([false]);
  });

  const FORGERIES: [string, string][] = [
    ['posts-an-answer', 'parentPort.postMessage({ kind: "done", result: null })'],
    ['closes-the-port', 'parentPort.close()'],
    ['looks-for-the-port', 'if (workerData.port ?? process._getActiveHandles().length) throw "found"'],
    ['floods-the-port', 'for (let k = 0; k < 1000; k++) parentPort.postMessage({ kind: "fault" })'],
  ];
  it.each(FORGERIES)('%s, to no effect', async (name, deed) => {
    const crew = crewOf();
    const top = "import { parentPort, workerData } from 'node:worker_threads';";
    expectSound(await render(await shelfOf(name, deed, deed, top), name, crew));
    expectSound(await render(await shelfOf('sound', ''), 'sound', crew));
  });

  it('a model larger than the limit is told with its size, before it is copied', async () => {
    const crew = crewOf({ megabytes: 64 });
    const shelf = await shelfOf('huge', 'return { depth: 0.25, kept: new Float32Array(3e7) }');
    const fault = await faultOf(render(shelf, 'huge', crew));
    expect(fault.message).toMatch(/huge 2\.3\.4 .* a model of 114 MB, where an effect may take 64/);
  });
});
