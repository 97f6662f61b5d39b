import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { checkRepeat, checkSeams, drawRing, repeatSheet } from '../src/inspect/index.ts';
import { parseLayout } from '../src/repeat/index.ts';
import { crop, type Drawn, toBytes } from './seams/faults.ts';
import { groundOf } from './seams/ground.ts';
import { KINDS } from './seams/kinds.ts';

const [WIDTH, HEIGHT] = [240, 192];
const STRAIGHT = parseLayout('straight');

async function asJpeg(drawn: Drawn, quality: number) {
  const { pixels, width, height } = toBytes(drawn);
  const jpeg = await sharp(pixels, { raw: { width, height, channels: 4 } })
    .removeAlpha()
    .jpeg({ quality, chromaSubsampling: '4:2:0' })
    .toBuffer();
  return { pixels: new Uint8Array(await sharp(jpeg).ensureAlpha().raw().toBuffer()), width, height };
}

describe('the seam check, on 41 kinds of seamless pictures', () => {
  const drawn = KINDS.map((kind) => {
    const samples = kind.draw(groundOf(STRAIGHT, WIDTH, HEIGHT, `a${kind.name}`));
    return { kind, picture: { samples, width: WIDTH, height: HEIGHT } };
  });
  // The rates are those of the project's own test set; src/inspect/check.ts states them for more cases.
  it('passes them as drawn, at most 2 false alarms', () => {
    const wrong = drawn.filter(({ picture }) => !checkSeams(toBytes(picture), STRAIGHT).closes);
    expect(wrong.length, wrong.map(({ kind }) => kind.name).join()).toBeLessThanOrEqual(2);
  });
  it('passes them as JPEG of quality 75, at most 4 false alarms', async () => {
    const wrong: string[] = [];
    for (const { kind, picture } of drawn) {
      if (kind.name === 'cut-out motifs') continue;
      if (!checkSeams(await asJpeg(picture, 75), STRAIGHT).closes) wrong.push(kind.name);
    }
    expect(wrong.length, wrong.join()).toBeLessThanOrEqual(4);
  });
  it('fails the same cropped by an eighth, at most 5 missed', async () => {
    const missed: string[] = [];
    for (const { kind, picture } of drawn) {
      if (kind.cutIsNoFault || kind.name === 'cut-out motifs') continue;
      const cut = crop(picture, 0, 0, WIDTH - WIDTH / 8, HEIGHT - HEIGHT / 8);
      if (checkSeams(await asJpeg(cut, 75), STRAIGHT).closes) missed.push(kind.name);
    }
    expect(missed.length, missed.join()).toBeLessThanOrEqual(5);
  });
  it('answers for a pixel and for one colour', () => {
    for (const side of [1, 3, 40]) {
      const flat = { pixels: new Uint8Array(side * side * 4).fill(200), width: side, height: side };
      expect(checkSeams(flat, STRAIGHT).closes).toBe(true);
    }
  });
});

describe('does the repeat show', () => {
  /** Even noise, with more light in a column or a blotch where asked. */
  function texture(extra: (x: number, y: number) => number) {
    const pixels = new Uint8Array(480 * 480 * 4);
    let state = 7;
    for (let at = 0; at < pixels.length; at += 4) {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      const value = 120 + (state >>> 27) + extra((at / 4) % 480, Math.floor(at / 4 / 480));
      pixels.fill(value, at, at + 3);
      pixels[at + 3] = 255;
    }
    return { pixels, width: 480, height: 480 };
  }
  it('not in an even texture; in one with a light stripe or a dark blotch it does', () => {
    expect(checkRepeat(texture(() => 0)).shows).toBe(false);
    expect(checkRepeat(texture((x) => (x > 100 && x < 140 ? 14 : 0))).bandsDownRatio).toBeGreaterThan(3);
    const blotch = checkRepeat(texture((x, y) => (Math.hypot(x - 300, y - 90) < 24 ? -40 : 0)));
    expect(blotch.hotSpots[0].x).toBeCloseTo(300, -1.6);
    expect(blotch.hotSpots[0].y).toBeCloseTo(90, -1.6);
  });
});

describe('a sheet in repeat', () => {
  const tile = {
    pixels: Uint8Array.from([10, 20, 30, 40].flatMap((v) => [v, v, v, 255])),
    width: 2,
    height: 2,
  };
  const rows = (layout: string) => {
    const { pixels, width } = repeatSheet(tile, parseLayout(layout), { columns: 2, rows: 2, maxSide: 100 });
    return [0, 1, 2, 3].map((row) => [0, 1, 2, 3].map((x) => pixels[(row * width + x) * 4]).join(' '));
  };
  it('lays the tile as its layout says', () => {
    expect(rows('drop:1/2')).toEqual(['10 20 30 40', '30 40 10 20', '10 20 30 40', '30 40 10 20']);
    expect(rows('mirror-xy')).toEqual(['10 20 20 10', '30 40 40 30', '30 40 40 30', '10 20 20 10']);
    expect(rows('turn')).toEqual(['10 20 40 30', '30 40 20 10', '10 20 40 30', '30 40 20 10']);
  });
  it('takes a ring where it is asked', () => {
    const sheet = repeatSheet(
      { pixels: new Uint8Array(100 * 100 * 4).fill(128), width: 100, height: 100 },
      STRAIGHT,
      { columns: 1, rows: 1, maxSide: 100 },
    );
    const before = sheet.pixels.slice();
    drawRing(sheet, { x: 50, y: 50, radius: 30 });
    const changed = (x: number, y: number) => sheet.pixels[(y * 100 + x) * 4] !== before[(y * 100 + x) * 4];
    expect([changed(50, 20), changed(80, 50), changed(50, 50), changed(5, 5)]).toEqual([
      true,
      true,
      false,
      false,
    ]);
  });
});
