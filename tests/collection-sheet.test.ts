import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bookOfFolder, makeSheets } from '../src/collection/sheet/index.ts';
import { COLLECTION_SHEET, placeOf } from '../src/collection/sheet/sheet-shape.ts';
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

/** A row or column of a swatch that lies between two lines along it. */
function periodIn(sheet: Sheet, index: number, across: boolean, shape = COLLECTION_SHEET): number {
  const { x, y } = placeOf(shape, index);
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
  beforeAll(async () => {
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
    const sheet = await readSheet(join(sheets, 'collection.png'));
    // Opacity 0 leaves a ruled tile as it is: the first of "large", and of "small".
    const periods = [0, 6].flatMap((index) => [periodIn(sheet, index, true), periodIn(sheet, index, false)]);
    for (const period of periods) expect(Math.abs(period / periods[0] - 1), `${periods}`).toBeLessThan(0.01);
    const mm = (barOf(sheet) / periods[0]) * 10;
    const nearest = [1, 2, 5, 10, 20, 50, 100].reduce((best, one) =>
      Math.abs(Math.log(one / mm)) < Math.abs(Math.log(best / mm)) ? one : best,
    );
    expect(Math.abs(mm / nearest - 1), `${mm} mm`).toBeLessThan(0.015);
  });

  it('lay a half-drop as it hangs: the second column half a tile lower', async () => {
    const sheet = await readSheet(join(sheets, 'collection.png'));
    const { x, y } = placeOf(COLLECTION_SHEET, 0);
    const period = periodIn(sheet, 0, true);
    const lines = (mm: number) =>
      linesAlong(sheet, Math.round(x + (mm / 10) * period), y, COLLECTION_SHEET.side, false);
    // Lines lie at 0, 10, 20 mm of the tile's 30; half of it lower is 15, 25, 35: 5 mm off.
    const off = (lines(45)[2] - lines(5)[2]) / period;
    expect(Math.abs(Math.abs(off - Math.round(off)) - 0.5), `${off}`).toBeLessThan(0.05);
  });

  it('keep an empty place for what failed', async () => {
    const sheet = await readSheet(join(sheets, 'collection.png'));
    const { x, y } = placeOf(COLLECTION_SHEET, 4);
    const at = ((y + 200) * sheet.width + x + 140) * 3;
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
      expect.stringContaining('at least 0.018 MB for 12 pictures for --page-size but received 0.001 MB'),
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
