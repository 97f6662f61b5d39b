import type { Band } from '../effect/effect.ts';
import type { AnyLayer } from '../effect/layer.ts';
import type { Grid } from '../repeat/grid.ts';
import type { LayoutKind } from '../repeat/layout.ts';

/**
 * Textures that follow the artwork of a reflected layout.
 *
 * A texture f that is merely reflected with its tile meets its own image at every mirror line with a
 * crease: the slope across the line turns over. Here it is made symmetric instead. Let S be the
 * reflection (for `turn`, the half turn) that carries the tile onto its neighbour, and w a smooth
 * weight with w(p) + w(Sp) = 1, equal to 1 inside the tile from a few mm on. Then
 *
 *     g(p) = w(p) f(p) + w(Sp) f(Sp)
 *
 * has g(Sp) = g(p) and is as smooth as f and w are on the whole plane, so it crosses the line
 * without a jump or a crease; and it is f itself away from the lines. Where w is near a half and f
 * does not resemble its image, the contrast is lower, by at most the factor 1/sqrt(2).
 *
 * For `turn` the lines are the sides x = 0 and x = W, and S about a side is the half turn about its
 * middle: S(x, y) = (2 W - x, H - y).
 */
export interface FollowPlan {
  /** Share of the texture as it is, for each column and each row of the band; they multiply. */
  readonly columns: Float32Array;
  readonly rows: Float32Array;
  /** Images of it that show in the band; none away from the lines. */
  readonly images: readonly BandImage[];
}

/** A reflected image of the texture that shows in part of a band. */
export interface BandImage {
  /** The rectangle of the plane to paint; it lies beyond the line. */
  readonly band: Band;
  readonly flipX: boolean;
  readonly flipY: boolean;
  /** Where in the band it goes. */
  readonly left: number;
  readonly top: number;
  /** Its share, for each of its columns and rows as they stand in the band; they multiply. */
  readonly columns: Float32Array;
  readonly rows: Float32Array;
}

/** How far from a line the image shows, mm; less in a tile narrower than twice that. */
const REACH_MM = 6;

/** Plans what to paint for a band of ONE tile of a reflected layout. */
export function planFollow(grid: Grid, band: Band): FollowPlan {
  const { kind } = grid.repeat.layout;
  const [acrossX, acrossY] = linesOf(kind);
  const x = axisShares(band.x, band.width, grid.tileWidth, REACH_MM / grid.mmPerPixelX, acrossX);
  const y = axisShares(band.y, band.height, grid.tileHeight, REACH_MM / grid.mmPerPixelY, acrossY);
  const images: BandImage[] = [];
  for (const across of [undefined, ...x.images]) {
    for (const down of [undefined, ...y.images]) {
      if (across ?? down) images.push(imageOf(grid, band, x.own, y.own, across, down));
    }
  }
  return { columns: x.own, rows: y.own, images };
}

/** Whether the tile meets an image of itself left and right, and above and below. */
function linesOf(kind: LayoutKind): [boolean, boolean] {
  return [
    kind === 'mirror-x' || kind === 'mirror-xy' || kind === 'turn',
    kind === 'mirror-y' || kind === 'mirror-xy',
  ];
}

/** An image along one axis: the pixels it shows in, its shares there, and where it is painted. */
interface AxisImage {
  readonly from: number;
  readonly count: number;
  readonly shares: Float32Array;
  /** First pixel of the plane to paint. */
  readonly origin: number;
}

/** @param reach Pixels. */
function axisShares(start: number, count: number, size: number, reach: number, hasLines: boolean) {
  const own = new Float32Array(count).fill(1);
  if (!hasLines) return { own, images: [] as AxisImage[] };
  const within = Math.min(reach, size / 2);
  const images = [0, size].map((line) => {
    const first = Math.max(0, Math.ceil(line - within - 0.5) - start);
    const end = Math.min(count, Math.floor(line + within - 0.5) + 1 - start);
    const shares = new Float32Array(Math.max(0, end - first));
    for (let k = 0; k < shares.length; k++) {
      const distance = Math.abs(start + first + k + 0.5 - line);
      shares[k] = 1 - ownShare(distance / within);
      own[first + k] -= shares[k];
    }
    // Pixel i is the image of pixel 2 * line - 1 - i.
    return { from: first, count: shares.length, shares, origin: 2 * line - (start + first + shares.length) };
  });
  return { own, images: images.filter((image) => image.count > 0) };
}

/** 1/2 on the line, 1 from the reach on: the upper half of Perlin's quintic step, smooth to its second slope. */
function ownShare(distance: number): number {
  const t = Math.min(1, (distance + 1) / 2);
  return t * t * t * (t * (t * 6 - 15) + 10);
}

function imageOf(
  grid: Grid,
  band: Band,
  ownX: Float32Array,
  ownY: Float32Array,
  across: AxisImage | undefined,
  down: AxisImage | undefined,
): BandImage {
  const turns = grid.repeat.layout.kind === 'turn';
  const width = across?.count ?? band.width;
  const height = down?.count ?? band.height;
  // A half turn about (line, height / 2) takes row j to row H - 1 - j.
  const y = turns ? grid.tileHeight - band.y - band.height : (down?.origin ?? band.y);
  return {
    band: { ...band, x: across?.origin ?? band.x, y, width, height },
    flipX: across !== undefined,
    flipY: turns || down !== undefined,
    left: across?.from ?? 0,
    top: down?.from ?? 0,
    columns: across?.shares ?? ownX,
    rows: down?.shares ?? ownY,
  };
}

/**
 * Weighs a layer by its own shares, in place; away from the lines it stays bit for bit. Of a tint
 * only the alpha is weighed: the colours are mixed by their alphas as the images come.
 *
 * @param layer Of the whole band.
 */
export function weighOwn(layer: AnyLayer, { columns, rows }: FollowPlan): void {
  const { load, parting, tint, shade, shift, bleed, relief } = layer;
  for (let row = 0, pixel = 0; row < layer.height; row++) {
    for (let column = 0; column < layer.width; column++, pixel++) {
      const share = columns[column] * rows[row];
      if (share === 1) continue;
      if (load) load[pixel] *= share;
      if (parting) for (let channel = 0; channel < 3; channel++) parting[pixel * 3 + channel] *= share;
      if (tint) tint[pixel * 4 + 3] *= share;
      if (shade) shade[pixel] *= share;
      if (bleed) bleed[pixel] *= share;
      if (relief) relief[pixel] *= share;
      if (shift) {
        shift[pixel * 2] *= share;
        shift[pixel * 2 + 1] *= share;
      }
    }
  }
}

/**
 * Adds an image to a weighed layer, flipped; a reflected shift points the other way. Once all images
 * of the plan are in, the layer is the symmetric texture.
 *
 * @param painted The image's band as the effect paints it; has the planes of `layer`.
 */
export function addImage(layer: AnyLayer, image: BandImage, painted: AnyLayer): void {
  const { flipX, flipY, columns, rows, left, top } = image;
  const { width, height } = painted;
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const share = columns[column] * rows[row];
      const from = (flipY ? height - 1 - row : row) * width + (flipX ? width - 1 - column : column);
      const to = (top + row) * layer.width + left + column;
      if (layer.load) layer.load[to] += share * painted.load![from];
      if (layer.parting)
        for (let channel = 0; channel < 3; channel++)
          layer.parting[to * 3 + channel] += share * painted.parting![from * 3 + channel];
      if (layer.shade) layer.shade[to] += share * painted.shade![from];
      if (layer.bleed) layer.bleed[to] += share * painted.bleed![from];
      if (layer.relief) layer.relief[to] += share * painted.relief![from];
      if (layer.shift) {
        layer.shift[to * 2] += (flipX ? -share : share) * painted.shift![from * 2];
        layer.shift[to * 2 + 1] += (flipY ? -share : share) * painted.shift![from * 2 + 1];
      }
      if (layer.tint) addTint(layer.tint, to * 4, painted.tint!, from * 4, share);
    }
  }
}

/** Moves the mean colour toward the new one by the new one's part of all the alpha so far. */
function addTint(tint: Float32Array, to: number, painted: Float32Array, from: number, share: number): void {
  const added = share * painted[from + 3];
  const alpha = tint[to + 3] + added;
  if (alpha === 0) return;
  const part = added / alpha;
  for (let channel = 0; channel < 3; channel++)
    tint[to + channel] += (painted[from + channel] - tint[to + channel]) * part;
  tint[to + 3] = alpha;
}
