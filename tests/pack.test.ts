import { execFileSync, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createCanvas, type GlobalCompositeOperation, loadImage } from '@napi-rs/canvas';
import { unzipSync } from 'fflate';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { COLLECTION } from '../gallery/artwork/collection.ts';
import { drawTile } from '../gallery/artwork/tile.ts';
import { inColourway } from '../src/host/ink/screens.ts';
import type { RecipeStep } from '../src/host/plugins/recipe.ts';
import { resolveSteps } from '../src/host/plugins/resolve-steps.ts';
import { openShelf } from '../src/host/plugins/shelf.ts';
import type { Colourway, ShadeCard } from '../src/ink/index.ts';
import { type DesignWish, designOfTile, type ParcelWish, packDesigns } from '../src/pack/index.ts';
import { readOutputProfile, writeInProfile } from '../src/picture/in-profile.ts';
import { writePicture } from '../src/picture/index.ts';
import { parseLayout } from '../src/repeat/index.ts';

let folder = '';
let tile = '';
const artwork = COLLECTION.find(({ name }) => name === 'cardoon')!;
const shelf = openShelf([]);

const has = (tool: string) => spawnSync(tool, ['-v']).error === undefined;

const CARD: ShadeCard = {
  name: 'cardoon',
  inks: [
    { name: 'ground', kind: 'ground', colour: [29, 58, 76], covers: true, note: '' },
    { name: 'leaf', kind: 'ink', colour: [139, 160, 95], covers: true, note: 'as on the last cloth' },
    { name: 'coral', kind: 'ink', colour: [201, 92, 60], covers: false, note: '' },
    { name: 'pale', kind: 'ink', colour: [200, 214, 210], covers: true, note: '' },
  ],
};

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'pack-test-'));
  tile = join(folder, 'cardoon.png');
  await writePicture(tile, drawTile(artwork, 1.5));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const wishFor = (name: string, more: Partial<ParcelWish> = {}): ParcelWish => ({
  folder: join(folder, name),
  ...{ isZip: false, format: 'tif', paper: 'a4', colourways: [], overwrite: false },
  ...more,
});

async function design(
  steps: readonly RecipeStep[] = [],
  more: Pick<DesignWish, 'inks' | 'screens'> & { layout?: string; path?: string } = {},
) {
  const layout = parseLayout(more.layout ?? artwork.layout);
  const size = { width: artwork.width, height: artwork.height };
  const { inks, screens } = more;
  const wish = { layout, size, steps: resolveSteps(await shelf, steps, '1'), target: 'print', inks, screens };
  return designOfTile(more.path ?? tile, wish, await shelf);
}

async function packed(wish: ParcelWish, steps: readonly RecipeStep[] = [{ effect: 'linen-weave' }]) {
  const { made } = await packDesigns([await design(steps)], wish, await shelf);
  return made[0];
}

const filesOf = (path: string) =>
  Object.fromEntries(readdirSync(path).map((name) => [name, readFileSync(join(path, name))]));

describe('a parcel', () => {
  it('is made once: the second time it is there already, and a file changed since is found out', async () => {
    const wish = wishFor('once');
    const first = await packed(wish);
    expect(first.isNew).toBe(true);
    expect((await packed(wish)).isNew).toBe(false);
    writeFileSync(join(first.path, 'README.txt'), 'something else');
    await expect(packed(wish)).rejects.toThrow('a parcel of other inputs');
    expect((await packed({ ...wish, overwrite: true })).isNew).toBe(true);
    expect(readdirSync(wish.folder)).toEqual(['cardoon-print']);
  });
  it('has the same bytes from the same inputs, as a folder and as a ZIP', async () => {
    const [one, other] = [await packed(wishFor('same-1')), await packed(wishFor('same-2'))];
    expect(filesOf(one.path)).toEqual(filesOf(other.path));
    const zips = [
      await packed(wishFor('zip-1', { isZip: true })),
      await packed(wishFor('zip-2', { isZip: true })),
    ].map(({ path }) => readFileSync(path));
    expect(zips[0].equals(zips[1])).toBe(true);
    expect((await packed(wishFor('zip-1', { isZip: true }))).isNew).toBe(false);
    // Read by another hand: fflate.
    const entries = unzipSync(zips[0]);
    const print = entries['cardoon-print/cardoon-print-print.tif'];
    expect(Buffer.from(print).equals(readFileSync(join(one.path, 'cardoon-print-print.tif')))).toBe(true);
  });
  it.skipIf(!has('unzip'))('is a sound ZIP to unzip -t', async () => {
    const { path } = await packed(wishFor('unzip', { isZip: true }));
    expect(execFileSync('unzip', ['-t', path], { encoding: 'utf8' })).toContain('No errors detected');
  });
  it('refuses a folder that is no parcel, whatever is asked, and leaves nothing', async () => {
    const wish = wishFor('taken', { overwrite: true });
    const first = await packed(wish);
    rmSync(join(first.path, 'parcel.json'));
    await expect(packed(wish)).rejects.toThrow('no parcel');
    expect(readdirSync(wish.folder)).toEqual(['cardoon-print']);
  });
  it('leaves nothing behind where the picture goes while it is packed', async () => {
    const gone = join(folder, 'gone.png');
    await writePicture(gone, drawTile(artwork, 1.5));
    const one = await design([{ effect: 'linen-weave' }], { path: gone });
    rmSync(gone);
    const wish = wishFor('gone');
    await expect(packDesigns([one], wish, await shelf)).rejects.toThrow('gone.png');
    expect(readdirSync(folder)).not.toContain('gone');
  });
  it('of several packs the others where one fails', async () => {
    const gone = join(folder, 'lost.png');
    await writePicture(gone, drawTile(artwork, 1.5));
    const designs = [await design([], { path: gone }), await design()];
    rmSync(gone);
    const { made, failed } = await packDesigns(designs, wishFor('several'), await shelf);
    expect([made.length, failed.length]).toEqual([1, 1]);
    expect(failed[0].fault.message).toContain('lost.png');
  });
  it('stands in the colourway and in the counted inks that were asked for', async () => {
    const colourway = {
      name: 'dusk',
      colours: [
        [200, 190, 170],
        [60, 70, 110],
        [140, 50, 90],
        [30, 30, 40],
      ],
    };
    // Inks that cover make no further colours of each other.
    const card = { ...CARD, inks: CARD.inks.map((ink) => ({ ...ink, covers: true })) };
    const inks = { card, colourway: colourway as unknown as Colourway, sources: [] };
    const wish = { count: 3, card: 'cardoon.card.json' };
    const screens = inColourway({ wish, card }, inks);
    const one = await design([{ effect: 'linen-weave' }], { inks, screens });
    expect(one.inputs).toMatchObject({ colourway: { name: 'dusk' }, screens: { count: 3 } });
    const { made } = await packDesigns([one], wishFor('dusk', { format: 'png' }), await shelf);
    const { path, facts } = made[0];
    const { data } = await sharp(join(path, facts!.print.file))
      .removeAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    const seen = new Set(
      Array.from({ length: data.length / 3 }, (_, at) => data.subarray(3 * at, 3 * at + 3).join()),
    );
    expect([...seen].sort()).toEqual(colourway.colours.map((colour) => colour.join()).sort());
    // What is told of inks is told of those that are printed.
    expect(facts!.card!.inks.map(({ colour }) => colour)).toEqual([
      '#c8beaa',
      '#3c466e',
      '#8c325a',
      '#1e1e28',
    ]);
    expect(facts!.cautions.join()).not.toContain('continuous tone');
  });
  it('counts inks by areas that add up, and says in which order they are printed', async () => {
    const { facts } = await packed(wishFor('card', { card: CARD }), []);
    const { inks, screens } = facts!.card!;
    expect(screens).toBe(3);
    expect(inks.map(({ order }) => order)).toEqual([undefined, 1, 2, 3]);
    expect(inks.reduce((sum, { percent }) => sum + percent, 0)).toBeCloseTo(100, 6);
    expect(inks.reduce((sum, { cm2 }) => sum + cm2, 0)).toBeCloseTo(
      (artwork.width * artwork.height) / 100,
      6,
    );
  });
  it('has a plate for each ink where these are asked for, in the order of printing', async () => {
    const { path, facts } = await packed(wishFor('plates', { card: CARD, plates: { bits: 8 } }), []);
    const plates = facts!.files.filter(({ name }) => /^plates\/.*\.tiff?$/.test(name));
    expect(plates.map(({ what }) => what.split(':')[0])).toEqual([
      'Plate 1, leaf',
      'Plate 2, coral',
      'Plate 3, pale',
    ]);
    expect(readdirSync(join(path, 'plates')).length).toBe(4);
    for (const { name, sha256 } of facts!.files)
      expect(
        createHash('sha256')
          .update(readFileSync(join(path, name)))
          .digest('hex'),
      ).toBe(sha256);
  });
});

/** OpenRaster names that the canvas has under others. */
const CANVAS: Record<string, string> = { 'src-over': 'source-over' };

describe('layers in OpenRaster', () => {
  it.each([
    ['a weave', [{ effect: 'linen-weave' }]],
    ['paint that moves', [{ effect: 'salt-bloom' }]],
    [
      'two steps, one on colours',
      [
        { effect: 'wood-grain', mask: { colours: ['#1d3a4c'], tolerance: 20 } },
        { effect: 'raw-silk', opacity: 0.6 },
      ],
    ],
  ] as const)('laid together by another library are the print: %s', async (name, steps) => {
    const { path, facts } = await packed(wishFor(`ora-${name}`), steps as unknown as RecipeStep[]);
    const bytes = readFileSync(join(path, 'cardoon-print-layers.ora'));
    // File Layout Specification: mimetype first, stored, without extra field.
    expect(bytes.readUInt16LE(8)).toBe(0);
    expect(bytes.readUInt16LE(28)).toBe(0);
    expect(bytes.toString('latin1', 30, 54)).toBe('mimetypeimage/openraster');
    const entries = unzipSync(bytes);
    const xml = Buffer.from(entries['stack.xml']).toString();
    const layers = [...xml.matchAll(/src="([^"]+)".*?composite-op="svg:([^"]+)"/g)].reverse();
    expect(layers.length).toBe(facts!.layers!.order.length);
    const { width, height } = drawTile(artwork, 1.5);
    const context = createCanvas(width, height).getContext('2d');
    for (const [, source, operator] of layers) {
      context.globalCompositeOperation = (CANVAS[operator] ?? operator) as GlobalCompositeOperation;
      context.drawImage(await loadImage(Buffer.from(entries[source])), 0, 0);
    }
    const laid = context.getImageData(0, 0, width, height).data;
    const print = await sharp(join(path, 'cardoon-print-print.tif')).ensureAlpha().raw().toBuffer();
    const merged = await sharp(entries['mergedimage.png']).ensureAlpha().raw().toBuffer();
    expect(largest(merged, print)).toBeLessThanOrEqual(1);
    expect(facts!.layers!.off.most).toBeLessThanOrEqual(1);
    // Another library rounds each layer in its own way: one step more.
    expect(largest(laid, print)).toBeLessThanOrEqual(2);
    const thumbnail = await sharp(entries['Thumbnails/thumbnail.png']).metadata();
    expect(Math.max(thumbnail.width, thumbnail.height)).toBe(256);
  });
});

function largest(one: ArrayLike<number>, other: ArrayLike<number>): number {
  expect(one.length).toBe(other.length);
  let most = 0;
  for (let at = 0; at < one.length; at++) most = Math.max(most, Math.abs(one[at] - other[at]));
  return most;
}

describe.skipIf(!has('pdftoppm'))('the strike-off sheet', () => {
  const sheetOf = async (wish: ParcelWish) => {
    const { path, facts } = await packed(wish, [{ effect: 'linen-weave' }]);
    return { sheet: join(path, 'cardoon-print-strike-off.pdf'), facts: facts! };
  };
  it('embeds all fonts, says no hour and can be searched', async () => {
    const { sheet, facts } = await sheetOf(wishFor('pdf', { card: CARD }));
    const fonts = execFileSync('pdffonts', [sheet], { encoding: 'utf8' }).trim().split('\n').slice(2);
    expect(fonts.length).toBeGreaterThan(0);
    for (const line of fonts) expect(line).toMatch(/\+Jost-\w+ .* yes yes yes /);
    expect(execFileSync('pdfinfo', [sheet], { encoding: 'utf8' })).not.toContain('CreationDate');
    const text = execFileSync('pdftotext', ['-layout', sheet, '-'], { encoding: 'utf8' }).replaceAll(
      /\s+/g,
      ' ',
    );
    for (const words of [
      'cardoon-print',
      '260 x 320 mm',
      'Half drop',
      '3 screens',
      'as on the last cloth',
      facts.files[0].sha256.slice(0, 16),
    ])
      expect(text).toContain(words);
  });
  it.each(['a4', 'a3'] as const)('shows 100 mm of the ruler, and the print, as 100 mm: %s', async (paper) => {
    const { sheet } = await sheetOf(wishFor(`measured-${paper}`, { paper }));
    // 254 dpi: 10 px to the mm.
    execFileSync('pdftoppm', [
      '-r',
      '254',
      '-f',
      '1',
      '-l',
      '1',
      '-png',
      '-gray',
      sheet,
      join(folder, paper),
    ]);
    const page = readdirSync(folder).find((name) => name.startsWith(`${paper}-`))!;
    const { data, info } = await sharp(join(folder, page))
      .greyscale()
      .raw()
      .toBuffer({ resolveWithObject: true });
    const marks = rulerMarks(data, info.width, info.height);
    expect(marks.length).toBe(16);
    expect(Math.abs(marks[10] - marks[0] - 1000)).toBeLessThanOrEqual(2);
  });
});

/** Long marks of the ruler, px: the row below its short marks, where each dark run is a mark of 10 mm. */
function rulerMarks(data: Buffer, width: number, height: number): number[] {
  for (let y = 0; y < height; y++) {
    const found: number[] = [];
    for (let x = 1; x < width; x++)
      if (data[y * width + x] < 140 && data[y * width + x - 1] >= 140) found.push(x);
    const steps = found.slice(1).map((x, index) => x - found[index]);
    if (found.length === 16 && steps.every((step) => Math.abs(step - 100) <= 2)) return found;
  }
  return [];
}

describe('a print in a profile', () => {
  /** The engine's own press profile, as a file. */
  const cmykProfile = async () => {
    const path = join(folder, 'press.icc');
    const dot = sharp({ create: { width: 1, height: 1, channels: 3, background: '#808080' } });
    const tiff = await dot.toColourspace('cmyk').withIccProfile('cmyk').tiff().toBuffer();
    writeFileSync(path, (await sharp(tiff).metadata()).icc!);
    return path;
  };
  it('is a CMYK TIFF for a CMYK profile, with that profile in it', async () => {
    const profile = await readOutputProfile(await cmykProfile());
    const { path, facts } = await packed(wishFor('cmyk', { profile }), []);
    const found = await sharp(join(path, 'cardoon-print-print.tif')).metadata();
    expect([found.space, found.channels, found.density]).toEqual(['cmyk', 4, 38]);
    expect(found.icc!.equals(profile.bytes)).toBe(true);
    expect(facts!.print.profile).toEqual({ name: profile.name, space: 'CMYK', intent: 'perceptual' });
  });
  it('in a PNG is refused for CMYK, and leaves nothing', async () => {
    const profile = await readOutputProfile(await cmykProfile());
    const wish = wishFor('cmyk-png', { profile, format: 'png' });
    await expect(packed(wish, [])).rejects.toThrow('A PNG holds no CMYK');
    expect(readdirSync(folder)).not.toContain('cmyk-png');
  });
  it.each([
    ['is no profile', () => Buffer.from('not a profile at all')],
    ['cut short', (whole: Buffer) => whole.subarray(0, 300)],
  ])('is refused for a file that %s', async (name, spoil) => {
    const path = join(folder, `${name}.icc`);
    writeFileSync(path, spoil(readFileSync(await cmykProfile())));
    await expect(readOutputProfile(path)).rejects.toThrow('ICC profile of RGB or CMYK');
  });
  // The sixteen colour keywords of HTML 4.01 (W3C 1999), section 6.5, by Little CMS itself (transicc), read back by
  // ImageMagick. Off by what 8 bit and the engine's own sRGB come to.
  it.skipIf(!has('transicc') || !has('convert'))('has the numbers of Little CMS within 2 %', async () => {
    const profile = await readOutputProfile(await cmykProfile());
    const patches = HTML_COLOURS.map((hex) =>
      [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)),
    );
    const path = join(folder, 'patches.tif');
    const pixels = new Uint8Array(patches.flatMap((patch) => [...patch, 255]));
    const picture = { pixels, width: patches.length, height: 1, pixelsPerMm: { x: 10, y: 10 } };
    await writeInProfile(path, picture, profile);
    const bytes = execFileSync('convert', [path, '-depth', '8', 'cmyk:-']);
    const ours = Array.from({ length: patches.length }, (_, k) =>
      [...bytes.subarray(4 * k, 4 * k + 4)].map((value) => value / 2.55),
    );
    const theirs = execFileSync('transicc', ['-i*sRGB', `-o${profile.path}`, '-t0', '-n'], {
      input: `${patches.map((patch) => patch.join(' ')).join('\n')}\n`,
    })
      .toString()
      .split('\n')
      .map((line) => line.trim().split(/\s+/).map(Number))
      .filter((numbers) => numbers.length === 4 && numbers.every(Number.isFinite));
    expect(theirs).toHaveLength(patches.length);
    const off = ours.flatMap((inks, k) => inks.map((value, ink) => Math.abs(value - theirs[k][ink])));
    expect(Math.max(...off)).toBeLessThan(2);
  });
});

const HTML_COLOURS = [
  ...['#000000', '#c0c0c0', '#808080', '#ffffff', '#800000', '#ff0000', '#800080', '#ff00ff'],
  ...['#008000', '#00ff00', '#808000', '#ffff00', '#000080', '#0000ff', '#008080', '#00ffff'],
];
