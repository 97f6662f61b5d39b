import { planesRead } from '../artwork.ts';
import type { Band } from '../effect.ts';
import { type AnyLayer, PLANE_CHANNELS, PLANE_NAMES } from '../layer.ts';
import type { Bench, Sample } from './bench.ts';

type Rectangle = Pick<Band, 'x' | 'y' | 'width' | 'height'>;

const ANYWHERE =
  'Work out every pixel from its own place, (band.x + i + 0.5) * band.mmPerPixelX, and never from where the band begins; neighbours a pixel needs are worked out beyond the band.';
/** Where no edge of these bands shows it, though others do. */
const FEW =
  'Only a few pixels differ, at some edges alone: something that stands outside the band reaches into it by a pixel or less more than is looked for. Look as far around the band as a thing reaches with its soft edge, which is wider in mm where pixels are.';
/** px at an edge within which one looks at the next pixel, or the one after it. */
const NEXT = 4;

/**
 * What makes a band differ from the same pixels in a larger one: bands that begin lower, further right and both
 * are held against the larger one, and where they differ from it tells.
 *
 * @param around A band that does not paint the same as its parts, at least 24 px either way.
 * @returns What to do, in sentences.
 */
export function bandRemedy(bench: Bench, sample: Sample, around: Rectangle): string {
  const whole = bench.paint(sample, around);
  const differs = (part: Rectangle) => maskOf(bench, sample, whole, around, part);
  const [w, h] = [around.width >> 2, around.height >> 2];
  const lower = differs({ ...around, y: around.y + h, height: around.height - 2 * h });
  const further = differs({ ...around, x: around.x + w, width: around.width - 2 * w });
  const rows = edgesOf(lower.map((row) => row.some(Boolean)));
  const columns = edgesOf(transposed(further).map((column) => column.some(Boolean)));
  const found = [rows, columns].filter((edges) => edges !== undefined);
  if (found.length === 0) return `${FEW} ${ANYWHERE}`;
  if (found.every((edges) => edges <= NEXT)) return nextPixel(bench);
  if (found.every((edges) => Number.isFinite(edges))) return cutOff(sample, Math.max(...found));
  if (!columns) return fromRowToRow;
  return rows ? ANYWHERE : alongTheRow;
}

const fromRowToRow =
  'It depends on the row in which a band begins, and not on the column: what is summed up or kept from row to row of the band, as in a buffer that is not cleared, begins anew with every band; or what stands above or below the band reaches further into it than is looked for. Work out every row from its own place.';
const alongTheRow =
  'It depends on the column in which a band begins, and not on the row: what runs along a row of the band, as a sum or a smoothing, begins anew with every band; or what stands beside the band reaches further into it than is looked for. Work out every pixel from its own place.';

function nextPixel({ effect }: Bench): string {
  const beside =
    'Only pixels at the edge of a band differ: they look at the next pixel, and beyond the band there is none.';
  return planesRead(effect).length > 0
    ? `${beside} Of what lies below look at your own pixel alone; of your own texture work out the next one too.`
    : `${beside} Work the next one out as well, beyond the band.`;
}

function cutOff(sample: Sample, edges: number): string {
  const mm = (edges * sample.grid.mmPerPixelX).toPrecision(2);
  return `Only pixels near the edge of a band differ, up to ${edges} px (${mm} mm) from it: something that stands outside the band reaches further into it than is looked for. Look as far around the band as the largest of them reaches, at any value of the parameters.`;
}

/** How far from the nearer end those that differ lie, Infinity where they lie all over; nothing where none does. */
function edgesOf(differing: readonly boolean[]): number | undefined {
  if (!differing.some(Boolean)) return undefined;
  const deepest = Math.max(
    ...differing.map((differs, k) => (differs ? 1 + Math.min(k, differing.length - 1 - k) : 0)),
  );
  return deepest <= differing.length / 3 ? deepest : Number.POSITIVE_INFINITY;
}

/** Which pixels of a part differ, row by row. */
function maskOf(
  bench: Bench,
  sample: Sample,
  whole: AnyLayer,
  around: Rectangle,
  part: Rectangle,
): boolean[][] {
  const layer = bench.paint(sample, part);
  return Array.from({ length: part.height }, (_, row) =>
    Array.from({ length: part.width }, (_, column) => {
      const there = (row + part.y - around.y) * around.width + column + part.x - around.x;
      return PLANE_NAMES.some((plane) => {
        const count = PLANE_CHANNELS[plane];
        const [mine, theirs] = [layer[plane], whole[plane]];
        if (!mine || !theirs) return false;
        for (let k = 0; k < count; k++) {
          const here = (row * part.width + column) * count + k;
          if (!Object.is(mine[here], theirs[there * count + k])) return true;
        }
        return false;
      });
    }),
  );
}

function transposed(rows: readonly (readonly boolean[])[]): boolean[][] {
  return Array.from({ length: rows[0].length }, (_, column) => rows.map((row) => row[column]));
}
