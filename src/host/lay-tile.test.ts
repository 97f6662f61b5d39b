import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sharedSamples } from '../colour/frame.ts';
import { readPicture, writePicture } from '../picture/index.ts';
import { parseLayout, STRAIGHT } from '../repeat/layout.ts';
import { layTile } from './lay-tile.ts';
import { resolveSteps } from './plugins/resolve-steps.ts';
import { openShelf, type Shelf } from './plugins/shelf.ts';

let folder: string;
let shelf: Shelf;
const size = { width: 40, height: 40 };

/** A flat tile; its left half is darker. */
async function write(name: string, side: number, dark: number): Promise<string> {
  const pixels = sharedSamples(4 * side * side, 8).map((_, k) =>
    k % 4 === 3 || (k / 4) % side >= side / 2 ? 255 : dark,
  );
  const path = join(folder, name);
  await writePicture(path, {
    pixels,
    width: side,
    height: side,
    bits: 8,
    pixelsPerMm: { x: side / 40, y: side / 40 },
  });
  return path;
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-lay-'));
  shelf = await openShelf();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const lightOf = (pixels: ArrayLike<number>, side: number, half: 'left' | 'right') => {
  const found: number[] = [];
  for (let k = 0; k < side * side; k++) {
    const x = k % side;
    // The edges between the halves are the resampler's own.
    const isInside = half === 'left' ? x > 4 && x < side / 2 - 4 : x > side / 2 + 4 && x < side - 4;
    if (isInside) found.push(pixels[4 * k]);
  }
  return { low: Math.min(...found), high: Math.max(...found) };
};

describe('a tile laid at another density', () => {
  it('is resampled, keeps its size and the scale of the texture, and takes its mask along', async () => {
    const tile = await write('tile.png', 80, 255);
    const mask = await write('mask.png', 80, 0);
    const steps = resolveSteps(shelf, [{ effect: 'linen-weave', mask: { picture: mask } }], '1');
    const out = join(folder, 'at.png');
    const report = await layTile({ tile, layout: STRAIGHT, size, at: 6, steps, out });
    expect(report.grid).toMatchObject({ tileWidth: 240, tileHeight: 240, repeat: size });
    expect(report.notes.join()).toContain('from 80 x 80 to 240 x 240 px, 152.4 dpi: enlarged 3 times');
    const { pixels } = await readPicture(out);
    // White cloth where the mask spares, a weave where it is white.
    expect(lightOf(pixels, 240, 'left')).toEqual({ low: 255, high: 255 });
    const laid = lightOf(pixels, 240, 'right');
    expect(laid.high - laid.low).toBeGreaterThan(20);

    const large = join(folder, 'large.png');
    const direct = await write('direct.png', 240, 255);
    const same = resolveSteps(shelf, [{ effect: 'linen-weave' }], '1');
    await layTile({ tile: direct, layout: STRAIGHT, size, steps: same, out: large });
    const whole = await readPicture(large);
    // The weave is that of a tile which had these pixels all along.
    for (let k = 0; k < 240 * 240; k++) {
      if (k % 240 > 124 && k % 240 < 236)
        expect(Math.abs(pixels[4 * k] - whole.pixels[4 * k])).toBeLessThan(2);
    }
  });

  it('says where the size came from', async () => {
    const tile = await write('stated.png', 80, 255);
    const steps = resolveSteps(shelf, [{ effect: 'linen-weave' }], '1');
    const from = async (name: string, clues: object) =>
      (await layTile({ tile, layout: STRAIGHT, steps, out: join(folder, name), ...clues })).sizeFrom;
    expect(await from('a.png', { size })).toBe('given');
    expect(await from('b.png', { density: 2 })).toBe('given density');
    expect(await from('c.png', {})).toBe('file');
  });
});

describe('what share of the tile a masked step was laid on', () => {
  const lay = async (name: string, mask: object, more: object = {}) => {
    const tile = await write(`${name}-tile.png`, 80, 60);
    const steps = resolveSteps(shelf, [{ effect: 'linen-weave', mask }, { effect: 'wood-grain' }], '1');
    const out = join(folder, `${name}.png`);
    return layTile({ tile, layout: STRAIGHT, size, steps, out, overwrite: true, ...more });
  };

  it('is counted over the whole frame, by colour and by picture, turned round or not', async () => {
    const picture = await write('half-mask.png', 80, 0);
    expect((await lay('colour', { colours: ['#3c3c3c'] })).laidOn).toEqual([0.5, undefined]);
    expect((await lay('spared', { colours: ['#3c3c3c'], spare: true })).laidOn).toEqual([0.5, undefined]);
    expect((await lay('picture', { picture })).laidOn).toEqual([0.5, undefined]);
    const grey = await write('grey-mask.png', 80, 51);
    expect((await lay('grey', { picture: grey })).laidOn[0]).toBeCloseTo(0.6, 4);
  });
  it.each(['straight', 'mirror-xy', 'turn'])(
    'is the same to the last digit for any number of workers, over %s',
    async (text) => {
      // Three bands and more. The fringe that resampling makes fades in and out of the mask.
      const mask = { colours: ['#7a7a7a'], tolerance: 4, softness: 40 };
      const tile = await write(`${text}-tile.png`, 80, 60);
      for (const follow of ['cloth', 'artwork'] as const) {
        const shares = [];
        for (const workers of [1, 3]) {
          const steps = resolveSteps(shelf, [{ effect: 'linen-weave', mask }], '1');
          const out = join(folder, 'workers.png');
          const request = {
            tile,
            layout: parseLayout(text),
            size,
            at: 20,
            steps,
            out,
            overwrite: true,
            follow,
          };
          shares.push((await layTile(request, { workers })).laidOn[0]);
        }
        expect(shares[0]).toBeGreaterThan(0);
        expect(shares[0]).toBeLessThan(1);
        expect(new Set(shares).size).toBe(1);
      }
    },
  );
  it('is warned of where it is none, with the colours that could be named and which is nearest', async () => {
    const { warnings, laidOn } = await lay('none', { colours: ['#404848'], tolerance: 1 });
    expect(laidOn[0]).toBe(0);
    expect(warnings.join('\n')).toMatch(
      /linen-weave was laid on none of the tile.*no colour of the tile is within 1 \(CIEDE2000\) of #404848.*#3c3c3c \(50 %\), #ffffff \(50 %\); nearest to #404848 is #3c3c3c, \d.*Name one of these/,
    );
  });
  it('is warned of where it is all, and not between', async () => {
    const masks = async (name: string, mask: object) =>
      (await lay(name, mask)).warnings.filter((words) => words.includes('linen-weave was laid on'));
    expect(await masks('all', { colours: ['#3c3c3c', '#ffffff'] })).toHaveLength(1);
    expect(await masks('all-spared', { colours: ['#00ff00'], spare: true })).toEqual([
      expect.stringContaining('on all of the tile, as if it had no mask: no colour of the tile'),
    ]);
    const black = await write('black-mask.png', 80, 0);
    expect(await masks('between', { picture: black })).toEqual([]);
    const white = await write('white-mask.png', 80, 255);
    expect(await masks('white', { picture: white, spare: true })).toEqual([
      expect.stringContaining('its mask picture is white all over'),
    ]);
  });
});

describe('a tile that is laid with doubts', () => {
  const lay = async (name: string, more: object = {}) => {
    const tile = await write(`${name}-tile.png`, 80, 60);
    const steps = resolveSteps(shelf, [{ effect: 'wood-grain' }], '1');
    return layTile({
      tile,
      layout: STRAIGHT,
      steps,
      overwrite: true,
      out: join(folder, `${name}.png`),
      ...more,
    });
  };
  it('is told how large it came out where only the file says so, by the density of a screen', async () => {
    const words = expect.stringMatching(
      /the repeat came out at 40 x 40 mm, from the 50\.8 dpi that its file states.*Give --size or --dpi$/,
    );
    expect((await lay('doubted')).warnings).toContainEqual(words);
    expect((await lay('believed', { density: 2 })).warnings).not.toContainEqual(words);
    expect((await lay('sized', { size })).warnings).not.toContainEqual(words);
  });
  it('is told of the layout that it closes over, where it is open over the one asked', async () => {
    const side = 120;
    const pixels = sharedSamples(4 * side * side, 8).map((_, k) => {
      const [x, y] = [Math.floor(k / 4) % side, Math.floor(k / 4 / side)];
      // Discs at the corner and, on the edge beyond, half a height lower.
      const near = Math.hypot(Math.min(x, side - x), Math.min(Math.abs(y - (x < side / 2 ? 30 : 90)), side));
      return k % 4 === 3 ? 255 : near < 22 ? 40 : 220;
    });
    const tile = join(folder, 'half-drop.png');
    await writePicture(tile, { pixels, width: side, height: side, bits: 8, pixelsPerMm: { x: 5, y: 5 } });
    const asked = { tile, size: { width: 24, height: 24 } };
    const warned = async (name: string, layout: string) =>
      (await lay(name, { ...asked, layout: parseLayout(layout) })).warnings.join();
    expect(await warned('undropped', 'straight')).toMatch(
      /the tile itself does not close.*But it closes over drop:1\/2/,
    );
    expect(await warned('dropped', 'drop:1/2')).not.toContain('it closes over');
  });
});
