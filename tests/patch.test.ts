/** A patch of the plane holds the pixels that a whole render has there, through both in this thread. */
import { describe, expect, it } from 'vitest';
import type { Frame } from '../src/colour/frame.ts';
import type { AnyEffect, AnyLayer, Band, PlaneName, ReadablePlane } from '../src/effect/index.ts';
import { openSetting } from '../src/effect/setting.ts';
import type { Follow } from '../src/render/follow.ts';
import {
  gatherOrder,
  plainFrame,
  type RenderCrew,
  type RenderStep,
  renderPatch,
  renderTile,
  runGather,
  runPass,
  type StepMask,
} from '../src/render/index.ts';
import { runSoften, softenOrders } from '../src/render/soften.ts';
import { boxPixelFinder, tilePixelFinder } from '../src/repeat/fold.ts';
import { fitGrid, type Grid } from '../src/repeat/grid.ts';
import { type Lattice, modulo } from '../src/repeat/lattice.ts';
import { isReflected, parseLayout } from '../src/repeat/layout.ts';
import type { Patch } from '../src/repeat/patch.ts';

type Model = { readonly lattice: Lattice; readonly turn: number };

/** Waves that close over a lattice, to the bit wherever they are asked. */
function waveAt({ ax, ay, bx, by }: Lattice, x: number, y: number, turn: number): number {
  const turnsAt = (m: number, n: number) => {
    const turns = ((m * by - n * ay) * x + (n * ax - m * bx) * y) / (ax * by - ay * bx);
    return modulo(Math.round(turns * 1e9), 1e9) / 1e9;
  };
  return Math.sin(2 * Math.PI * (turnsAt(3, 2) + turn)) * Math.cos(2 * Math.PI * (turnsAt(-1, 3) - turn));
}

function effectOf(name: string, planes: PlaneName[], turn: number, reads?: ReadablePlane[]): AnyEffect {
  const effect = {
    apiVersion: 2,
    name,
    version: '1.0.0',
    summary: 'Waves.',
    parameters: {},
    planes,
    reads,
    prepare: ({ box }: { box: { lattice: Lattice } }): Model => ({ lattice: box.lattice, turn }),
    paint(model: Model, band: Band, layer: AnyLayer, read?: AnyLayer) {
      for (let k = 0; k < band.width * band.height; k++) {
        const x = (band.x + (k % band.width) + 0.5) * band.mmPerPixelX;
        const y = (band.y + Math.floor(k / band.width) + 0.5) * band.mmPerPixelY;
        const wave = waveAt(model.lattice, x, y, model.turn);
        const seen = (read?.relief?.[k] ?? 0) + (read?.load?.[k] ?? 1) - 1 + (read?.tint?.[4 * k + 3] ?? 0);
        if (layer.relief) layer.relief[k] = 0.06 * wave + 0.3 * seen;
        if (layer.shade) layer.shade[k] = 1 - 0.1 * wave;
        if (layer.load) layer.load[k] = 1 + 0.4 * wave + 2 * seen;
        if (layer.shift) layer.shift[2 * k] = 0.5 * wave;
        if (layer.bleed) layer.bleed[k] = 0.2 * (1 + wave);
        if (layer.tint) layer.tint.set([0.8, 0.3, 0.2, 0.4 + 0.3 * wave], 4 * k);
      }
    },
  };
  return effect as unknown as AnyEffect;
}

const EFFECTS: Readonly<Record<string, AnyEffect>> = {
  raised: effectOf('raised', ['relief'], 0),
  veil: effectOf('veil', ['tint', 'load'], 0.6),
  reader: effectOf('reader', ['load'], 0.1, ['relief', 'load', 'tint']),
  raisedReader: effectOf('raised-reader', ['relief'], 0.3, ['relief', 'shade']),
  mover: effectOf('mover', ['shift', 'load'], 0.4, ['relief']),
  runner: effectOf('runner', ['bleed', 'load'], 0.4),
};

/** Everything in this thread. */
const CREW: RenderCrew = {
  prepare: async (orders) =>
    orders.map(({ effect: { name, seed }, box }) => {
      const effect = EFFECTS[name];
      const { setting } = openSetting(effect, { box, seed });
      return {
        model: effect.prepare(setting),
        planes: effect.planes,
        reads: effect.reads ?? [],
        reports: [],
      };
    }),
  async runPass(pass) {
    for (const order of softenOrders(pass)) runSoften(order, () => false);
    const watch = {
      call: <T>(_step: number, paint: () => T) => paint(),
      isStopped: () => false,
      onRows: () => {},
    };
    const effects = pass.steps.map(({ name }) => EFFECTS[name]);
    const cut = { ...pass, bandRows: pass.patches ? 9 : pass.bandRows };
    return (await Promise.all([1, 2].map(() => runPass(cut, effects, watch))))[0];
  },
};

function stepsOf(names: readonly string[], mask?: StepMask): RenderStep[] {
  return names.map((name, index) => {
    const { planes, reads, version } = EFFECTS[name];
    return {
      effect: name,
      version,
      declares: { planes, reads },
      order: { name, version, moduleUrl: name, parameters: {}, seed: '1' },
      blend: 'normal',
      opacity: 0.8,
      paper: '#ffffff',
      mask: index === 0 ? mask : undefined,
    };
  });
}

/** Blots of colours, and a grey picture of the same size, neither of them alike anywhere. */
function drawTile({ tileWidth: width, tileHeight: height }: Grid): { tile: Frame; grey: Uint8Array } {
  const tile = plainFrame(width, height, '#608098');
  const grey = new Uint8Array(new SharedArrayBuffer(width * height));
  for (let k = 0; k < width * height; k++) {
    const [x, y] = [k % width, Math.floor(k / width)];
    if ((x * x + 3 * x * y) % 29 < 11) tile.pixels.set([200 - (y % 50), 180, 60 + (x % 40), 255], 4 * k);
    grey[k] = (x * 7 + y * y * 3) % 256;
  }
  return { tile, grey };
}

interface Wish {
  readonly layout: string;
  readonly follow: Follow;
  readonly names: readonly string[];
  readonly mask?: StepMask;
  readonly patch: Patch;
}

/** The patch, and what a whole render has in its place. */
async function both({ layout, follow, names, mask, patch }: Wish) {
  const grid = fitGrid({ layout: parseLayout(layout), width: 9, height: 7 }, 8);
  const { tile, grey } = drawTile(grid);
  const steps = stepsOf(names, mask);
  const masks = steps.map(({ mask }) => (mask?.picture ? grey : undefined));
  const gather = (pixels: Uint8Array | Uint16Array, channels: 1 | 4, part: Patch) => {
    const order = gatherOrder({ pixels, width: tile.width, height: tile.height, channels }, grid, part);
    runGather(order, () => false);
    return order.to;
  };
  const seen = await renderPatch(
    { grid, steps, follow, patch },
    {
      crew: CREW,
      gather: async (part) => ({ ...part, pixels: gather(tile.pixels, 4, part) }),
      gatherMask: async (step, part) => masks[step] && (gather(masks[step], 1, part) as Uint8Array),
    },
  );
  const whole = await renderTile(
    { grid, tile: { ...tile, pixels: tile.pixels.slice() }, steps, follow },
    { crew: CREW, masks },
  );
  const isTile = whole.frame.width === grid.tileWidth && whole.frame.height === grid.tileHeight;
  const find = isTile ? tilePixelFinder(grid) : boxPixelFinder(grid);
  const wanted = new Uint8Array(4 * patch.width * patch.height);
  for (let k = 0; k < patch.width * patch.height; k++) {
    const from = 4 * find(patch.x + (k % patch.width), patch.y + Math.floor(k / patch.width));
    wanted.set(whole.frame.pixels.subarray(from, from + 4), 4 * k);
  }
  return { seen, wanted, tile };
}

const LAYOUTS = [
  'straight',
  'drop:1/2',
  'drop:1/3',
  'drop:2/5',
  'brick:1/2',
  'brick:2/5',
  'mirror-x',
  'mirror-y',
  'mirror-xy',
  'turn',
];
const PATCHES: readonly Patch[] = [
  { x: 11, y: 9, width: 40, height: 30 },
  { x: -130, y: 61, width: 110, height: 23 },
];
const MASKS: readonly (StepMask | undefined)[] = [
  { colours: ['#c8b43c'], tolerance: 3 },
  { picture: 'grey', spare: true },
];
const STACKS = [
  ['veil'],
  ['raised', 'reader'],
  ['raised', 'raisedReader'],
  ['raised', 'mover', 'raisedReader'],
  ['veil', 'raisedReader', 'mover', 'reader'],
];

describe.each(LAYOUTS)('a patch of %s', (layout) => {
  const follows: Follow[] = isReflected(parseLayout(layout)) ? ['cloth', 'artwork'] : ['cloth'];
  it.each(STACKS.map((names) => [names.join(', '), names] as const))(
    'has what the whole has: %s',
    async (_, names) => {
      for (const follow of follows)
        for (const [index, patch] of PATCHES.entries()) {
          const { seen, wanted } = await both({ layout, follow, names, mask: MASKS[index], patch });
          expect(new Set(wanted).size).toBeGreaterThan(20);
          expect(Buffer.compare(seen.frame.pixels as Uint8Array, wanted)).toBe(0);
        }
    },
    60_000,
  );

  it('without steps is the artwork itself, as it is', async () => {
    const { seen, wanted } = await both({ layout, follow: 'cloth', names: [], patch: PATCHES[1] });
    expect(Buffer.compare(seen.frame.pixels as Uint8Array, wanted)).toBe(0);
  });

  it('lets paint run to where it runs in the whole, but for the rounding of softer levels', async () => {
    const { seen, wanted } = await both({
      layout,
      follow: 'cloth',
      names: ['veil', 'runner'],
      patch: PATCHES[0],
    });
    const off = wanted.map((value, k) => Math.abs(value - seen.frame.pixels[k]));
    expect(off.reduce((sum, value) => sum + value, 0) / off.length).toBeLessThan(2);
  });
});

it('says the share that a mask let through of the patch', async () => {
  const wish = { layout: 'straight', follow: 'cloth', names: ['veil'], mask: MASKS[0] } as const;
  const { seen, tile } = await both({ ...wish, patch: { x: 0, y: 0, width: 72, height: 56 } });
  expect([tile.width, tile.height]).toEqual([72, 56]);
  const half = await both({ ...wish, patch: { x: 0, y: 0, width: 72, height: 112 } });
  expect(seen.laidOn[0]).toBeGreaterThan(0.1);
  expect(half.seen.laidOn[0]).toBeCloseTo(seen.laidOn[0]!, 9);
});
