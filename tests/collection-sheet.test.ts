import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Placed } from '../src/collection/sheet/arrange-sheets.ts';
import { byTile } from '../src/collection/sheet/by-tile.ts';
import { bookOfFolder, makeSheets } from '../src/collection/sheet/index.ts';
import { CARD, LETTERS, MADDER, QUIET } from '../src/collection/sheet/inks.ts';
import { linesOf } from '../src/collection/sheet/paragraphs.ts';
import {
  COLLECTION_SHEET,
  SHEET_DPI,
  type SheetShape,
  TILE_SHEET,
} from '../src/collection/sheet/sheet-shape.ts';
import { SheetStack } from '../src/collection/sheet/sheet-stack.ts';
import type { Swatch } from '../src/collection/sheet/swatch.ts';
import { tenter } from './collection-kit.ts';
import { makeRun, WILD_NAME } from './collection-sheet-kit.ts';

let folder: string;
const flags = ['--plugins', 'ripple.ts', '--trust'];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-sheet-'));
  await makeRun(folder);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Sheet {
  readonly pixels: Uint8Array;
  readonly width: number;
}

async function readSheet(path: string): Promise<Sheet> {
  const { data, info } = await sharp(path).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  return { pixels: data, width: info.width };
}

/** Where lines lie along a row (or column) of a swatch: middles of what is dark. */
function linesAlong(
  { pixels, width }: Sheet,
  x: number,
  y: number,
  length: number,
  across: boolean,
): number[] {
  const dark = Array.from({ length }, (_, i) => {
    const at = across ? (y * width + x + i) * 3 : ((y + i) * width + x) * 3;
    return 255 - pixels[at];
  });
  const found: number[] = [];
  for (let i = 0, weight = 0, sum = 0; i <= length; i++) {
    if (i < length && dark[i] > 20) {
      weight += dark[i];
      sum += dark[i] * (i + 0.5);
    } else if (weight > 0) {
      found.push(sum / weight);
      weight = sum = 0;
    }
  }
  return found;
}

/** The mean distance of lines; the first and last may be cut off. */
function periodOf(lines: readonly number[]): number {
  const whole = lines.slice(1, -1);
  return (whole.at(-1)! - whole[0]) / (whole.length - 1);
}

/** The longest run of the letters' ink in the heading: the bar's upper edge. */
function barOf({ pixels, width }: Sheet): number {
  let longest = 0;
  for (let y = 60; y < 200; y++) {
    for (let x = 0, run = 0; x < width; x++) {
      const at = (y * width + x) * 3;
      run = pixels[at] === 0x2d && pixels[at + 1] === 0x2b && pixels[at + 2] === 0x27 ? run + 1 : 0;
      longest = Math.max(longest, run);
    }
  }
  return longest;
}

/** Where everything stands on the sheets of some swatches. */
function arranged(swatches: readonly Swatch[], shape: SheetShape): Placed[][] {
  const heading = { title: 'Spring', facts: 'some swatches' };
  const stack = new SheetStack({ folder, name: 'sheet', heading, shape, swatches });
  return stack.arrangements.map(({ placed }) => [...placed]);
}

/** The place of a render, or of the artwork before it, on the sheet of the whole run. */
async function placeFor(name: string, isOriginal = false): Promise<Placed> {
  const { swatches } = await bookOfFolder(join(folder, 'made'));
  const [first] = arranged(byTile(swatches), COLLECTION_SHEET);
  return first.find((one) => one.swatch.name === name && one.isOriginal === isOriginal)!;
}

/** Of two colours, as WCAG 2.2 reckons it. */
function contrast(one: string, two: string): number {
  const light = (colour: string) =>
    [0.2126, 0.7152, 0.0722].reduce((sum, weight, channel) => {
      const byte = Number.parseInt(colour.slice(1 + 2 * channel, 3 + 2 * channel), 16) / 255;
      return sum + weight * (byte <= 0.04045 ? byte / 12.92 : ((byte + 0.055) / 1.055) ** 2.4);
    }, 0);
  const [more, less] = [light(one), light(two)].sort((a, b) => b - a);
  return (more + 0.05) / (less + 0.05);
}

/** Whether two places of a sheet show the same. */
function isSame({ pixels, width }: Sheet, one: Placed, two: Placed, side: number): boolean {
  for (let y = 0; y < side; y++) {
    const row = (place: Placed) => {
      const from = ((place.y + y) * width + place.x) * 3;
      return Buffer.from(pixels.subarray(from, from + side * 3));
    };
    if (!row(one).equals(row(two))) return false;
  }
  return true;
}

/** A row or column of a swatch that lies between two lines along it. */
function periodIn(sheet: Sheet, { x, y }: Placed, across: boolean, shape = COLLECTION_SHEET): number {
  const tries = Array.from({ length: 24 }, (_, shift) => {
    const [atX, atY] = across ? [x, y + shift] : [x + shift, y];
    return linesAlong(sheet, atX, atY, shape.side, across);
  });
  const lines = tries.find((found) => found.length > 4);
  return periodOf(lines!);
}

describe('contact sheets', () => {
  let sheets: string;
  let words: string;
  let ofFolder: string;
  beforeAll(async () => {
    ofFolder = join(folder, 'sheets-by-hand');
    const book = await bookOfFolder(join(folder, 'made'));
    await makeSheets(book, { folder: ofFolder, writesPage: false });
    sheets = join(folder, 'sheets-of-file');
    const ended = await tenter(folder, [
      'collect',
      'sheet',
      'spring.json',
      ...flags,
      '--to',
      sheets,
      '--page-size',
      '1MB',
    ]);
    expect(ended.code, ended.err).toBe(6);
    words = ended.out;
  });

  it('are one for each tile and one for all, beside the page', () => {
    expect(readdirSync(sheets).sort()).toEqual([
      'collection.png',
      'swatches.html',
      'tile-large.png',
      'tile-script-img-src-x-onerror-document.title-1-Sons.png',
      'tile-small.png',
    ]);
  });

  it('say what room the pictures of the page have, and what is empty and why', () => {
    expect(words).toMatch(/pictures take [\d.]+ MB of 1 MB/);
    expect(words).toMatch(/12 swatches; 2 are empty/);
    expect(words).toMatch(/empty +large\/bad-throw-0\.png: failed: .*ink/);
  });

  it('show every swatch at one scale: 10 mm are as long on tiles of other sizes and densities, and as the bar says', async () => {
    const sheet = await readSheet(join(ofFolder, 'collection.png'));
    // Opacity 0 leaves a ruled tile as it is.
    const places = [await placeFor('large/1-0.png'), await placeFor('small/1-0.png')];
    const periods = places.flatMap((place) => [periodIn(sheet, place, true), periodIn(sheet, place, false)]);
    for (const period of periods) expect(Math.abs(period / periods[0] - 1), `${periods}`).toBeLessThan(0.01);
    const mm = (barOf(sheet) / periods[0]) * 10;
    const nearest = [1, 2, 5, 10, 20, 50, 100].reduce((best, one) =>
      Math.abs(Math.log(one / mm)) < Math.abs(Math.log(best / mm)) ? one : best,
    );
    expect(Math.abs(mm / nearest - 1), `${mm} mm`).toBeLessThan(0.015);
  });

  it('lay a half-drop as it hangs: the second column half a tile lower', async () => {
    const sheet = await readSheet(join(ofFolder, 'collection.png'));
    const place = await placeFor('large/1-0.png');
    const period = periodIn(sheet, place, true);
    const lines = (mm: number) =>
      linesAlong(sheet, Math.round(place.x + (mm / 10) * period), place.y, COLLECTION_SHEET.side, false);
    // Lines lie at 0, 10, 20 mm of the tile's 30; half of it lower is 15, 25, 35: 5 mm off.
    const off = (lines(45)[2] - lines(5)[2]) / period;
    expect(Math.abs(Math.abs(off - Math.round(off)) - 0.5), `${off}`).toBeLessThan(0.05);
  });

  it('show the artwork without texture before its renders, at the same place and scale, on every sheet', async () => {
    const sheet = await readSheet(join(ofFolder, 'collection.png'));
    for (const tile of ['large', 'small']) {
      const original = await placeFor(`${tile}/1-0.png`, true);
      expect(original.caption[0].text).toBe('Artwork without texture');
      // At opacity 0 a render is the artwork; at 1 it is not.
      expect(isSame(sheet, original, await placeFor(`${tile}/1-0.png`), COLLECTION_SHEET.side)).toBe(true);
      expect(isSame(sheet, original, await placeFor(`${tile}/1-1.png`), COLLECTION_SHEET.side)).toBe(false);
    }
  });

  it('keep an empty place for what failed', async () => {
    const sheet = await readSheet(join(ofFolder, 'collection.png'));
    const { x, y } = await placeFor('large/bad-throw-0.png');
    const at = ((y + 240) * sheet.width + x + 140) * 3;
    expect([...sheet.pixels.slice(at, at + 3)]).toEqual([0xf6, 0xf3, 0xec]);
  });

  it('are split where there are many, one sheet in memory', async () => {
    const book = await bookOfFolder(join(folder, 'made'));
    const [first] = book.swatches;
    const many = Array.from({ length: 45 }, (_, i) => ({
      ...first,
      name: `${i}.png`,
      made: undefined,
      reason: 'none',
    }));
    const made = await makeSheets(
      { ...book, swatches: many },
      { folder: join(folder, 'many'), writesPage: false },
    );
    expect(made.sheets.map((path) => path.split('/').at(-1))).toEqual([
      'collection.001.png',
      'collection.002.png',
      'tile-large.001.png',
      'tile-large.002.png',
      'tile-large.003.png',
    ]);
    expect(made.empty).toHaveLength(45);
    // The artwork stands on each, and takes a place.
    const sheets = arranged(many, TILE_SHEET);
    expect(sheets.map((placed) => placed.length)).toEqual([20, 20, 8]);
    expect(sheets.map(([place]) => place.isOriginal)).toEqual([true, true, true]);
  });

  it('never cut what tells variants apart, say it first, and leave out what all have alike', () => {
    const word = 'hand-dyed-over-and-over-again-until-the-ground-is-full-of-it-and-dried-flat';
    const labels = [`salt-bloom-${word}-slowly`, `salt-bloom-${word}-quickly`];
    const swatches = labels.map((recipe, index) => ({
      name: `${index}.png`,
      address: 'a1b2c3d4e5',
      labels: { tile: 'sprig', recipe, seed: '1', 'salt-bloom.grain': `${index} mm` },
      reason: 'not rendered yet',
    }));
    const [placed] = arranged(swatches, COLLECTION_SHEET);
    const titles = placed.map(({ caption }) => linesOf(caption[0], COLLECTION_SHEET.side).join(''));
    expect(titles).toEqual(['slowly', 'quickly']);
    expect(placed.map(({ caption }) => caption[1].text)).toEqual(['grain 0 mm', 'grain 1 mm']);
    expect(JSON.stringify(placed[0].caption)).not.toContain('seed');

    const apart = swatches.map((swatch, index) => ({
      ...swatch,
      labels: { ...swatch.labels, recipe: `${'ab'[index]}${labels[index]}` },
    }));
    const [whole] = arranged(apart, COLLECTION_SHEET);
    for (const [index, { caption }] of whole.entries()) {
      const lines = linesOf(caption[0], COLLECTION_SHEET.side);
      expect(lines.join('')).toBe(apart[index].labels.recipe);
      expect(lines.length).toBeGreaterThan(2);
      for (const line of lines) expect(line).toMatch(/-$|ly$/);
    }
  });

  it('have letters that can be read: 7 pt at the size that the file states, and 4.5:1 (WCAG 2.2, 1.4.3)', async () => {
    const { density } = await sharp(join(ofFolder, 'tile-large.png')).metadata();
    expect(density).toBe(SHEET_DPI);
    const book = await bookOfFolder(join(folder, 'made'));
    const stack = new SheetStack({
      folder,
      name: 'sheet',
      heading: { title: 'Spring', facts: 'some' },
      shape: TILE_SHEET,
      swatches: book.swatches,
    });
    const [{ placed, legend }] = stack.arrangements;
    const words = [...placed.flatMap(({ caption }) => caption), ...legend];
    expect(legend.length).toBeGreaterThan(1);
    for (const { height } of words) expect((height / density!) * 72).toBeGreaterThanOrEqual(7);
    for (const ink of [...new Set(words.map((one) => one.ink)), LETTERS, MADDER, QUIET])
      expect(contrast(ink, CARD), ink).toBeGreaterThan(4.5);
  });
});

describe('the folder of a run', () => {
  it('is enough: its report tells what there is, without file, tiles or effects', async () => {
    const to = join(folder, 'sheets-of-folder');
    const ended = await tenter(folder, ['collect', 'sheet', 'made', '--to', to, '--no-sheets', '--json']);
    expect(ended.code, ended.err).toBe(6);
    const facts = JSON.parse(ended.out);
    expect([facts.shown, facts.empty.length, facts.sheets.length]).toEqual([12, 2, 0]);
    expect(readFileSync(join(to, 'swatches.html'), 'utf8')).not.toContain(WILD_NAME);
  });
  it('that has none is refused in words', async () => {
    const ended = await tenter(folder, ['collect', 'sheet', 'art']);
    expect([ended.code, ended.err]).toEqual([
      3,
      expect.stringMatching(/report of a run .*no such file.*collect report/),
    ]);
  });
});

describe('sheets that cannot be', () => {
  it('are refused: too little room, a list with a folder, a place among the renders', async () => {
    const little = await tenter(folder, ['collect', 'sheet', 'made', '--page-size', '0.001MB']);
    expect([little.code, little.err]).toEqual([
      2,
      expect.stringContaining('at least 0.022 MB for 15 pictures for --page-size but received 0.001 MB'),
    ]);
    const unknown = await tenter(folder, ['collect', 'sheet', 'made', '--page-size', '8']);
    expect(unknown.code).toBe(2);
    const among = await tenter(folder, ['collect', 'sheet', 'made', '--to', 'made/large']);
    expect([among.code, among.err]).toEqual([4, expect.stringContaining('--to')]);
    const chosen = await tenter(folder, ['collect', 'sheet', 'made', '--only', 'large/1-0']);
    expect(chosen.code).toBe(2);
  });

  it('have an empty swatch for a picture that was spoiled', async () => {
    const book = await bookOfFolder(join(folder, 'made'));
    writeFileSync(join(folder, 'spoiled.png'), 'no picture');
    const swatches = book.swatches
      .filter(({ made }) => made)
      .slice(0, 2)
      .map((swatch, i) =>
        i ? swatch : { ...swatch, made: { ...swatch.made!, path: join(folder, 'spoiled.png') } },
      );
    const made = await makeSheets({ ...book, swatches }, { folder: join(folder, 'spoiled') });
    expect([made.shown, made.empty]).toEqual([
      1,
      [{ name: swatches[0].name, reason: expect.stringMatching(/cannot be read/) }],
    ]);
  });
});
