import { type Band, homeParts } from 'tenter';
import type { Model } from './model.ts';
import { addSample, type Sight, sightOf } from './sample.ts';

/** Fills planes of linear light for a band of the plane. */
export function paintFigured(model: Model, band: Band, planes: readonly Float32Array[]): void {
  const sight = sightOf(model.levels, Math.sqrt(band.mmPerPixelX * band.mmPerPixelY));
  for (const plane of planes) plane.fill(0, 0, band.width * band.height);
  for (const part of homeParts(band, model.lattice)) {
    for (let row = 0; row < part.height; row++) {
      const y = (part.y + row + 0.5) * band.mmPerPixelY;
      paintRow(model, sight, part.x, band.mmPerPixelX, y, planes, part.at + row * band.width, part.width);
    }
  }
}

/** A row of pixels, cell by cell: of one piece where its four corners are of one, else of each by its share. */
function paintRow(
  model: Model,
  sight: Sight,
  x0: number,
  mm: number,
  y: number,
  planes: readonly Float32Array[],
  at: number,
  count: number,
): void {
  const { width, height, mmPerCellX, mmPerCellY, piece } = model;
  const stride = width + 2;
  const t = y / mmPerCellY - 0.5;
  const j = Math.min(height - 1, Math.max(-1, Math.floor(t)));
  const v = t - j;
  const above = (j + 1) * stride + 1;
  for (let c = 0; c < count; c++) {
    const x = (x0 + c + 0.5) * mm;
    const s = x / mmPerCellX - 0.5;
    const i = Math.min(width - 1, Math.max(-1, Math.floor(s)));
    const u = s - i;
    const k = above + i;
    const n = k + stride;
    const a = piece[k];
    if (a === piece[k + 1] && a === piece[n] && a === piece[n + 1]) {
      addPiece(model, sight, a, x, y, 1, planes, at + c);
      lift(model, k, n, u, v, planes, at + c);
    } else {
      addCorner(model, sight, k, x, y, (1 - u) * (1 - v), planes, at + c);
      addCorner(model, sight, k + 1, x, y, u * (1 - v), planes, at + c);
      addCorner(model, sight, n, x, y, (1 - u) * v, planes, at + c);
      addCorner(model, sight, n + 1, x, y, u * v, planes, at + c);
    }
  }
}

function addPiece(
  { places }: Model,
  { fine, coarse, share }: Sight,
  piece: number,
  x: number,
  y: number,
  gain: number,
  planes: readonly Float32Array[],
  at: number,
): void {
  const p = 6 * piece;
  const sx = places[p] * x + places[p + 1] * y + places[p + 2];
  const sy = places[p + 3] * x + places[p + 4] * y + places[p + 5];
  addSample(fine, sx, sy, gain * (1 - share), planes, at);
  if (coarse) addSample(coarse, sx, sy, gain * share, planes, at);
}

const one = new Float32Array(3);
const single = [one.subarray(0, 1), one.subarray(1, 2), one.subarray(2, 3)];

function addCorner(
  model: Model,
  sight: Sight,
  cell: number,
  x: number,
  y: number,
  share: number,
  planes: readonly Float32Array[],
  at: number,
): void {
  if (share === 0) return;
  one.fill(0);
  addPiece(
    model,
    sight,
    model.piece[cell],
    x,
    y,
    share,
    planes.length === 3 ? single : single.slice(0, planes.length),
    0,
  );
  for (let plane = 0; plane < planes.length; plane++) {
    planes[plane][at] += one[plane] * model.gains[plane][cell];
  }
}

/** Brings a pixel of one piece to its tone. */
function lift(
  { gains }: Model,
  k: number,
  n: number,
  u: number,
  v: number,
  planes: readonly Float32Array[],
  at: number,
): void {
  for (let plane = 0; plane < planes.length; plane++) {
    const gain = gains[plane];
    const top = gain[k] + (gain[k + 1] - gain[k]) * u;
    const low = gain[n] + (gain[n + 1] - gain[n]) * u;
    planes[plane][at] *= top + (low - top) * v;
  }
}
