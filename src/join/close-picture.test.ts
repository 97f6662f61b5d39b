import { describe, expect, it } from 'vitest';
import { hashUnit } from '../field/hash.ts';
import { checkSeams } from '../inspect/index.ts';
import { gridOfPixels } from '../repeat/grid.ts';
import { wrapPoint } from '../repeat/lattice.ts';
import { parseLayout } from '../repeat/layout.ts';
import { closeChange } from './change.ts';
import { closePicture } from './close-picture.ts';
import { planClose } from './close-plan.ts';
import { drawCut } from './draw-cut.ts';
import type { LitPicture } from './lit-picture.ts';

const painted = new Map<string, LitPicture>();

/** Strokes and blobs on a ground whose light falls off: our own, and nowhere near closing. */
function painting(width: number, height: number, bits: 8 | 16 = 8): LitPicture {
  const key = `${width} ${height} ${bits}`;
  if (!painted.has(key)) painted.set(key, paint(width, height, bits));
  return painted.get(key)!;
}

function paint(width: number, height: number, bits: 8 | 16): LitPicture {
  const full = bits === 16 ? 65_535 : 255;
  const samples = bits === 16 ? new Uint16Array(4 * width * height) : new Uint8Array(4 * width * height);
  const blobs = Array.from({ length: Math.round((width * height) / 4500) }, (_, k) => ({
    x: hashUnit(1, k, 0) * width,
    y: hashUnit(2, k, 0) * height,
    r: 5 + 13 * hashUnit(3, k, 0),
    hue: hashUnit(4, k, 0),
  }));
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const stroke = 0.03 * Math.sin(x / 11 + 4 * hashUnit(5, y >> 2, 0)) + 0.03 * (hashUnit(6, x, y) - 0.5);
      const light = 1 - (0.12 * x) / width - (0.08 * y) / height;
      const blob = blobs.find((one) => Math.hypot(x - one.x, y - one.y) < one.r);
      const colour = blob ? [0.3 + 0.4 * blob.hue, 0.25, 0.6 - 0.4 * blob.hue] : [0.85, 0.78, 0.62];
      const at = 4 * (x + y * width);
      for (let c = 0; c < 3; c++)
        samples[at + c] = Math.round(full * Math.min(1, Math.max(0, (colour[c] + stroke) * light)));
      samples[at + 3] = full - (blob ? 0 : Math.round((full / 255) * (x % 3)));
    }
  return { width, height, mmPerPixelX: 0.1, mmPerPixelY: 0.1, samples };
}

const LAYOUTS = ['straight', 'drop:1/2', 'drop:1/3', 'drop:2/5', 'brick:1/2', 'brick:1/4', 'turn'];
const within = { x: 40, y: 40 };

describe.each(LAYOUTS)('closing over %s', (words) => {
  const layout = parseLayout(words);
  it.each([
    ['shrunk', false],
    ['grown', true],
  ])('closes by the seam check, %s', (_, keepSize) => {
    const picture = painting(301, 263);
    const closed = closePicture(picture, planClose(picture, { layout, within, keepSize }));
    const { width, height, samples } = closed;
    // Lands on whole pixels, or this throws.
    gridOfPixels({ layout, width, height }, width, height);
    const report = checkSeams({ width, height, pixels: samples }, layout);
    expect(report.grade, report.summary).not.toBe('open');
    if (keepSize) expect(Math.abs(width - 301) + Math.abs(height - 263)).toBeLessThan(4);
    else expect(width < 301 && height < 263).toBe(true);
  });
  it.each([8, 16] as const)(
    'leaves all bytes outside the strips, and changes some inside: %i bit',
    (bits) => {
      const picture = painting(220, 190, bits);
      for (const keepSize of [false, true]) {
        const closed = closePicture(picture, planClose(picture, { layout, within, keepSize }));
        const isWorked = (x: number, y: number) =>
          closed.strips.some((s) => x >= s.x && y >= s.y && x < s.x + s.width && y < s.y + s.height);
        const worked: number[] = [];
        let outside = 0;
        for (let y = 0; y < closed.height; y++)
          for (let x = 0; x < closed.width; x++) {
            const now = 4 * (x + y * closed.width);
            const was = 4 * (x + closed.from.x + (y + closed.from.y) * picture.width);
            const isSame = [0, 1, 2, 3].every((c) => closed.samples[now + c] === picture.samples[was + c]);
            if (isWorked(x, y)) worked.push(isSame ? 0 : 1);
            else if (!isSame) outside++;
          }
        expect(outside).toBe(0);
        expect(worked.some((changed) => changed === 1)).toBe(true);
      }
    },
  );
  it('keeps to the strip that is allowed, both sides of the seam together', () => {
    const picture = painting(220, 190);
    for (const keepSize of [false, true]) {
      const { strips, width, height } = closePicture(
        picture,
        planClose(picture, { layout, within, keepSize }),
      );
      for (const way of ['width', 'height'] as const) {
        const whole = way === 'width' ? width : height;
        const wide = strips.map((strip) => strip[way]).filter((side) => side < whole / 2);
        expect(Math.max(...wide)).toBeLessThanOrEqual(40);
      }
    }
  });
});

it.each(LAYOUTS.slice(0, -1))('goes on over its edges as the picture does: %s', (words) => {
  // Neighbours over the edge of the tile are neighbours in the picture: compared with the lattice copies.
  const layout = parseLayout(words);
  const picture = painting(260, 240);
  const closed = closePicture(picture, planClose(picture, { layout, within }));
  const { width, height, samples } = closed;
  const { lattice } = gridOfPixels({ layout, width, height }, width, height);
  const toneAt = (x: number, y: number) => {
    const [column, row] = wrapPoint(lattice, x, y);
    return samples[4 * (column + row * width) + 1];
  };
  const stepAt = (x: number, y: number, dx: number, dy: number) =>
    Math.abs(toneAt(x, y) - toneAt(x - dx, y - dy));
  const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const rows = Array.from({ length: height }, (_, y) => y);
  const columns = Array.from({ length: width }, (_, x) => x);
  const insideX = mean([80, 120, 160].flatMap((x) => rows.map((y) => stepAt(x, y, 1, 0))));
  const insideY = mean([80, 120, 160].flatMap((y) => columns.map((x) => stepAt(x, y, 0, 1))));
  expect(mean(rows.map((y) => stepAt(0, y, 1, 0)))).toBeLessThan(1.6 * insideX);
  expect(mean(columns.map((x) => stepAt(x, 0, 0, 1)))).toBeLessThan(1.6 * insideY);
});

it('what closes as it is, cut out of a larger repeat, is joined without a change', () => {
  // A picture that repeats every 120 x 90 px: its best overlap takes it back to whole periods.
  const [width, height] = [264, 204];
  const samples = new Uint8Array(4 * width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      samples.set(
        [
          60 + 150 * hashUnit(1, x % 120, y % 90),
          90 + 60 * hashUnit(2, (x % 120) >> 3, (y % 90) >> 3),
          99,
          255,
        ],
        4 * (x + y * width),
      );
  const picture = { width, height, mmPerPixelX: 1, mmPerPixelY: 1, samples };
  const closed = closePicture(
    picture,
    planClose(picture, { layout: parseLayout('straight'), within: { x: 36, y: 36 } }),
  );
  expect([closed.width, closed.height]).toEqual([240, 180]);
  expect(closeChange(picture, closed)).toMatchObject({ share: 0, mean: 0, p95: 0 });
});

it('draws the cut and the strips upon the tile', () => {
  const picture = painting(220, 190);
  const closed = closePicture(picture, planClose(picture, { layout: parseLayout('drop:1/2'), within }));
  const [width, height] = [100, Math.round((100 * closed.height) / closed.width)];
  const pixels = new Uint8Array(4 * width * height).fill(200);
  drawCut({ pixels, width, height }, closed);
  const count = (...colour: number[]) => {
    let found = 0;
    for (let at = 0; at < pixels.length; at += 4)
      if (colour.every((value, channel) => pixels[at + channel] === value)) found++;
    return found;
  };
  expect(count(230, 0, 140)).toBeGreaterThan(150);
  expect(count(110, 110, 110)).toBeGreaterThan(0.4 * width * height);
});

describe('what cannot be closed', () => {
  const straight = parseLayout('straight');
  it.each(['mirror-x', 'mirror-y', 'mirror-xy'])('says what mirroring does instead: %s', (words) => {
    const order = { layout: parseLayout(words), within };
    expect(() => planClose(painting(100, 100), order)).toThrow(
      /nothing to close in mirror.*turns back there/,
    );
  });
  it.each([
    [100, 100, 41, /from 8 to 33 px/],
    [100, 100, 4, /a cut needs room/],
    [1, 300, 40, /at least 24 px wide and high/],
    [20, 20, 8, /Scan or save it larger/],
  ])('refuses %i x %i px with a strip of %i', (width, height, strip, words) => {
    const picture = painting(width, height);
    expect(() => planClose(picture, { layout: straight, within: { x: strip, y: strip } })).toThrow(words);
  });
  it('takes a flat, a transparent and a long picture', () => {
    for (const [width, height] of [
      [60, 60],
      [1500, 30],
    ]) {
      for (const alpha of [255, 0]) {
        const samples = new Uint8Array(4 * width * height).fill(120);
        for (let at = 3; at < samples.length; at += 4) samples[at] = alpha;
        const flat = { width, height, mmPerPixelX: 1, mmPerPixelY: 1, samples };
        const closed = closePicture(flat, planClose(flat, { layout: straight, within: { x: 10, y: 10 } }));
        expect(closeChange(flat, closed).share).toBe(0);
      }
    }
  });
});
