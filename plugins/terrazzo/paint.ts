import {
  addFractalRow,
  addInRuns,
  type Band,
  fractalOnPixels,
  type HomePart,
  homeParts,
  runLength,
  type TextureLayer,
  visitCopies,
} from 'tenter';
import { PER_STONE, type TerrazzoModel } from './model.ts';

/** mm over which edges are soft even under a lens. */
const SOFT = 0.05;
/** No edge wavers farther, mm. */
const MOST_WAVER = 0.3;

/** The noises of a part, pixel by pixel. */
interface Ground {
  readonly waver: Float32Array;
  readonly broad: Float32Array;
  readonly grain: Float32Array;
}

/** Fills the tint of a band: first the stones, as paint times cover, then the cement between them. */
export function paintTerrazzo(model: TerrazzoModel, band: Band, layer: TextureLayer<'tint'>): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  const fine = [model.waver, ...model.clouds].map((noise) =>
    fractalOnPixels(noise, mmPerPixelX, mmPerPixelY),
  );
  for (const part of homeParts(band, model.lattice)) {
    const [waver, broad, grain] = fine.map((noise) => {
      const plane = new Float32Array(part.width * part.height);
      const row = new Float32Array(runLength(part.width));
      for (let j = 0; j < part.height; j++) {
        const y = (part.y + j + 0.5) * mmPerPixelY;
        const from = addInRuns(part.x, part.width, row, (pixel, count, offset) =>
          addFractalRow(noise, (pixel + 0.5) * mmPerPixelX, mmPerPixelX, y, 1, row, count, offset),
        );
        plane.set(row.subarray(from, from + part.width), j * part.width);
      }
      return plane;
    });
    const ground = { waver, broad, grain };
    layStones(model, band, part, ground, layer.tint);
    layBed(model, band, part, ground, layer.tint);
  }
}

function layStones(
  model: TerrazzoModel,
  band: Band,
  part: HomePart,
  ground: Ground,
  tint: Float32Array,
): void {
  const { numbers } = model.stones;
  const { mmPerPixelX, mmPerPixelY } = band;
  const left = part.x * mmPerPixelX;
  const top = part.y * mmPerPixelY;
  const right = left + part.width * mmPerPixelX;
  const bottom = top + part.height * mmPerPixelY;
  const soft = Math.hypot(SOFT, Math.sqrt(mmPerPixelX * mmPerPixelY));
  for (let stone = 0, at = 0; at < numbers.length; stone++, at += PER_STONE) {
    const reach = numbers[at + 2] + soft + MOST_WAVER;
    const near = { left: left - reach, top: top - reach, right: right + reach, bottom: bottom + reach };
    visitCopies(model.lattice, numbers[at], numbers[at + 1], near, (x, y) =>
      layStone(model, stone, x, y, soft, band, part, ground, tint),
    );
  }
}

/** Adds one stone, whose middle stands at (x, y), to a part. */
function layStone(
  { stones }: TerrazzoModel,
  stone: number,
  x: number,
  y: number,
  soft: number,
  band: Band,
  part: HomePart,
  { waver, broad, grain }: Ground,
  tint: Float32Array,
): void {
  const { numbers, starts, sides } = stones;
  const { mmPerPixelX, mmPerPixelY } = band;
  const at = stone * PER_STONE;
  const [first, end] = [starts[stone] * 3, starts[stone + 1] * 3];
  const reach = numbers[at + 2] + soft + MOST_WAVER;
  const radius = numbers[at + 3];
  const { inset, weight } = keptArea(radius, soft);
  const round = numbers[at + 9];
  const x0 = (part.x + 0.5) * mmPerPixelX - x;
  const y0 = (part.y + 0.5) * mmPerPixelY - y;
  const firstRow = Math.max(0, Math.ceil((-reach - y0) / mmPerPixelY));
  const lastRow = Math.min(part.height - 1, Math.floor((reach - y0) / mmPerPixelY));
  const firstColumn = Math.max(0, Math.ceil((-reach - x0) / mmPerPixelX));
  const lastColumn = Math.min(part.width - 1, Math.floor((reach - x0) / mmPerPixelX));
  // Small stones waver less.
  const wavering = Math.min(1, radius / 1.5);
  for (let j = firstRow; j <= lastRow; j++) {
    const dy = y0 + j * mmPerPixelY;
    for (let i = firstColumn, k = j * part.width + firstColumn; i <= lastColumn; i++, k++) {
      const dx = x0 + i * mmPerPixelX;
      let least = 1e9;
      for (let s = first; s < end; s += 3) {
        const inside = sides[s + 2] - sides[s] * dx - sides[s + 1] * dy;
        if (inside < least) least = inside;
      }
      if (least < -soft - MOST_WAVER) continue;
      let depth = least;
      if (least < 3 * round + soft) {
        // A smooth minimum: corners as if worn by water.
        let sum = 0;
        for (let s = first; s < end; s += 3) {
          const inside = sides[s + 2] - sides[s] * dx - sides[s + 1] * dy;
          if (inside < least + 6 * round) sum += Math.exp((least - inside) / round);
        }
        depth = least - round * Math.log(sum);
      }
      const edge = (depth - inset + wavering * Math.max(-MOST_WAVER, Math.min(MOST_WAVER, waver[k]))) / soft;
      if (edge <= -0.5) continue;
      const cover = weight * Math.min(1, 0.5 + edge);
      const tone = numbers[at + 7] * broad[k] + numbers[at + 8] * grain[k];
      const to = 4 * (part.at + j * band.width + i);
      tint[to] += cover * (numbers[at + 4] + tone);
      tint[to + 1] += cover * (numbers[at + 5] + tone);
      tint[to + 2] += cover * (numbers[at + 6] + tone);
      tint[to + 3] += cover;
    }
  }
}

/**
 * What keeps the area of a disc of a radius whose edge is softened over `soft`, for such an edge alone covers
 * pi (r^2 + soft^2 / 12): it is drawn in; or where the disc is smaller than its edge, paled.
 */
export function keptArea(radius: number, soft: number): { inset: number; weight: number } {
  if (radius > 0.75 * soft) {
    return { inset: radius - Math.sqrt(radius * radius - (soft * soft) / 12), weight: 1 };
  }
  const drawn = radius > soft / 2 ? radius ** 2 + soft ** 2 / 12 : (radius + soft / 2) ** 3 / (3 * soft);
  return { inset: 0, weight: radius ** 2 / drawn };
}

/** Mixes the stones with the cement, or leaves the artwork between them. */
function layBed(
  { bed, bedCloud, strength }: TerrazzoModel,
  band: Band,
  part: HomePart,
  { broad, grain }: Ground,
  tint: Float32Array,
): void {
  const unit = (value: number) => Math.min(1, Math.max(0, value));
  for (let j = 0; j < part.height; j++) {
    for (let i = 0, k = j * part.width; i < part.width; i++, k++) {
      const to = 4 * (part.at + j * band.width + i);
      const cover = tint[to + 3];
      const over = Math.max(1, cover);
      const free = bed ? Math.max(0, 1 - cover) : 0;
      const whole = cover / over + free;
      if (whole === 0) continue;
      const tone = bedCloud * (broad[k] + grain[k]);
      for (let c = 0; c < 3; c++) {
        const cement = bed ? free * (bed[c] + tone) : 0;
        tint[to + c] = unit((tint[to + c] / over + cement) / whole);
      }
      tint[to + 3] = strength * Math.min(1, whole);
    }
  }
}
