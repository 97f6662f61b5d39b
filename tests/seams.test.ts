import { describe, expect, it } from 'vitest';
import { checkRepeat, checkSeams, drawRing, farSheet, repeatSheet } from '../src/inspect/index.ts';
import { parseLayout } from '../src/repeat/index.ts';
import { casesOf } from './seams/cases.ts';
import { KINDS } from './seams/kinds.ts';
import { pictureOf, ratesOf } from './seams/rates.ts';

const STRAIGHT = parseLayout('straight');

describe('the seam check, on 41 kinds of seamless pictures', () => {
  // The limits lie just above the rates that src/inspect/check.ts states.
  it.each([
    ['straight', { closed: 0, 'closed, JPEG': 0, cropped: 0.1 }],
    ['drop:1/2', { closed: 0, 'closed, JPEG': 0.03, cropped: 0.1 }],
    ['mirror-xy', { closed: 0.03, 'closed, JPEG': 0.03, cropped: 0.65 }],
    ['turn', { closed: 0, 'closed, JPEG': 0.03, cropped: 0.2 }],
  ])('keeps its stated error rates over %s', async (layout, limits) => {
    const wanted = KINDS.flatMap((kind) => casesOf(kind, parseLayout(layout), 'a')).filter(
      ({ closes, fault, jpeg }) =>
        closes ? !jpeg || jpeg.quality === 75 : fault.includes('eighth') && !jpeg,
    );
    const rates = await ratesOf(wanted);
    const shareOf = (...names: string[]) => {
      const some = [...rates].filter(([name]) => names.some((start) => name.startsWith(start)));
      const sum = (key: 'tried' | 'wrong') => some.reduce((total, [, rate]) => total + rate[key], 0);
      return sum('wrong') / sum('tried');
    };
    const { closed, 'closed, JPEG': saved } = Object.fromEntries(
      [...rates]
        .filter(([name]) => name.startsWith('closed'))
        .map(([name, { wrong, tried }]) => [name, wrong / tried]),
    );
    expect(closed).toBeLessThanOrEqual(limits.closed);
    expect(saved).toBeLessThanOrEqual(limits['closed, JPEG']);
    expect(shareOf('cropped')).toBeLessThanOrEqual(limits.cropped);
  });
  it('leaves a doubt to a person, and does not call it open', async () => {
    // The sweep of tone of this picture jumps at its bottom by 4 in 100 more than what passes, once it is a JPEG.
    const ombre = KINDS.find(({ name }) => name === 'ombre')!;
    const saved = casesOf(ombre, STRAIGHT, 'a').find((one) => one.closes && one.jpeg?.quality === 92)!;
    const report = checkSeams(await pictureOf(saved), STRAIGHT, { mmPerPixelX: 0.5 });
    expect(report).toMatchObject({ grade: 'look', closes: true, worst: { place: { edge: 'bottom' } } });
    expect(report.summary).toMatch(/^Look at it over straight\. .*may be open.* px \([\d.]+ mm\)/);
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
  it('sees of what is transparent only what is there, as laid on white', () => {
    const blotched = texture((x, y) => (Math.hypot(x - 300, y - 90) < 24 ? -40 : 0));
    const veiled = (alphaAt: (x: number, y: number) => number) => {
      const pixels = blotched.pixels.slice();
      for (let k = 0; k < 480 * 480; k++) pixels[4 * k + 3] = alphaAt(k % 480, Math.floor(k / 480));
      return checkRepeat({ ...blotched, pixels });
    };
    expect(blotched.pixels[4 * (90 * 480 + 300)]).toBeLessThan(120);
    const nothing = veiled(() => 0);
    expect(nothing.hotSpots).toEqual([]);
    expect(nothing.summary).toBe('the repeat does not show from afar');
    // A hole in an even texture shows, and so does the only motif on a clear ground.
    const hole = veiled((x, y) => (Math.hypot(x - 100, y - 380) < 24 ? 0 : 255));
    expect(hole.hotSpots.some(({ x, y }) => Math.hypot(x - 100, y - 380) < 24)).toBe(true);
    const motif = veiled((x, y) => (Math.hypot(x - 300, y - 90) < 24 ? 255 : 0));
    expect(motif.hotSpots[0].contrast).toBeLessThan(-20);
  });
  it('sees 16 bits as it sees 8', () => {
    const { pixels, ...size } = texture((x, y) => (Math.hypot(x - 300, y - 90) < 24 ? -40 : 0));
    const bytes = pixels.map((value, k) => (k % 4 === 3 ? k % 251 : value));
    const [few, many] = [bytes, Uint16Array.from(bytes, (value) => value * 257)].map((samples) =>
      checkRepeat({ pixels: samples, ...size }),
    );
    expect(many.hotSpots.length).toBe(few.hotSpots.length);
    expect(many.bandsDown).toBeCloseTo(few.bandsDown, 3);
  });
});

describe('a sheet seen from afar', () => {
  it('shows 4 x 4 tiles and rings the spot', () => {
    const pixels = new Uint8Array(480 * 480 * 4).fill(255).map((_, at) => {
      const [x, y] = [(at >> 2) % 480, Math.floor((at >> 2) / 480)];
      return at % 4 === 3 ? 255 : Math.hypot(x - 300, y - 90) < 40 ? 60 : 180;
    });
    const picture = { pixels, width: 480, height: 480 };
    const sheet = farSheet(picture, STRAIGHT, checkRepeat(picture));
    const at = (x: number, y: number) => [
      ...sheet.pixels.subarray((y * sheet.width + x) * 4, (y * sheet.width + x) * 4 + 3),
    ];
    expect([sheet.width, sheet.height]).toEqual([960, 960]);
    expect(at(150, 45)[0]).toBeLessThan(90);
    expect(at(30, 200)).toEqual([180, 180, 180]);
    expect(new Set(sheet.pixels).has(20)).toBe(true);
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
