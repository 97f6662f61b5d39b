/** Raised surfaces and effects that read, through a whole render in this thread. */
import { describe, expect, it } from 'vitest';
import {
  DEFAULT_LIGHT,
  type Light,
  layLayer,
  lightRelief,
  openLight,
  readBand,
  writeBand,
} from '../src/composite/index.ts';
import {
  type AnyEffect,
  type AnyLayer,
  type Band,
  neutralLayer,
  type PlaneName,
  type ReadablePlane,
} from '../src/effect/index.ts';
import { openSetting } from '../src/effect/setting.ts';
import type { Follow } from '../src/render/follow.ts';
import type { LayerPlace, PassOrder, RenderStep, StepMask, TextureKeeper } from '../src/render/index.ts';
import { openPlanes, plainFrame, renderTile, runPass } from '../src/render/index.ts';
import { boxPixelFinder } from '../src/repeat/fold.ts';
import { fitGrid } from '../src/repeat/grid.ts';
import { type Lattice, latticeOf } from '../src/repeat/lattice.ts';
import { isReflected, parseLayout } from '../src/repeat/layout.ts';
import { unfold } from '../src/repeat/unfold.ts';

/** Two waves that close over a lattice: whole turns along both of its vectors. */
function waveAt({ ax, ay, bx, by }: Lattice, x: number, y: number, turn: number): number {
  const turnsAt = (m: number, n: number) => {
    const turns = ((m * by - n * ay) * x + (n * ax - m * bx) * y) / (ax * by - ay * bx);
    return Math.round((turns - Math.floor(turns)) * 1e9) / 1e9;
  };
  return Math.sin(2 * Math.PI * (turnsAt(3, 2) + turn)) * Math.cos(2 * Math.PI * (turnsAt(-1, 3) - turn));
}

type Model = { lattice: Lattice; turn: number };

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
        const seen =
          (read?.relief?.[k] ?? 0) +
          (read?.load?.[k] ?? 1) -
          1 +
          (read?.shade?.[k] ?? 1) -
          1 +
          (read?.tint?.[4 * k + 3] ?? 0);
        if (layer.relief) layer.relief[k] = 0.06 * wave + 0.3 * seen;
        if (layer.shade) layer.shade[k] = 1 - 0.1 * wave;
        if (layer.load) layer.load[k] = 1 + 0.4 * wave + 2 * seen;
        if (layer.shift) layer.shift[2 * k] = 0.3 * wave;
        if (layer.tint) layer.tint.set([0.8, 0.3, 0.2, 0.4 + 0.3 * wave], 4 * k);
      }
    },
  };
  return effect as unknown as AnyEffect;
}

const EFFECTS = {
  raised: effectOf('raised', ['relief'], 0),
  both: effectOf('both', ['relief', 'shade'], 0.2),
  veil: effectOf('veil', ['tint', 'load'], 0.6),
  reader: effectOf('reader', ['load'], 0.1, ['relief', 'load', 'tint']),
  raisedReader: effectOf('raised-reader', ['relief'], 0.3, ['relief', 'shade']),
  mover: effectOf('mover', ['shift', 'load'], 0.4, ['relief']),
} as const;
type Name = keyof typeof EFFECTS;

interface Wish {
  readonly layout?: string;
  readonly follow?: Follow;
  readonly light?: Light;
  readonly opacity?: number;
  readonly mask?: StepMask;
  readonly bandRows?: number;
  readonly workers?: number;
  readonly size?: readonly [number, number];
  readonly textures?: TextureKeeper;
}

/** The artwork: a yellow corner on blue. */
function plainOf(width: number, height: number, pixel: number): Uint8Array {
  const isCorner = pixel % width < width / 3 && Math.floor(pixel / width) < height / 2;
  return Uint8Array.from(isCorner ? [200, 180, 60, 255] : [96, 128, 152, 255]);
}

async function render(names: readonly Name[], wish: Wish = {}) {
  const {
    layout = 'straight',
    size = [7, 5.2],
    follow = 'cloth',
    light,
    bandRows,
    workers = 1,
    textures,
  } = wish;
  const grid = fitGrid({ layout: parseLayout(layout), width: size[0], height: size[1] }, 8);
  const steps = names.map((name, index): RenderStep => {
    const { planes, reads, version } = EFFECTS[name];
    return {
      effect: name,
      version,
      declares: { planes, reads },
      order: { name, version, moduleUrl: name, parameters: {}, seed: String(index) },
      blend: 'normal',
      opacity: wish.opacity ?? 1,
      paper: '#ffffff',
      mask: index === 0 ? wish.mask : undefined,
    };
  });
  const tile = plainFrame(grid.tileWidth, grid.tileHeight, '#608098');
  for (let row = 0; row < tile.height / 2; row++)
    for (let k = 0; k < tile.width / 3; k++) tile.pixels.set([200, 180, 60, 255], 4 * (row * tile.width + k));
  const effectOfOrder = (name: string) => EFFECTS[name as Name];
  return renderTile(
    { grid, tile, steps, follow, light },
    {
      crew: {
        prepare: async (orders) =>
          orders.map(({ effect: { name, seed }, box }) => {
            const { setting } = openSetting(effectOfOrder(name), { box, seed });
            const { planes, reads = [] } = effectOfOrder(name);
            return { model: effectOfOrder(name).prepare(setting), planes, reads, reports: [] };
          }),
        async runPass(pass) {
          const cut: PassOrder = { ...pass, bandRows: bandRows ?? pass.bandRows };
          const effects = cut.steps.map(({ name }) => effectOfOrder(name));
          const watch = {
            call: <T>(_step: number, paint: () => T) => paint(),
            isStopped: () => false,
            onRows: () => {},
          };
          const ran = await Promise.all(Array.from({ length: workers }, () => runPass(cut, effects, watch)));
          return ran[0];
        },
      },
      masks: steps.map(() => undefined),
      memory: { textures },
    },
  );
}

const STACKS: readonly (readonly Name[])[] = [
  ['raised'],
  ['both', 'raised'],
  ['raised', 'reader'],
  ['both', 'veil', 'raisedReader', 'reader'],
  ['veil', 'raisedReader', 'raisedReader', 'reader'],
  ['raised', 'mover', 'reader'],
  ['raised', 'raisedReader', 'mover', 'raisedReader'],
];
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

describe.each(LAYOUTS)('%s', (layout) => {
  it.each(STACKS.map((stack) => [stack.join(', '), stack] as const))(
    '%s: the same bytes for any cut',
    async (_, stack) => {
      for (const follow of isReflected(parseLayout(layout))
        ? (['cloth', 'artwork'] as const)
        : (['cloth'] as const)) {
        const mask = { colours: ['#c8b43c'], tolerance: 3 };
        const whole = await render(stack, { layout, follow, mask, opacity: 0.7, bandRows: 10_000 });
        expect(new Set(whole.frame.pixels).size).toBeGreaterThan(20);
        for (const bandRows of [1, 7]) {
          const cut = await render(stack, { layout, follow, mask, opacity: 0.7, bandRows, workers: 3 });
          expect(cut.frame.pixels).toEqual(whole.frame.pixels);
          expect(cut.laidOn).toEqual(whole.laidOn);
        }
      }
    },
  );
});

describe('light', () => {
  const light = (direction: number): Light => ({ direction, elevation: 30, gloss: 0.3 });
  it('comes from where the recipe says, for every step', async () => {
    const [left, right] = [
      await render(['raised', 'both'], { light: light(180) }),
      await render(['raised', 'both'], { light: light(0) }),
    ];
    expect(left.frame.pixels).not.toEqual(right.frame.pixels);
  });
  it('leaves level ground as it is', async () => {
    const { frame } = await render(['raised'], { opacity: 0, light: light(90) });
    expect(new Set(frame.pixels)).toEqual(new Set([0x60, 0x80, 0x98, 255, 200, 180, 60]));
  });
  it.each(['mirror-x', 'mirror-xy', 'turn'])('does not mirror with an artwork at %s', async (layout) => {
    const { frame: made } = await render(['raised'], { layout, follow: 'artwork', light: light(180) });
    const grid = fitGrid({ layout: parseLayout(layout), width: 7, height: 5.2 }, 8);
    expect([made.width, made.height]).toEqual([grid.width, grid.height]);
    const tile = new Uint8Array(grid.tileWidth * grid.tileHeight * 4);
    for (let row = 0; row < grid.tileHeight; row++) {
      for (let k = 0; k < grid.tileWidth * 4; k++)
        tile[row * grid.tileWidth * 4 + k] = made.pixels[row * grid.width * 4 + k];
    }
    const mirrored = unfold(
      parseLayout(layout),
      tile,
      grid.tileWidth,
      grid.tileHeight,
      4,
      new Uint8Array(made.pixels.length),
    );
    // The mean light is the same in both halves; where the flanks lie is not.
    expect(mirrored).not.toEqual(Uint8Array.from(made.pixels));
    // Lit from the other side, the left half is what the right half was, turned over.
    if (layout !== 'mirror-x') return;
    const other = await render(['raised'], { layout, follow: 'artwork', light: light(0) });
    for (let row = 0; row < made.height; row++) {
      for (let column = 0; column < made.width; column++) {
        const [here, there] = [
          4 * (row * made.width + column),
          4 * (row * made.width + made.width - 1 - column),
        ];
        expect(Math.abs(made.pixels[here] - other.frame.pixels[there])).toBeLessThanOrEqual(1);
      }
    }
  });
  it.each(['straight', 'drop:1/3', 'drop:2/5', 'brick:1/2', 'brick:2/5'])(
    'runs on across the edges of the box at %s',
    async (layout) => {
      const { frame, grid } = await render(['raised'], {
        layout,
        mask: { colours: ['#123456'], spare: true },
      });
      const { mmPerPixelX, mmPerPixelY, lattice } = grid;
      const opened = openLight(DEFAULT_LIGHT, mmPerPixelX, mmPerPixelY);
      const [side, margin] = [50, opened.margin];
      const around = {
        x: -25 - margin,
        y: -25 - margin,
        width: side + 2 * margin,
        height: side + 2 * margin,
      };
      const { relief } = neutralLayer(['relief'], around.width, around.height);
      const shade = new Float32Array(side * side).fill(1);
      const model = { lattice: latticeOf(parseLayout(layout), grid.box.width, grid.box.height), turn: 0 };
      EFFECTS.raised.paint(model, { ...around, mmPerPixelX, mmPerPixelY }, { relief } as never);
      lightRelief(relief!, side, side, opened, shade);
      const find = boxPixelFinder(grid);
      expect(lattice.ax).toBe(grid.width);
      for (let k = 0; k < side * side; k++) {
        const pixel = find(-25 + (k % side), -25 + Math.floor(k / side));
        const own = plainOf(frame.width, frame.height, pixel);
        const working = readBand(own, 0, 1, new Float32Array(4));
        layLayer(
          working,
          { width: 1, height: 1, shade: shade.subarray(k, k + 1) },
          { blend: 'normal', paper: [1, 1, 1], strength: 1 },
        );
        writeBand(working, 1, own, 0);
        expect([...frame.pixels.subarray(4 * pixel, 4 * pixel + 4)]).toEqual([...own]);
      }
    },
  );
});

describe('what a step reads', () => {
  it('is neutral where nothing is below', async () => {
    const [alone] = [await render(['reader'])];
    const again = await render(['reader', 'raised'], {});
    expect(alone.frame.pixels).not.toEqual(again.frame.pixels);
    const over = await render(['raised', 'reader']);
    const under = await render(['reader', 'raised']);
    expect(over.frame.pixels).not.toEqual(under.frame.pixels);
  });
  it('is the same in one pass as after a step that moves paint', async () => {
    const seen: Float32Array[] = [];
    const spy = EFFECTS.reader as unknown as { paint: AnyEffect['paint'] };
    const { paint } = spy;
    spy.paint = (model, band, layer, below) => {
      seen.push(Float32Array.from(below!.relief!));
      return paint(model, band, layer, below);
    };
    try {
      await render(['both', 'raised', 'reader'], { bandRows: 1000, opacity: 0.5 });
      await render(['both', 'raised', 'mover', 'reader'], { bandRows: 1000, opacity: 0.5 });
    } finally {
      spy.paint = paint;
    }
    expect(seen).toHaveLength(2);
    expect(seen[1]).toEqual(seen[0]);
    expect(Math.max(...seen[0])).toBeGreaterThan(0.03);
  });
});

describe('kept layers', () => {
  function keeper(): TextureKeeper & { readonly places: LayerPlace[] } {
    const places: LayerPlace[] = [];
    const kept = new Map<string, { planes: ReturnType<typeof openPlanes>; isPainted: boolean }>();
    return {
      places,
      findPrepared: () => undefined,
      keepPrepared: () => {},
      async lendLayer(place) {
        places.push(place);
        const key = JSON.stringify([place.order, place.light, place.keepsRelief, place.follows]);
        const found = kept.get(key) ?? {
          planes: openPlanes(place, (bytes) => new SharedArrayBuffer(bytes)),
          isPainted: false,
        };
        kept.set(key, found);
        return { ...found, end: (isPainted) => void kept.set(key, { ...found, isPainted }) };
      },
    };
  }
  it.each(STACKS.map((stack) => [stack.join(', '), stack] as const))(
    '%s: give the same bytes',
    async (_, stack) => {
      for (const [layout, follow] of [
        ['drop:2/5', 'cloth'],
        ['turn', 'artwork'],
        ['mirror-xy', 'artwork'],
      ] as const) {
        const textures = keeper();
        const plain = await render(stack, { layout, follow, opacity: 0.8 });
        for (let time = 0; time < 2; time++) {
          const made = await render(stack, { layout, follow, opacity: 0.8, textures, bandRows: 9 });
          expect(made.frame.pixels).toEqual(plain.frame.pixels);
        }
      }
    },
  );
  it('hold the light on a relief, and the relief only for those who read it', async () => {
    const textures = keeper();
    await render(['raised'], { textures });
    await render(['raised', 'reader'], { textures });
    expect(textures.places.map(({ planes }) => planes)).toEqual([['shade'], ['relief', 'shade']]);
    expect(textures.places.every(({ light }) => light !== undefined)).toBe(true);
  });
});
