import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Frame, sharedSamples } from '../../colour/frame.ts';
import { API_VERSION } from '../../effect/index.ts';
import { plainFrame, unfoldFrame } from '../../render/frame.ts';
import type { RenderStep } from '../../render/step.ts';
import { gridOfPixels } from '../../repeat/grid.ts';
import { parseLayout } from '../../repeat/layout.ts';
import type { RecipeStep } from '../plugins/recipe.ts';
import { resolveSteps } from '../plugins/resolve-steps.ts';
import { openShelf, type Shelf } from '../plugins/shelf.ts';
import { renderOnCrew } from '../render-on-crew.ts';
import { Crew } from '../threads/crew.ts';
import { openSightArtwork } from './artwork.ts';
import type { MaskSource, SightOrder } from './order.ts';
import { Sight } from './sight.ts';

/** Waves; `work` ms are spent preparing, with or without a word of progress. It says how often its thread was asked. */
const WAVES = `
import { defineEffect, numeric, toggle } from 'tenter';
let asked = 0;
export default defineEffect({
  apiVersion: ${API_VERSION}, name: 'waves', version: '1.0.0', summary: 'Waves.',
  parameters: {
    height: numeric({ unit: 'mm', min: 0, max: 5, default: 0.4, help: 'How far.' }),
    work: numeric({ unit: 'count', min: 0, max: 60000, default: 0, help: 'How long it prepares.' }),
    isSilent: toggle({ default: false, help: 'Without a word.' }),
  },
  planes: ['load', 'tint', 'shade', 'relief'],
  async prepare({ box, parameters, progress, report }) {
    report({ name: 'asked', value: ++asked });
    const end = Date.now() + parameters.work;
    while (Date.now() < end) if (!parameters.isSilent) progress(1 - (end - Date.now()) / parameters.work);
    return { width: box.width, height: box.height, reach: parameters.height };
  },
  paint(model, band, layer) {
    for (let row = 0, k = 0; row < band.height; row++) for (let column = 0; column < band.width; column++, k++) {
      const turn = (at, size) => 2 * Math.PI * ((at / size) - Math.floor(at / size));
      const x = turn(band.x + column + 0.5, Math.round(model.width / band.mmPerPixelX));
      const y = turn(band.y + row + 0.5, Math.round(model.height / band.mmPerPixelY));
      layer.load[k] = 1 + 0.5 * Math.sin(x); layer.shade[k] = 1 + 0.2 * Math.sin(y);
      layer.tint.set([1, 0, 0, 0.2 + 0.1 * Math.sin(x + y)], k * 4);
      layer.relief[k] = model.reach * 0.2 * Math.sin(x);
    }
  },
});`;

/** Paint that runs and moves, here more, there less. */
const RUNS = `
import { defineEffect } from 'tenter';
export default defineEffect({
  apiVersion: ${API_VERSION}, name: 'runs', version: '1.0.0', summary: 'Paint that runs.',
  parameters: {}, planes: ['bleed', 'shift'],
  prepare: ({ box }) => ({ width: box.width }),
  paint(model, band, layer) {
    for (let k = 0; k < band.width * band.height; k++) {
      const x = (band.x + (k % band.width) + 0.5) * band.mmPerPixelX;
      layer.bleed[k] = 0.4 + 0.4 * Math.sin((2 * Math.PI * x) / model.width);
      layer.shift[2 * k] = 0.5;
    }
  },
});`;

const DENSITY = 4;
let folder: string;
let shelf: Shelf;
let crew: Crew;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-sight-'));
  const paths = Object.entries({ WAVES, RUNS }).map(([name, text]) => {
    const path = join(folder, `${name.toLowerCase()}.ts`);
    writeFileSync(path, text);
    return path;
  });
  shelf = await openShelf(paths, { consent: { trust: true }, builtIn: false });
  expect(shelf.faults).toEqual([]);
  crew = new Crew(2);
});
afterAll(async () => {
  await crew.close();
  rmSync(folder, { recursive: true, force: true });
});

const stepsOf = (...steps: Partial<RecipeStep>[]): RenderStep[] =>
  resolveSteps(
    shelf,
    steps.map((step) => ({ effect: 'waves', ...step })),
    '1',
  );

function drawTile(width: number, height: number): Frame {
  const tile = plainFrame(width, height, '#608098');
  for (let k = 0; k < width * height; k++) {
    const [x, y] = [k % width, Math.floor(k / width)];
    if ((x * x + 3 * x * y) % 29 < 11) tile.pixels.set([200 - (y % 50), 180, 60 + (x % 40), 255], 4 * k);
  }
  return tile;
}

const SIZE = { width: 24, height: 20 };
const TILE = drawTile(SIZE.width * DENSITY, SIZE.height * DENSITY);
const GREY: MaskSource = {
  samples: Uint8Array.from({ length: 96 * 80 }, (_, k) => (k * 7) % 256),
  width: 96,
  height: 80,
};

function orderOf(more: Partial<SightOrder> = {}): SightOrder {
  return {
    artwork: openSightArtwork(TILE),
    ground: '#ffffff',
    layout: parseLayout('straight'),
    size: SIZE,
    steps: [],
    follow: 'cloth',
    quality: 'finished',
    density: DENSITY,
    ...more,
  };
}

/** What the command lays, of the unfolded box. */
async function printed({ layout, size, steps, follow, light }: SightOrder): Promise<Frame> {
  const grid = gridOfPixels({ layout, ...size }, TILE.width, TILE.height);
  const tile = { ...TILE, pixels: sharedSamples(TILE.pixels.length, 8) };
  tile.pixels.set(TILE.pixels);
  const { frame } = await renderOnCrew({ grid, tile, steps, follow, light }, { crew });
  return unfoldFrame(frame, grid);
}

const isSame = (a: Frame, b: Frame) =>
  a.width === b.width &&
  a.height === b.height &&
  Buffer.compare(a.pixels as Uint8Array, b.pixels as Uint8Array) === 0;

function cut({ pixels, width }: Frame, x: number, y: number, columns: number, rows: number): Frame {
  const part = new Uint8Array(4 * columns * rows);
  for (let row = 0; row < rows; row++) {
    const first = 4 * ((y + row) * width + x);
    part.set(pixels.subarray(first, first + 4 * columns), 4 * row * columns);
  }
  return { pixels: part, width: columns, height: rows };
}

describe.each(['straight', 'drop:1/2', 'brick:1/2', 'mirror-xy', 'turn'])(
  'at the density of a tile in %s',
  (name) => {
    it.each(['cloth', 'artwork'] as const)(
      'shows what is printed, whole and in part, following the %s',
      async (follow) => {
        const sight = new Sight({ crew });
        const colours = { mask: { colours: ['#c8b43c'], tolerance: 3 } };
        const order = orderOf({
          layout: parseLayout(name),
          follow,
          steps: stepsOf(colours, { opacity: 0.5, seed: '2' }),
        });
        const wanted = await printed(order);
        const whole = await sight.look(order);
        expect(isSame(whole.frame, wanted)).toBe(true);
        expect(whole.isCoarse).toBe(false);
        expect(whole.layout.kind).toBe(/mirror|turn/.test(name) ? 'straight' : name.split(':')[0]);
        expect(whole.part).toEqual({
          left: 0,
          top: 0,
          width: wanted.width / DENSITY,
          height: wanted.height / DENSITY,
        });
        const part = await sight.look({ ...order, part: { left: 3.1, top: 2.2, width: 9, height: 7 } });
        expect(part.part).toEqual({ left: 3, top: 2, width: 9.25, height: 7.25 });
        expect(isSame(part.frame, cut(wanted, 12, 8, 37, 29))).toBe(true);
      },
    );
  },
);

it('has the same bytes for any number of threads, masks and coarser densities with it', async () => {
  const order = orderOf({
    layout: parseLayout('drop:1/2'),
    steps: stepsOf({ mask: { picture: 'grey' } }),
    masks: [GREY],
    density: 1.3,
  });
  const part = { left: -30, top: 5, width: 60, height: 40 };
  const seen: Frame[][] = [];
  for (const size of [1, 3]) {
    const own = new Crew(size);
    const sight = new Sight({ crew: own });
    seen.push([(await sight.look(order)).frame, (await sight.look({ ...order, part })).frame]);
    await own.close();
  }
  expect(isSame(seen[0][0], seen[1][0])).toBe(true);
  expect(isSame(seen[0][1], seen[1][1])).toBe(true);
  expect(new Set(seen[0][0].pixels).size).toBeGreaterThan(20);
});

it('a coarser part is cut from the coarser whole', async () => {
  const sight = new Sight({ crew });
  const order = orderOf({ steps: stepsOf({ mask: { picture: 'grey' } }), masks: [GREY], density: 1.5 });
  const whole = await sight.look(order);
  const mean = GREY.samples.reduce((sum, value) => sum + value, 0) / GREY.samples.length / 255;
  expect(whole.laidOn[0]).toBeCloseTo(mean, 1);
  expect([whole.frame.width, whole.frame.height]).toEqual([36, 30]);
  const part = await sight.look({ ...order, part: { left: 4, top: 4, width: 8, height: 8 } });
  expect(isSame(part.frame, cut(whole.frame, 6, 6, 12, 12))).toBe(true);
});

it('looks at a tile of 16 bit in 8', async () => {
  const deep = sharedSamples(TILE.pixels.length, 16);
  for (let k = 0; k < deep.length; k++) deep[k] = TILE.pixels[k] * 257;
  const artwork = openSightArtwork({ ...TILE, pixels: deep });
  const { frame } = await new Sight({ crew }).look(orderOf({ artwork }));
  expect(isSame(frame, TILE)).toBe(true);
});

it('is no finer than print or the tile, and says so', async () => {
  const sight = new Sight({ crew });
  const part = { left: 0, top: 0, width: 2, height: 2 };
  const near = await sight.look(orderOf({ density: 40, part }));
  expect(near.isCoarse).toBe(true);
  expect(near.frame.width).toBe(Math.ceil((2 * 300) / 25.4 - 0.01));
  const far = await sight.look(orderOf({ size: { width: 2400, height: 2000 }, density: 1 }));
  expect(far.isCoarse).toBe(true);
  expect(far.frame.width * far.frame.height).toBeLessThan(2.6e6);
});

describe('what was made', () => {
  it('serves other opacities, blends, papers, masks and orders without painting', async () => {
    const sight = new Sight({ crew });
    const part = { left: 1, top: 1, width: 12, height: 9 };
    const other = { seed: '2' };
    for (const place of [undefined, part]) {
      const before = sight.counts;
      const look = (...steps: Partial<RecipeStep>[]) =>
        sight.look(orderOf({ part: place, steps: stepsOf(...steps), masks: [GREY] }));
      await look({ seed: '1' }, other);
      const made = sight.counts;
      expect(made.painted).toBe(before.painted + 2);
      await look({ seed: '1', opacity: 0.3, blend: 'multiply', paper: '#eeddcc' }, other);
      await look({ seed: '1', mask: { colours: ['#c8b43c'], tolerance: 9 } }, other);
      await look({ seed: '1', mask: { picture: 'grey' } }, other);
      await look(other, { seed: '1' });
      expect(sight.counts).toEqual({ ...made, served: made.served + 8 });
    }
    const { painted } = sight.counts;
    const inside = { left: 3, top: 2, width: 4, height: 5 };
    const order = orderOf({ part: inside, steps: stepsOf({ seed: '1' }, other) });
    const fresh = await new Sight({ crew }).look(order);
    expect(isSame((await sight.look(order)).frame, fresh.frame)).toBe(true);
    expect(sight.counts.painted).toBe(painted);
  });

  it.each(['straight', 'mirror-xy'])('softens artwork for paint that runs once: %s', async (name) => {
    const sight = new Sight({ crew });
    const runs = { effect: 'runs' };
    const part = { left: 1, top: 1, width: 12, height: 9 };
    const artwork = openSightArtwork(TILE);
    for (const place of [undefined, part])
      for (const follow of ['artwork', 'cloth'] as const) {
        // Where a reflected tile is unfolded first, it is softened each time.
        if (name !== 'straight' && !place && follow === 'cloth') continue;
        const lookAt = (where: Sight, opacity: number) =>
          where.look(
            orderOf({
              artwork,
              layout: parseLayout(name),
              follow,
              part: place,
              steps: stepsOf({ ...runs, opacity }, { ...runs, seed: '3' }),
            }),
          );
        const first = await lookAt(sight, 0.4);
        if (!place) expect(first.frame.width).toBe(name === 'straight' ? 96 : 192);
        const { softened } = sight.counts;
        const again = await lookAt(sight, 0.9);
        expect(isSame(again.frame, (await lookAt(new Sight({ crew }), 0.9)).frame)).toBe(true);
        expect(sight.counts.softened).toBe(softened);
      }
    expect(sight.counts.softened).toBeGreaterThan(0);
  });

  it('is let go when there is no more room, the oldest first', async () => {
    const sight = new Sight({ crew, megabytes: 1 });
    const look = (seed: string) => sight.look(orderOf({ steps: stepsOf({ seed }) }));
    for (const seed of ['1', '2', '3', '4', '5', '6']) await look(seed);
    const { painted } = sight.counts;
    expect(painted).toBe(6);
    await look('6');
    expect(sight.counts.painted).toBe(painted);
    await look('1');
    expect(sight.counts.painted).toBe(painted + 1);
  });
});

describe('a look that is given up', () => {
  const slow = { parameters: { work: 30_000 } };

  it('ends at once and leaves the thread warm for the next', async () => {
    const own = new Crew(1);
    const sight = new Sight({ crew: own });
    try {
      await sight.look(orderOf({ steps: stepsOf({}) }));
      const stop = new AbortController();
      const old = sight.look(orderOf({ steps: stepsOf(slow) }), stop.signal);
      setTimeout(() => stop.abort(), 50);
      await expect(old).rejects.toMatchObject({ kind: 'cancelled' });
      const { reports } = await sight.look(orderOf({ steps: stepsOf({ parameters: { height: 1 } }) }));
      // The third time that this thread was asked: a new one would say 1.
      expect(reports[0]).toEqual([{ name: 'asked', value: 3 }]);
    } finally {
      await own.close();
    }
  });

  it('does not hold up the next where its effect says nothing', async () => {
    const own = new Crew(1);
    const sight = new Sight({ crew: own });
    try {
      const stop = new AbortController();
      const silent = { parameters: { work: 30_000, isSilent: true } };
      const old = sight.look(orderOf({ steps: stepsOf(silent) }), stop.signal);
      setTimeout(() => stop.abort(), 50);
      await expect(old).rejects.toMatchObject({ kind: 'cancelled' });
      const seen = await sight.look(orderOf({ steps: stepsOf({}) }));
      expect(seen.reports[0]).toEqual([{ name: 'asked', value: 1 }]);
    } finally {
      await own.close();
    }
  });

  it('does not take away what the next one wants as well', async () => {
    const sight = new Sight({ crew });
    const dear = { parameters: { work: 600 } };
    const stop = new AbortController();
    const old = sight.look(orderOf({ steps: stepsOf({ seed: '1' }, { ...dear, seed: '9' }) }), stop.signal);
    setTimeout(() => stop.abort(), 50);
    await expect(old).rejects.toMatchObject({ kind: 'cancelled' });
    await sight.look(orderOf({ steps: stepsOf({ seed: '2' }, { ...dear, seed: '9' }) }));
    expect(sight.counts.made).toBe(3);
  });

  it('is given up before it began, too', async () => {
    await expect(new Sight({ crew }).look(orderOf(), AbortSignal.abort())).rejects.toMatchObject({
      kind: 'cancelled',
    });
  });
});
