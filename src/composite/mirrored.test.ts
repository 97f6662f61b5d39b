import { describe, expect, it } from 'vitest';
import type { Band } from '../effect/effect.ts';
import { type AnyLayer, neutralLayer, type PlaneName } from '../effect/layer.ts';
import { type Grid, gridOfPixels } from '../repeat/grid.ts';
import { parseLayout } from '../repeat/layout.ts';
import { unfold } from '../repeat/unfold.ts';
import { addImage, planFollow, weighOwn } from './mirrored.ts';

/** One tile, mm. */
const WIDTH = 40;
const HEIGHT = 30;
const LAYOUTS = ['mirror-x', 'mirror-y', 'mirror-xy', 'turn'] as const;
const PLANES: readonly PlaneName[] = ['load', 'tint', 'shade', 'shift'];

const gridOf = (layout: string, perMm = 2): Grid =>
  gridOfPixels({ layout: parseLayout(layout), width: WIDTH, height: HEIGHT }, WIDTH * perMm, HEIGHT * perMm);

const tileBand = (grid: Grid, part: Partial<Band> = {}): Band => ({
  x: 0,
  y: 0,
  width: grid.tileWidth,
  height: grid.tileHeight,
  mmPerPixelX: grid.mmPerPixelX,
  mmPerPixelY: grid.mmPerPixelY,
  ...part,
});

/** Smooth, of no symmetry, and periodic over the box: x and y count boxes. */
function waves(x: number, y: number, phase: number): number {
  const [u, v] = [2 * Math.PI * x, 2 * Math.PI * y];
  return (
    Math.sin(3 * u + 2 * v + phase) +
    0.6 * Math.sin(4 * u - 6 * v + 2 * phase) +
    0.3 * Math.cos(5 * u + phase)
  );
}

/** Each number of each plane is another wave. */
function paint(grid: Grid, band: Band): AnyLayer {
  const layer = neutralLayer(PLANES, band.width, band.height);
  for (let row = 0, pixel = 0; row < band.height; row++) {
    for (let column = 0; column < band.width; column++, pixel++) {
      const [x, y] = [(band.x + column + 0.5) / grid.width, (band.y + row + 0.5) / grid.height];
      const wave = (phase: number) => waves(x, y, phase);
      layer.load![pixel] = 1 + 0.2 * wave(0);
      layer.shade![pixel] = 1 + 0.2 * wave(1);
      for (let part = 0; part < 2; part++) layer.shift![pixel * 2 + part] = wave(2 + part);
      for (let part = 0; part < 4; part++) layer.tint![pixel * 4 + part] = 0.5 + 0.2 * wave(4 + part);
    }
  }
  return layer;
}

function follow(grid: Grid, band: Band): AnyLayer {
  const layer = paint(grid, band);
  const plan = planFollow(grid, band);
  weighOwn(layer, plan);
  for (const image of plan.images) addImage(layer, image, paint(grid, image.band));
  return layer;
}

/** A plane laid out over the box; a shift is turned with its tile. */
function boxOf(grid: Grid, layer: AnyLayer, name: PlaneName): { values: Float32Array; channels: number } {
  const plane = layer[name]!;
  const channels = plane.length / (grid.tileWidth * grid.tileHeight);
  const values = new Float32Array(grid.width * grid.height * channels);
  unfold(grid.repeat.layout, plane, grid.tileWidth, grid.tileHeight, channels, values);
  if (name !== 'shift') return { values, channels };
  const { kind } = grid.repeat.layout;
  for (let pixel = 0; pixel < grid.width * grid.height; pixel++) {
    const column = Math.floor((pixel % grid.width) / grid.tileWidth);
    const row = Math.floor(pixel / grid.width / grid.tileHeight);
    if (column === 1 && kind !== 'mirror-y') values[pixel * 2] *= -1;
    if ((kind === 'turn' && column === 1) || row === 1) values[pixel * 2 + 1] *= -1;
  }
  return { values, channels };
}

/** The greatest jump, and the greatest change of slope per mm, between neighbours anywhere in the box laid in repeat. */
function roughness(grid: Grid, layer: AnyLayer, name: PlaneName): { jump: number; kink: number } {
  const { values, channels } = boxOf(grid, layer, name);
  const { width, height } = grid;
  const at = (x: number, y: number, channel: number) =>
    values[(((y + height) % height) * width + ((x + width) % width)) * channels + channel];
  let [jump, kink] = [0, 0];
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      for (let channel = 0; channel < channels; channel++) {
        const here = at(x, y, channel);
        for (const [before, after, size] of [
          [at(x - 1, y, channel), at(x + 1, y, channel), grid.mmPerPixelX],
          [at(x, y - 1, channel), at(x, y + 1, channel), grid.mmPerPixelY],
        ]) {
          jump = Math.max(jump, Math.abs(after - here));
          kink = Math.max(kink, Math.abs(after - 2 * here + before) / size);
        }
      }
    }
  }
  return { jump, kink };
}

describe.each(LAYOUTS)('a texture that follows the artwork of %s', (layout) => {
  // A jump or a crease does not grow smaller with the pixels; what is smooth does.
  it('has neither jump nor crease anywhere on the plane', () => {
    const [coarse, fine] = [gridOf(layout, 2), gridOf(layout, 8)];
    const [rough, smooth] = [follow(coarse, tileBand(coarse)), follow(fine, tileBand(fine))];
    for (const name of PLANES) {
      const [atTwo, atEight] = [roughness(coarse, rough, name), roughness(fine, smooth, name)];
      expect(atEight.jump / atTwo.jump, name).toBeLessThan(0.3);
      expect(atEight.kink / atTwo.kink, name).toBeLessThan(0.35);
    }
  });

  it('would have one if it were merely reflected', () => {
    const [coarse, fine] = [gridOf(layout, 2), gridOf(layout, 8)];
    const [rough, smooth] = [paint(coarse, tileBand(coarse)), paint(fine, tileBand(fine))];
    for (const name of PLANES) {
      const [atTwo, atEight] = [roughness(coarse, rough, name), roughness(fine, smooth, name)];
      expect(atEight.kink / atTwo.kink, name).toBeGreaterThan(0.7);
    }
  });

  it('is the texture itself, bit for bit, from 6 mm off the lines on', () => {
    const grid = gridOf(layout);
    const band = tileBand(grid);
    const [own, followed] = [paint(grid, band), follow(grid, band)];
    const [nearX, nearY] = [layout !== 'mirror-y', layout.startsWith('mirror') && layout !== 'mirror-x'];
    let [same, other] = [0, 0];
    for (let pixel = 0; pixel < grid.tileWidth * grid.tileHeight; pixel++) {
      const x = ((pixel % grid.tileWidth) + 0.5) * grid.mmPerPixelX;
      const y = (Math.floor(pixel / grid.tileWidth) + 0.5) * grid.mmPerPixelY;
      const near = (nearX && Math.min(x, WIDTH - x) < 6) || (nearY && Math.min(y, HEIGHT - y) < 6);
      const equal = PLANES.every((name) => {
        const channels = own[name]!.length / (grid.tileWidth * grid.tileHeight);
        const range = [pixel * channels, (pixel + 1) * channels] as const;
        return own[name]!.slice(...range).every((value, k) => value === followed[name]![range[0] + k]);
      });
      if (!near && !equal) throw new Error(`differs at ${x}, ${y} mm`);
      if (equal) same++;
      else other++;
    }
    expect(same).toBeGreaterThan(200);
    expect(other).toBeGreaterThan(200);
  });

  it('is the same in bands as whole', () => {
    const grid = gridOf(layout);
    const whole = follow(grid, tileBand(grid));
    const part = tileBand(grid, { x: 7, y: 5, width: 61, height: 48 });
    const cut = follow(grid, part);
    for (const name of PLANES) {
      const channels = cut[name]!.length / (part.width * part.height);
      for (let row = 0; row < part.height; row++) {
        const from = ((part.y + row) * grid.tileWidth + part.x) * channels;
        const length = part.width * channels;
        expect(cut[name]!.subarray(row * length, (row + 1) * length)).toEqual(
          whole[name]!.subarray(from, from + length),
        );
      }
    }
  });

  it('asks for no image inside', () => {
    const grid = gridOf(layout);
    expect(planFollow(grid, tileBand(grid, { x: 20, y: 20, width: 30, height: 20 })).images).toEqual([]);
  });

  it('has shares that make up one everywhere', () => {
    const grid = gridOf(layout);
    const band = tileBand(grid);
    const plan = planFollow(grid, band);
    const sum = new Float32Array(band.width * band.height);
    const own = { band, left: 0, top: 0, columns: plan.columns, rows: plan.rows };
    for (const { band: part, left, top, columns, rows } of [own, ...plan.images]) {
      for (let row = 0; row < part.height; row++) {
        for (let column = 0; column < part.width; column++)
          sum[(top + row) * band.width + left + column] += columns[column] * rows[row];
      }
    }
    for (const value of sum) expect(Math.abs(value - 1)).toBeLessThan(1e-6);
  });
});

describe('a tile narrower than the reach', () => {
  it.each(LAYOUTS)('still closes over %s', (layout) => {
    const small = (perMm: number) =>
      gridOfPixels({ layout: parseLayout(layout), width: 5, height: 4 }, 5 * perMm, 4 * perMm);
    const kinks = [8, 32].map((perMm) => {
      const grid = small(perMm);
      const layer = neutralLayer(['shade'], grid.tileWidth, grid.tileHeight);
      const paintSmall = (band: Band) => {
        const painted = neutralLayer(['shade'], band.width, band.height);
        for (let pixel = 0; pixel < band.width * band.height; pixel++) {
          const x = (band.x + (pixel % band.width) + 0.5) / grid.width;
          const y = (band.y + Math.floor(pixel / band.width) + 0.5) / grid.height;
          painted.shade![pixel] = Math.sin(2 * Math.PI * (x + y)) + Math.cos(2 * Math.PI * (x - y) + 1);
        }
        return painted;
      };
      layer.shade!.set(paintSmall(tileBand(grid)).shade!);
      const plan = planFollow(grid, tileBand(grid));
      weighOwn(layer, plan);
      for (const image of plan.images) addImage(layer, image, paintSmall(image.band));
      return roughness(grid, layer, 'shade').kink;
    });
    expect(kinks[1] / kinks[0]).toBeLessThan(0.35);
  });
});

describe('a tint', () => {
  it('is mixed by alpha, so that no colour comes from what is not there', () => {
    const layer: AnyLayer = { width: 1, height: 1, tint: Float32Array.of(0.9, 0.1, 0.1, 0.5) };
    const clear: AnyLayer = { width: 1, height: 1, tint: Float32Array.of(0, 0, 1, 0) };
    const half = Float32Array.of(0.5);
    const whole = Float32Array.of(1);
    weighOwn(layer, { columns: half, rows: whole, images: [] });
    const band = tileBand(gridOf('mirror-x'), { width: 1, height: 1 });
    addImage(layer, { band, flipX: true, flipY: false, left: 0, top: 0, columns: half, rows: whole }, clear);
    expect([...layer.tint!]).toEqual([...Float32Array.of(0.9, 0.1, 0.1, 0.25)]);
  });
});
