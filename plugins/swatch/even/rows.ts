/** The sums along a row of pixels, piece by piece. */
export interface Rows {
  /** The first pixel, and how many. */
  readonly x: number;
  readonly width: number;
  readonly mmPerPixelX: number;
  /** Per pixel, the sum of the squares of the weights. */
  readonly squares: Float32Array;
  /** Per plane and pixel, the sum of weighted numbers. */
  readonly sums: readonly Float32Array[];
  readonly weights: Float32Array;
  readonly scratch: { column: Float32Array; shares: Float32Array; samples: Int32Array };
  weigh(from: number, end: number, centre: number, reach: number, top: number, mmPerCell: number): void;
}

/** How a piece lies over a row. */
export interface Laid {
  readonly planes: readonly Float32Array[];
  /** Samples across and down its planes. */
  readonly width: number;
  readonly height: number;
  /** Its middle, in samples from the first one's centre. */
  readonly placeX: number;
  readonly placeY: number;
  /** Where that lies, in pixels from the first one's centre. */
  readonly centreX: number;
  readonly centreY: number;
  /** The row of pixels. */
  readonly row: number;
  /** Samples from pixel to pixel, to the right and down; below 0 where the piece is turned. */
  readonly stepX: number;
  readonly stepY: number;
}

export function rowsFor(planes: number, x: number, width: number, mmPerPixelX: number): Rows {
  const squares = new Float32Array(width);
  const weights = new Float32Array(width);
  return {
    x,
    width,
    mmPerPixelX,
    squares,
    weights,
    sums: Array.from({ length: planes }, () => new Float32Array(width)),
    scratch: {
      column: new Float32Array(0),
      shares: new Float32Array(4 * width),
      samples: new Int32Array(width),
    },
    weigh(from, end, centre, reach, top, mmPerCell) {
      const perCell = 1 / mmPerCell;
      for (let pixel = from, k = from - x; pixel < end; pixel++, k++) {
        const slope = (reach - Math.abs((pixel + 0.5) * mmPerPixelX - centre)) * perCell;
        const share = Math.min(top, Math.max(0, slope));
        const weight = share * share;
        weights[k] = weight;
        squares[k] += weight * weight;
      }
    },
  };
}

/**
 * A tie between two pixels is broken here, in pixels: no corner of a net stands there, so that a piece lies over the
 * same pixels in every copy of the repeat.
 */
const BREAK = 0.3819660112501051;

/** Adds a piece whose samples stand as close as pixels: each pixel has one of them. */
export function addCopied({ x, sums, weights }: Rows, from: number, end: number, laid: Laid): void {
  const { planes, width, height, placeX, placeY, centreX, centreY } = laid;
  const flipX = laid.stepX < 0 ? -1 : 1;
  const flipY = laid.stepY < 0 ? -1 : 1;
  const pixelX = Math.floor(centreX + BREAK);
  const pixelY = Math.floor(centreY + BREAK);
  const sampleX = Math.round(placeX + laid.stepX * (pixelX - centreX));
  const sampleY = Math.round(placeY + laid.stepY * (pixelY - centreY));
  const down = Math.max(0, Math.min(height - 1, sampleY + flipY * (laid.row - pixelY)));
  const start = sampleX + flipX * (from - pixelX);
  const finish = start + flipX * (end - 1 - from);
  const isInside = Math.min(start, finish) >= 0 && Math.max(start, finish) < width;
  for (let p = 0; p < planes.length; p++) {
    const plane = planes[p];
    const sum = sums[p];
    if (isInside) {
      for (let k = from - x, at = down * width + start; k < end - x; k++, at += flipX) {
        sum[k] += weights[k] * plane[at];
      }
    } else {
      for (let k = from - x, column = start; k < end - x; k++, column += flipX) {
        sum[k] += weights[k] * plane[down * width + Math.max(0, Math.min(width - 1, column))];
      }
    }
  }
}

/** Adds a piece by the cubic of Catmull and Rom through its samples. */
export function addCubic(rows: Rows, from: number, end: number, laid: Laid): void {
  const { x, sums, weights, scratch } = rows;
  const { planes, width, height, placeX, placeY, centreX, centreY, stepX } = laid;
  const down = placeY + laid.stepY * (laid.row - centreY);
  const start = placeX + stepX * (from - centreX);
  const finish = placeX + stepX * (end - 1 - centreX);
  const first = Math.floor(Math.min(start, finish)) - 1;
  const count = Math.floor(Math.max(start, finish)) + 3 - first;
  if (scratch.column.length < count) scratch.column = new Float32Array(count + 64);
  const { column, shares, samples } = scratch;
  for (let pixel = from, k = from - x; pixel < end; pixel++, k++) {
    const place = placeX + stepX * (pixel - centreX) - first;
    const low = Math.floor(place);
    const t = place - low;
    const weight = weights[k] * 0.5;
    samples[k] = low - 1;
    shares[4 * k] = weight * t * (t * (2 - t) - 1);
    shares[4 * k + 1] = weight * (t * t * (3 * t - 5) + 2);
    shares[4 * k + 2] = weight * t * (1 + t * (4 - 3 * t));
    shares[4 * k + 3] = weight * t * t * (t - 1);
  }
  const top = Math.floor(down);
  const t = down - top;
  const a = 0.5 * t * (t * (2 - t) - 1);
  const b = 0.5 * (t * t * (3 * t - 5) + 2);
  const c = 0.5 * t * (1 + t * (4 - 3 * t));
  const d = 0.5 * t * t * (t - 1);
  const line = (j: number) => Math.max(0, Math.min(height - 1, j)) * width;
  const [l0, l1, l2, l3] = [line(top - 1), line(top), line(top + 1), line(top + 2)];
  const isInside = first >= 0 && first + count <= width;
  for (let p = 0; p < planes.length; p++) {
    const plane = planes[p];
    const sum = sums[p];
    if (isInside) {
      for (let n = 0, i = first; n < count; n++, i++) {
        column[n] = a * plane[l0 + i] + b * plane[l1 + i] + c * plane[l2 + i] + d * plane[l3 + i];
      }
    } else {
      for (let n = 0; n < count; n++) {
        const i = Math.max(0, Math.min(width - 1, first + n));
        column[n] = a * plane[l0 + i] + b * plane[l1 + i] + c * plane[l2 + i] + d * plane[l3 + i];
      }
    }
    for (let k = from - x, s = 4 * k; k < end - x; k++, s += 4) {
      const at = samples[k];
      sum[k] +=
        shares[s] * column[at] +
        shares[s + 1] * column[at + 1] +
        shares[s + 2] * column[at + 2] +
        shares[s + 3] * column[at + 3];
    }
  }
}
