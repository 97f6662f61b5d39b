import { type Band, type HomePart, visitCopies } from 'tenter';
import type { WaxModel } from './model.ts';
import { PER_SEGMENT } from './segments.ts';

/** A part's pixels, row by row: how far each is moved by fray, mm, and how much a crack dyes it. */
export interface Sheet {
  readonly moveX: Float32Array;
  readonly moveY: Float32Array;
  readonly dyed: Float32Array;
}

/** Edges of cracks are this soft in any case, mm. */
const SOFT = 0.09;
/** How far pixels may be moved by fray, mm. */
const MOST_FRAY = 0.25;

/** Draws every crack that lies over a part; of two that meet the stronger shows. */
export function drawCracks(model: WaxModel, part: HomePart, band: Band, sheet: Sheet): void {
  const { lattice, segments } = model;
  const { mmPerPixelX, mmPerPixelY } = band;
  const soft = Math.hypot(SOFT, Math.sqrt(mmPerPixelX * mmPerPixelY));
  const reach = segments.reach + soft + MOST_FRAY;
  const left = part.x * mmPerPixelX - reach;
  const right = (part.x + part.width) * mmPerPixelX + reach;
  const top = part.y * mmPerPixelY - reach;
  const bottom = (part.y + part.height) * mmPerPixelY + reach;
  const height = segments.stripHeight * (segments.starts.length - 1);
  // Copies of the box whose strips may reach the part; bx and ay slant the box, so it is taken wider.
  const around = { left: left - lattice.ax, right, top: top - height, bottom };
  visitCopies(lattice, 0, 0, around, (originX, originY) => {
    const first = Math.max(0, Math.floor((top - originY) / segments.stripHeight));
    const last = Math.min(segments.starts.length - 2, Math.floor((bottom - originY) / segments.stripHeight));
    for (let strip = first; strip <= last; strip++) {
      for (let k = segments.starts[strip]; k < segments.starts[strip + 1]; k++) {
        const middle =
          originX + segments.numbers[k * PER_SEGMENT] + segments.numbers[k * PER_SEGMENT + 2] / 2;
        if (middle < left || middle > right) continue;
        drawSegment(segments.numbers, k * PER_SEGMENT, originX, originY, soft, part, band, sheet);
      }
    }
  });
}

function drawSegment(
  numbers: Float32Array,
  at: number,
  originX: number,
  originY: number,
  soft: number,
  part: HomePart,
  band: Band,
  { moveX, moveY, dyed }: Sheet,
): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  const dx = numbers[at + 2];
  const dy = numbers[at + 3];
  const half = numbers[at + 4];
  const halfRise = numbers[at + 5] - half;
  const ink = numbers[at + 6];
  const inkRise = numbers[at + 7] - ink;
  const length = Math.sqrt(dx * dx + dy * dy);
  const cos = dx / length;
  const sin = dy / length;
  const edge = soft / 2;
  const perLength = 1 / length;
  // Neighbours of one crack overlap a little, or their bends would gape.
  const lap = 0.4 * Math.max(half, half + halfRise) + 0.02;
  const reach = Math.max(half, half + halfRise) + edge + MOST_FRAY;
  // In pixels of the part: pixel i lies at x0 + i * mmPerPixelX from the start of the segment.
  const x0 = (part.x + 0.5) * mmPerPixelX - (originX + numbers[at]);
  const y0 = (part.y + 0.5) * mmPerPixelY - (originY + numbers[at + 1]);
  const low = Math.min(0, dy) - reach;
  const high = Math.max(0, dy) + reach;
  const firstRow = Math.max(0, Math.ceil((low - y0) / mmPerPixelY));
  const lastRow = Math.min(part.height - 1, Math.floor((high - y0) / mmPerPixelY));
  const leftmost = Math.min(0, dx) - reach;
  const rightmost = Math.max(0, dx) + reach;
  const slant = Math.abs(sin) > 0.05 ? 1 / sin : 0;
  for (let j = firstRow; j <= lastRow; j++) {
    const y = y0 + j * mmPerPixelY;
    let from = leftmost;
    let to = rightmost;
    if (slant !== 0) {
      const middle = y * cos * slant;
      const wide = Math.abs(reach * slant);
      from = Math.max(from, middle - wide);
      to = Math.min(to, middle + wide);
    }
    const firstColumn = Math.max(0, Math.ceil((from - x0) / mmPerPixelX));
    const lastColumn = Math.min(part.width - 1, Math.floor((to - x0) / mmPerPixelX));
    for (let i = firstColumn, k = j * part.width + firstColumn; i <= lastColumn; i++, k++) {
      const px = x0 + i * mmPerPixelX + moveX[k];
      const py = y + moveY[k];
      const along = px * cos + py * sin;
      if (along < -lap || along > length + lap) continue;
      const away = Math.abs(px * sin - py * cos);
      const t = Math.max(0, Math.min(1, along * perLength));
      const own = half + halfRise * t;
      const covered = Math.min(away + edge, own) - Math.max(away - edge, -own);
      if (covered <= 0) continue;
      const value = (covered / soft) * (ink + inkRise * t);
      if (value > dyed[k]) dyed[k] = value;
    }
  }
}
