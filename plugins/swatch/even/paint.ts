import { type Band, cellIndex, homeParts } from 'tenter';
import { ENTRIES, PER_DEVIATION, REACH } from './bell.ts';
import { type BellLevel, type EvenModel, PER_PIECE } from './model.ts';
import { addCopied, addCubic, type Rows, rowsFor } from './rows.ts';
import { FLIPS, TURNED_ON_ITS_SIDE } from './ways.ts';

/** A density so near that of a level, in powers of two, is taken for it. */
const SAME = 0.02;
/** So far from it, in powers of two, a level is painted alone. */
const ALONE = 0.3;

/** Fills the planes of a band: pieces added on the bell curve, and the table that leads back. */
export function paintEven(model: EvenModel, band: Band, planes: readonly Float32Array[]): void {
  const { mmPerPixelX, mmPerPixelY, width } = band;
  const seen = levelsSeen(model.levels, Math.sqrt(mmPerPixelX * mmPerPixelY));
  for (const part of homeParts(band, model.lattice)) {
    const rows = rowsFor(planes.length, part.x, part.width, mmPerPixelX);
    for (let j = 0; j < part.height; j++) {
      const to = part.at + j * width;
      for (const plane of planes) plane.fill(0, to, to + part.width);
      for (const { level, share } of seen) {
        addPieces(model, level, rows, part.y + j, mmPerPixelY);
        leadBack(model, level, rows, share, planes, to);
      }
    }
  }
}

/** The levels that show at a density, and how much of each: two where it lies between them. */
function levelsSeen(levels: readonly BellLevel[], mmPerPixel: number): { level: BellLevel; share: number }[] {
  const place = Math.log2(mmPerPixel / levels[0].mmPerSample);
  const lower = Math.max(0, Math.min(levels.length - 1, Math.floor(place + SAME)));
  // A level serves a little beyond its own density, and one takes the other's place in between.
  const share = Math.min(1, Math.max(0, (place - lower - ALONE) / (1 - 2 * ALONE)));
  if (share < SAME || lower === levels.length - 1) return [{ level: levels[lower], share: 1 }];
  if (share > 1 - SAME) return [{ level: levels[lower + 1], share: 1 }];
  return [
    { level: levels[lower], share: 1 - share },
    { level: levels[lower + 1], share },
  ];
}

/** Adds the pieces that lie over a row of pixels. */
function addPieces(
  { pieces: { net, numbers } }: EvenModel,
  level: BellLevel,
  rows: Rows,
  row: number,
  mmPerPixelY: number,
): void {
  const { mmPerCellX, mmPerCellY } = net;
  const { x, width, mmPerPixelX } = rows;
  rows.squares.fill(0);
  for (const sum of rows.sums) sum.fill(0);
  const perSample = 1 / level.mmPerSample;
  const stepX = mmPerPixelX * perSample;
  const stepY = mmPerPixelY * perSample;
  // Where pixels stand as close as samples all over a piece they are copied, for a mean of neighbours is duller.
  const off = Math.max(Math.abs(stepX - 1) * mmPerCellX, Math.abs(stepY - 1) * mmPerCellY) * perSample;
  const add = off < 0.1 ? addCopied : addCubic;
  const y = (row + 0.5) * mmPerPixelY;
  const above = Math.floor(y / mmPerCellY);
  for (let j = above; j <= above + 1; j++) {
    // The weight of a piece along the row: a trapeze, level on top and falling to 0 over so many steps of the net.
    const top = 1 - Math.abs(y / mmPerCellY - j);
    if (top <= 0) continue;
    const reach = ((1 + top) / 2) * mmPerCellX;
    const aside = (j & 1) === 0 ? 0 : 0.5;
    const centreY = j * mmPerCellY;
    const first = Math.ceil(((x + 0.5) * mmPerPixelX - reach) / mmPerCellX - aside);
    const last = Math.floor(((x + width - 0.5) * mmPerPixelX + reach) / mmPerCellX - aside);
    for (let i = first; i <= last; i++) {
      const centre = (i + aside) * mmPerCellX;
      const from = Math.max(x, Math.ceil((centre - reach) / mmPerPixelX - 0.5));
      const end = Math.min(x + width - 1, Math.floor((centre + reach) / mmPerPixelX - 0.5)) + 1;
      if (end <= from) continue;
      const at = cellIndex(net, i, j) * PER_PIECE;
      const way = numbers[at + 2];
      const isTurned = TURNED_ON_ITS_SIDE[way];
      rows.weigh(from, end, centre, reach, top, mmPerCellX);
      add(rows, from, end, {
        planes: isTurned ? level.turned : level.planes,
        width: isTurned ? level.height : level.width,
        height: isTurned ? level.width : level.height,
        placeX: numbers[at] * perSample - 0.5,
        placeY: numbers[at + 1] * perSample - 0.5,
        centreX: centre / mmPerPixelX - 0.5,
        centreY: centreY / mmPerPixelY - 0.5,
        row,
        stepX: stepX * FLIPS[way][0],
        stepY: stepY * FLIPS[way][1],
      });
    }
  }
}

/** Leads sums of pieces back from the bell curve, and adds a share of what they come to to the planes. */
function leadBack(
  { axes: { mean, rows: axes } }: EvenModel,
  { tables, curves }: BellLevel,
  { squares, sums, width }: Rows,
  share: number,
  planes: readonly Float32Array[],
  to: number,
): void {
  if (planes.length === 1) {
    const [plane] = planes;
    for (let k = 0; k < width; k++) {
      plane[to + k] += share * Math.max(0, back(tables[0], sums[0][k] / Math.sqrt(squares[k])));
    }
    return;
  }
  const [first, second, third] = tables;
  const [a, b, c] = sums;
  const [red, green, blue] = planes;
  const [[ar, ag, ab], [br, bg, bb], [cr, cg, cb]] = axes;
  const [mr, mg, mb] = mean;
  const [{ mean: meanB, deviation: deviationB }, { mean: meanC, deviation: deviationC }] = curves;
  for (let k = 0; k < width; k++) {
    const scale = 1 / Math.sqrt(squares[k]);
    const entry = Math.max(0, Math.min(ENTRIES - 1, (a[k] * scale + REACH) * PER_DEVIATION));
    const low = entry | 0;
    const t = entry - low;
    const va = first[low] + t * (first[low + 1] - first[low]);
    const vb = meanB[low] + t * (meanB[low + 1] - meanB[low]) + deviationB[low] * back(second, b[k] * scale);
    const vc = meanC[low] + t * (meanC[low + 1] - meanC[low]) + deviationC[low] * back(third, c[k] * scale);
    red[to + k] += share * Math.max(0, mr + ar * va + br * vb + cr * vc);
    green[to + k] += share * Math.max(0, mg + ag * va + bg * vb + cg * vc);
    blue[to + k] += share * Math.max(0, mb + ab * va + bb * vb + cb * vc);
  }
}

/** What a table holds at a place on the bell curve. */
function back(table: Float32Array, place: number): number {
  const entry = Math.max(0, Math.min(ENTRIES - 1, (place + REACH) * PER_DEVIATION));
  const low = entry | 0;
  return table[low] + (entry - low) * (table[low + 1] - table[low]);
}
