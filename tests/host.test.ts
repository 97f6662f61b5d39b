import { execFile, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { API_VERSION } from '../src/effect/index.ts';
import {
  Crew,
  openShelf,
  plainFrame,
  presetSchema,
  recipeSchema,
  renderOnCrew,
  resolveSteps,
  type Shelf,
} from '../src/host/index.ts';
import { publishedSchemas } from '../src/host/plugins/schemas.ts';
import { gridOfPixels, parseLayout } from '../src/repeat/index.ts';

const root = new URL('..', import.meta.url).pathname;
const command = join(root, 'dist/cli/main.js');
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-test-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A plugin with all planes; it shifts, lets run and counts on nothing but its arguments. */
const WAVES = `
import { defineEffect, numeric } from 'tenter';
export default defineEffect({
  apiVersion: ${API_VERSION}, name: 'waves', version: '1.0.0', summary: 'Waves.',
  parameters: { height: numeric({ unit: 'mm', min: 0, max: 5, default: 0.4, help: 'How far.' }) },
  planes: ['load', 'tint', 'shade', 'shift', 'bleed'],
  prepare: ({ box, parameters }) => ({ width: box.width, height: box.height, reach: parameters.height }),
  paint(model, band, layer) {
    for (let row = 0, k = 0; row < band.height; row++) for (let column = 0; column < band.width; column++, k++) {
      const x = ((band.x + column + 0.5) * band.mmPerPixelX * 2 * Math.PI) / model.width;
      const y = ((band.y + row + 0.5) * band.mmPerPixelY * 2 * Math.PI) / model.height;
      layer.load[k] = 1 + 0.5 * Math.sin(x); layer.shade[k] = 1 + 0.2 * Math.sin(y);
      layer.tint.set([1, 0, 0, 0.2 + 0.1 * Math.sin(x + y)], k * 4);
      layer.bleed[k] = 0.3 * (1 + Math.sin(x));
      layer.shift[2 * k] = model.reach * Math.sin(y); layer.shift[2 * k + 1] = model.reach * Math.cos(x);
    }
  },
});`;

/** A plugin that lets paint run, everywhere alike. */
const RUN = `
import { defineEffect } from 'tenter';
export default defineEffect({
  apiVersion: ${API_VERSION}, name: 'run', version: '1.0.0', summary: 'Paint that runs.',
  parameters: {}, planes: ['bleed'], prepare: () => ({}),
  paint: (model, band, layer) => layer.bleed.fill(1.5),
});`;

/** A plugin that only moves paint, and says how well it was asked to work. */
const WASHED = `
import { defineEffect } from 'tenter';
export default defineEffect({
  apiVersion: ${API_VERSION}, name: 'washed', version: '1.0.0', summary: 'A thinned middle.',
  parameters: {}, planes: ['load'],
  prepare: ({ quality, report, box }) => { report({ name: 'quality', value: quality }); return { width: box.width }; },
  paint(model, band, layer) {
    for (let row = 0, k = 0; row < band.height; row++) for (let column = 0; column < band.width; column++, k++)
      layer.load[k] = 1 + Math.cos(((band.x + column + 0.5) * band.mmPerPixelX * 2 * Math.PI) / model.width);
  },
});`;

/** The test wrote these plugins itself. */
const TRUSTED = { consent: { trust: true } };

function run(args: string[]): Promise<{ code: number; out: string; err: string }> {
  return new Promise((resolve) => {
    execFile(process.execPath, [command, ...args], { cwd: folder }, (error, out, err) => {
      resolve({ code: error ? Number(error.code) : 0, out, err });
    });
  });
}

async function plugin(name: string, code: string): Promise<string> {
  const path = join(folder, `${name}.ts`);
  writeFileSync(path, code);
  return path;
}

async function checkedTile(path: string, width = 120, height = 96): Promise<string> {
  const samples = Buffer.alloc(width * height * 3);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const value = 150 + 60 * Math.sin((2 * Math.PI * x) / width) * Math.cos((4 * Math.PI * y) / height);
      samples.fill(Math.round(value), (y * width + x) * 3, (y * width + x) * 3 + 3);
    }
  }
  await sharp(samples, { raw: { width, height, channels: 3 } })
    .png()
    .toFile(path);
  return path;
}

describe('rendering with any number of workers', () => {
  // Hired once: to start a thread and to load an effect there takes longer than these renders.
  const crews = [1, 2, 4].map((workers) => new Crew(workers));
  let shelf: Shelf;
  beforeAll(async () => {
    shelf = await openShelf([await plugin('waves', WAVES)], TRUSTED);
  });
  afterAll(() => Promise.all(crews.map((crew) => crew.close())));

  it.each(['straight', 'drop:1/2', 'brick:1/3', 'mirror-xy', 'turn'])(
    'gives the same bytes over %s',
    async (text) => {
      const grid = gridOfPixels({ layout: parseLayout(text), width: 40, height: 32 }, 240, 192);
      const steps = resolveSteps(
        shelf,
        [
          { effect: 'linen-weave' },
          { effect: 'waves' },
          { effect: 'wood-grain', opacity: 0.5, mask: { colours: ['#c08040'] } },
        ],
        'seed',
      );
      for (const follow of ['cloth', 'artwork'] as const) {
        const pictures = [];
        for (const crew of crews) {
          const tile = plainFrame(240, 192, '#c08040');
          pictures.push((await renderOnCrew({ grid, tile, steps, follow }, { crew })).frame.pixels);
        }
        expect(Buffer.compare(Buffer.from(pictures[1]), Buffer.from(pictures[0]))).toBe(0);
        expect(Buffer.compare(Buffer.from(pictures[2]), Buffer.from(pictures[0]))).toBe(0);
        expect(new Set(pictures[0]).size).toBeGreaterThan(20);
      }
    },
  );
});

describe('rendering', () => {
  it('lets paint run where a layer bleeds, over each step before', async () => {
    const shelf = await openShelf([await plugin('run', RUN)], TRUSTED);
    const grid = gridOfPixels({ layout: parseLayout('drop:1/2'), width: 24, height: 24 }, 240, 240);
    // Stripes of 1.2 mm, which 1.5 mm of bleeding leaves no trace of.
    const striped = () => {
      const tile = plainFrame(240, 240, '#204060');
      for (let k = 0; k < 240 * 240; k++) if (k % 24 < 12) tile.pixels.set([200, 180, 160, 255], 4 * k);
      return tile;
    };
    const render = async (opacity: number, times = 1) => {
      const steps = resolveSteps(shelf, Array(times).fill({ effect: 'run', opacity }), '1');
      const { frame } = await renderOnCrew({ grid, tile: striped(), steps, follow: 'cloth' });
      const row = Array.from({ length: 24 }, (_, x) => frame.pixels[4 * (100 * 240 + 60 + x)]);
      return Math.max(...row) - Math.min(...row);
    };
    const [whole, half, twice] = [await render(1), await render(0.25), await render(0.25, 2)];
    expect(whole).toBeLessThan(6);
    expect(half).toBeGreaterThan(60);
    expect(twice).toBeLessThan(half - 10);
  });
  it('stops when asked, and says so', async () => {
    const shelf = await openShelf();
    const grid = gridOfPixels({ layout: parseLayout('straight'), width: 100, height: 100 }, 2000, 2000);
    const steps = resolveSteps(shelf, [{ effect: 'linen-weave' }], '1');
    const stopping = new AbortController();
    setTimeout(() => stopping.abort(), 150);
    const job = { grid, tile: plainFrame(2000, 2000, '#ffffff'), steps, follow: 'cloth' as const };
    await expect(renderOnCrew(job, { signal: stopping.signal })).rejects.toMatchObject({ kind: 'cancelled' });
  });
});

describe('plugins', () => {
  it('refuses two effects of one name and names both places', async () => {
    const first = await plugin('waves-a', WAVES);
    const second = await plugin('waves-b', WAVES);
    await expect(openShelf([first, second], TRUSTED)).rejects.toThrow(/waves-b.*waves-a/);
  });
  it('stamps a failure in paint', async () => {
    const shelf = await openShelf(
      [await plugin('bad-paint', WAVES.replace('for (let row', 'throw "ink"; for (let row'))],
      TRUSTED,
    );
    const grid = gridOfPixels({ layout: parseLayout('straight'), width: 10, height: 10 }, 20, 20);
    const steps = resolveSteps(shelf, [{ effect: 'waves' }], 'seven');
    const failing = renderOnCrew({ grid, tile: plainFrame(20, 20, '#ffffff'), steps, follow: 'cloth' });
    await expect(failing).rejects.toMatchObject({
      kind: 'effect',
      details: { effect: 'waves', stage: 'paint', seed: 'seven', parameters: { height: 0.4 } },
    });
  });
});

describe('numbers that are none', () => {
  it('are refused with the plane and the pixel, and nothing is written', async () => {
    const code = WAVES.replace(
      'layer.shade[k] = 1 + 0.2 * Math.sin(y);',
      'layer.shade[k] = 1 + model.hight * Math.sin(y);',
    );
    const path = await plugin('no-number', code.replace("name: 'waves'", "name: 'no-number'"));
    const { code: exit, err } = await run([
      'make',
      'no-number',
      '--plugins',
      path,
      '--trust',
      '--size',
      '12x6mm',
    ]);
    expect(exit).toBe(5);
    expect(err).toContain('NaN in the plane shade at pixel (0, 0)');
    expect(err).toContain('effect no-number 1.0.0');
    expect(existsSync(join(folder, 'no-number.png'))).toBe(false);
  });
});

describe('published schemas', () => {
  it('are those that the code checks by', () => {
    for (const [file, schema] of Object.entries(publishedSchemas())) {
      expect(JSON.parse(readFileSync(join(root, 'presets', file), 'utf8'))).toEqual(
        JSON.parse(JSON.stringify(schema)),
      );
    }
  });
  it('all recipes and presets keep them', async () => {
    for (const file of readdirSync(join(root, 'presets/recipes'))) {
      recipeSchema.parse(JSON.parse(readFileSync(join(root, 'presets/recipes', file), 'utf8')));
    }
    const { effects, faults } = await openShelf();
    expect(faults).toEqual([]);
    for (const { presets } of effects.values()) {
      expect(presets.length).toBeGreaterThanOrEqual(4);
      for (const { name, file: _, ...preset } of presets) presetSchema.parse(preset);
    }
  });
});

describe('the command', () => {
  it('lays, states the density, and its result closes', async () => {
    await checkedTile(join(folder, 'tile.png'));
    const { code, out } = await run([
      'lay',
      'linen-weave',
      'tile.png',
      '--size',
      '12x9.6mm',
      '--layout',
      'drop:1/2',
      '--json',
      '--out',
      'a/laid.png',
    ]);
    expect(code).toBe(0);
    const facts = JSON.parse(out);
    expect(facts.repeat.dpi.x).toBeCloseTo(254, 6);
    expect((await sharp(join(folder, 'a/laid.png')).metadata()).density).toBe(254);
    const again = await run([
      'lay',
      'linen-weave',
      'tile.png',
      '--size',
      '12x9.6mm',
      '--layout',
      'drop:1/2',
      '--out',
      'a/laid.png',
    ]);
    expect(again.code).toBe(4);
    expect(again.err).toContain('--overwrite');
  });
  it('makes a texture alone, 16 bit TIFF tiles stay 16 bit', async () => {
    expect((await run(['make', 'wood-grain', '--size', '30x20mm', '--out', 'wood.tif'])).code).toBe(0);
    const deep = new Uint16Array(64 * 64 * 3).map((_, k) => 30000 + ((k * 37) % 9000));
    await sharp(deep, { raw: { width: 64, height: 64, channels: 3 } })
      .toColourspace('rgb16')
      .png()
      .toFile(join(folder, 'deep.png'));
    expect(
      (await run(['lay', 'linen-weave', 'deep.png', '--size', '10x10mm', '--out', 'deep-laid.png'])).code,
    ).toBe(0);
    expect((await sharp(join(folder, 'deep-laid.png')).metadata()).depth).toBe('ushort');
  });
  it('makes moved paint on a wash of any colour, over any paper, as a sketch or finished', async () => {
    const path = await plugin('washed', WASHED);
    const make = async (...flags: string[]) => {
      const { out, err, code } = await run([
        'make',
        'washed',
        '--plugins',
        path,
        '--trust',
        '--size',
        '12x6mm',
        '--json',
        ...flags,
      ]);
      expect([code, err]).toEqual([0, '']);
      const facts = JSON.parse(out);
      return {
        facts,
        picture: await sharp(join(folder, facts.out)).raw().toBuffer({ resolveWithObject: true }),
      };
    };
    const plain = await make();
    expect(plain.facts.steps[0].reports).toEqual([{ name: 'quality', value: 'finished' }]);
    expect(plain.facts.quality).toBe('finished');
    const sketch = await make('--sketch', '--ground', '#804020', '--paper', '#f0e0d0');
    expect(sketch.facts.out).toBe('washed-sketch.png');
    expect(sketch.facts.steps[0].reports).toEqual([{ name: 'quality', value: 'sketch' }]);
    const { data, info } = sketch.picture;
    const middle = Math.floor(info.width / 2) * info.channels;
    expect([...data.subarray(middle, middle + 3)]).toEqual([0xf0, 0xe0, 0xd0]);
    const quarter = Math.floor(info.width / 4) * info.channels;
    expect(Math.abs(data[quarter] - 0x80)).toBeLessThan(8);
  });
  it('says nothing where its reader has gone, as in a pipe to head', async () => {
    const child = spawn(process.execPath, [command, 'lay', '--help'], { cwd: folder });
    child.stdout.destroy();
    let complaint = '';
    child.stderr.on('data', (text) => {
      complaint += text;
    });
    const [code] = await once(child, 'close');
    expect([code, complaint]).toEqual([0, '']);
  });
  it('check exits 0 where a picture closes and 1 where it was cropped', async () => {
    const tile = await checkedTile(join(folder, 'whole.png'));
    await sharp(tile)
      .extract({ left: 0, top: 0, width: 105, height: 96 })
      .toFile(join(folder, 'cropped.png'));
    expect((await run(['check', 'whole.png'])).code).toBe(0);
    expect((await run(['check', 'cropped.png', '--sheet', 'fault.png'])).code).toBe(1);
    expect(existsSync(join(folder, 'fault.png'))).toBe(true);
  });
  const wrong: [string[], number, string][] = [
    [['lay', 'linen-weav', 'whole.png'], 2, 'Did you mean "linen-weave"?'],
    [['lay', 'linen-weave', 'absent.png'], 3, 'no file of that name'],
    [['lay', 'linen-weave', 'whole.png', '--size', '10x8mm', '--set', 'ends=4000'], 2, 'per cm'],
    [['lay', 'linen-weave', 'whole.png', '--size', '10x8mm', '--set', 'ends=NaN'], 2, 'received "NaN"'],
    [['lay', 'linen-weave', 'whole.png', '--size', '10x8mm', '--set', 'end=4'], 2, 'Did you mean "ends"?'],
    [
      ['lay', 'linen-weave', 'whole.png', '--size', '10x8mm', '--preset', 'bed-shet'],
      2,
      'Did you mean "bed-sheet"?',
    ],
    [['lay', 'linen-weave', 'whole.png', '--size', '10x8mm', '--out', 'x.gif'], 4, '.png'],
    [
      ['lay', 'linen-weave', 'whole.png', '--size', '10x80mm', '--out', 'tall.png'],
      2,
      'in the shape of the tile',
    ],
    [['make', 'wood-grain', '--size', '640x640mm', '--dpi', '300'], 2, '299.9978 dpi'],
    [['make', 'wood-grain'], 2, '--size'],
    [['make', 'wood-grain', '--layout', 'diagonal', '--size', '10mm'], 2, 'drop:1/2'],
    [['weave'], 2, 'unknown command'],
  ];
  it.each(wrong)('%j ends with %i', async (args, code, words) => {
    await checkedTile(join(folder, 'whole.png'));
    const result = await run(args);
    expect(result.err).toContain(words);
    expect(result.code).toBe(code);
  });
  it('takes the nearest with --fit and says so', async () => {
    await checkedTile(join(folder, 'odd.png'), 120, 97);
    const refused = await run([
      'lay',
      'linen-weave',
      'odd.png',
      '--size',
      '12x9.7mm',
      '--layout',
      'drop:1/2',
      '--out',
      'odd-laid.png',
    ]);
    expect(refused.code).toBe(2);
    expect(refused.err).toContain('120 x 98 px');
    const fitted = await run([
      'lay',
      'linen-weave',
      'odd.png',
      '--size',
      '12x9.7mm',
      '--layout',
      'drop:1/2',
      '--out',
      'odd-laid.png',
      '--fit',
    ]);
    expect(fitted.code).toBe(0);
    expect(fitted.out).toContain('resampled from 120 x 97 to 120 x 98 px');
  });
});
