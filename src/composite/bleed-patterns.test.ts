import { describe, expect, it } from 'vitest';
import { type Layout, parseLayout } from '../repeat/layout.ts';
import { gridOf, LAYOUTS, run } from './testing/run-paint.ts';

const SIDE = 64;
const [DARK, LIGHT] = [30, 220];
const PITCHES = Array.from({ length: 15 }, (_, k) => k + 2);
const PATTERNS: Record<string, (x: number, y: number, pitch: number) => boolean> = {
  stripes: (x, _, pitch) => x % pitch < pitch / 2,
  checks: (x, y, pitch) => x % pitch < pitch / 2 === y % pitch < pitch / 2,
  dots: (x, y, pitch) => x % pitch < pitch / 2 && y % pitch < pitch / 2,
};

/** The pixel of one tile that shows (x, y) of the plane, worked out from the layout's words alone. */
function shownAt({ kind, numerator, denominator }: Layout, x: number, y: number): [number, number] {
  const part = (SIDE * numerator) / denominator;
  const wrap = (value: number) => ((value % SIDE) + SIDE) % SIDE;
  const [column, row] = [Math.floor(x / SIDE), Math.floor(y / SIDE)];
  if (kind === 'drop') return [wrap(x), wrap(y - column * part)];
  if (kind === 'brick') return [wrap(x - row * part), wrap(y)];
  const odd = (value: number) => Math.abs(value % 2) === 1;
  const flipX = odd(column) && ['mirror-x', 'mirror-xy', 'turn'].includes(kind);
  const flipY = kind === 'turn' ? odd(column) : odd(row) && ['mirror-y', 'mirror-xy'].includes(kind);
  return [flipX ? SIDE - 1 - wrap(x) : wrap(x), flipY ? SIDE - 1 - wrap(y) : wrap(y)];
}

/** A Gaussian of `spread` px over what stands in repeat, summed in doubles out to five deviations. */
function direct(isDark: (x: number, y: number) => boolean, width: number, height: number, spread: number) {
  const reach = Math.ceil(5 * spread);
  const taps = Array.from({ length: 2 * reach + 1 }, (_, k) =>
    Math.exp(-((k - reach) ** 2) / (2 * spread ** 2)),
  );
  const sum = taps.reduce((total, tap) => total + tap, 0);
  const rows = height + 2 * reach;
  const across = new Float64Array(width * rows);
  for (let y = 0; y < rows; y++) {
    const line = Float64Array.from({ length: width + 2 * reach }, (_, x) =>
      Number(isDark(x - reach, y - reach)),
    );
    for (let x = 0; x < width; x++)
      for (let k = 0; k < taps.length; k++) across[y * width + x] += (taps[k] / sum) * line[x + k];
  }
  const result = new Float64Array(width * height);
  for (let y = 0; y < height; y++)
    for (let k = 0; k < taps.length; k++)
      for (let x = 0; x < width; x++) result[y * width + x] += (taps[k] / sum) * across[(y + k) * width + x];
  return result;
}

/** How far the amounts of paint are from the direct sum, as a share of what lies between dark and light. */
function farthest(name: string, layoutText: string, pitch: number, spread: number): number {
  const layout = parseLayout(layoutText);
  const grid = gridOf(layoutText, SIDE);
  const isDark = (x: number, y: number) => {
    const [column, row] = shownAt(layout, x, y);
    return PATTERNS[name](column, row, pitch);
  };
  const pixels = new Uint8Array(4 * grid.width * grid.height).fill(255);
  for (let k = 0; k < grid.width * grid.height; k++)
    pixels.fill(isDark(k % grid.width, Math.floor(k / grid.width)) ? DARK : LIGHT, 4 * k, 4 * k + 3);
  const ran = run(pixels, grid, spread);
  const wanted = direct(isDark, grid.width, grid.height, spread);
  const linear = (byte: number) => ((byte / 255 + 0.055) / 1.055) ** 2.4;
  const [dark, light] = [Math.log(linear(DARK)), Math.log(linear(LIGHT))];
  let most = 0;
  for (let k = 0; k < wanted.length; k++)
    most = Math.max(most, Math.abs((Math.log(ran[4 * k]) - light) / (dark - light) - wanted[k]));
  return most;
}

describe('layBleed on small patterns', () => {
  // A spread of a level itself; and one between, where two Gaussians mixed leave more of fine patterns.
  const cases = LAYOUTS.flatMap((layout) => Object.keys(PATTERNS).map((name) => [name, layout] as const));
  it.each(cases)('runs %s of 2 to 16 px over %s as a Gaussian does', (name, layout) => {
    for (const [spread, most] of [
      [2, 0.03],
      [6, 0.12],
    ])
      for (const pitch of PITCHES)
        expect(farthest(name, layout, pitch, spread), `pitch ${pitch}, ${spread} px`).toBeLessThan(most);
  });
});
