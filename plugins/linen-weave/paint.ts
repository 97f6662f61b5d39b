import { type Band, loadOfLight, type TextureLayer, TYPICAL_RATIO } from 'tenter';
import { paintFarRow } from './far.ts';
import type { LinenModel } from './model.ts';
import { openPainter, paintRow, type RowPainter } from './painter.ts';
import type { LinenPlane } from './parameters.ts';
import { axisOf, isFarView, samplesPerPixel } from './raster.ts';
import { openRow, type SampleRow } from './row.ts';

/** Fills the planes of a band; each pixel is the mean of its samples, or of its crossings from afar. */
export function paintLinen(model: LinenModel, band: Band, layer: TextureLayer<LinenPlane>): void {
  const wanted: (keyof SampleRow)[] = ['shade'];
  if (layer.tint) wanted.push('warp', 'weft');
  if (model.ink) wanted.push('ink', 'fromX', 'fromY');
  const draw = isFarView(model, band) ? farRows(model, band) : nearRows(model, band, wanted);
  for (let y = 0; y < band.height; y++) {
    const row = draw(band.y + y);
    // A layer holds only the planes that were asked for.
    layer.shade?.set(row.shade, y * band.width);
    if (layer.tint) tintRow(model, row, layer.tint, y * band.width);
    if (!model.ink) continue;
    if (layer.load) loadRow(row.ink, layer.load, y * band.width);
    if (layer.shift) shiftRow(row, layer.shift, 2 * y * band.width);
  }
}

type DrawRow = (y: number) => SampleRow;

function farRows(model: LinenModel, band: Band): DrawRow {
  const across = axisOf(model.sett.ends, model.width, band.mmPerPixelX, 1);
  const down = axisOf(model.sett.picks, model.height, band.mmPerPixelY, 1);
  const row = openRow(band.width);
  return (y) => {
    paintFarRow(model, across, down, band.x, y, row);
    return row;
  };
}

/** @param wanted What is wanted of each row: means are taken of nothing else. */
function nearRows(model: LinenModel, band: Band, wanted: readonly (keyof SampleRow)[]): DrawRow {
  const samples = samplesPerPixel(model, band);
  const painter = openPainter(
    model,
    axisOf(model.sett.ends, model.width, band.mmPerPixelX, samples),
    axisOf(model.sett.picks, model.height, band.mmPerPixelY, samples),
    band.x * samples,
    band.width * samples,
    band.y * samples,
    band.height * samples,
  );
  if (samples === 1) return (y) => paintRow(painter, y);
  const mean = openRow(band.width);
  return (y) => {
    meanOfRows(painter, y * samples, samples, wanted, mean);
    return mean;
  };
}

function meanOfRows(
  painter: RowPainter,
  top: number,
  samples: number,
  wanted: readonly (keyof SampleRow)[],
  mean: SampleRow,
): void {
  for (const name of wanted) mean[name].fill(0);
  for (let k = 0; k < samples; k++) {
    const row = paintRow(painter, top + k);
    for (const name of wanted) addRuns(row[name], samples, mean[name]);
  }
}

/** Adds to each pixel the share of its run of samples. */
function addRuns(row: Float32Array, samples: number, mean: Float32Array): void {
  const share = 1 / (samples * samples);
  for (let pixel = 0, at = 0; pixel < mean.length; pixel++) {
    let sum = 0;
    for (let k = 0; k < samples; k++) sum += row[at++];
    mean[pixel] += sum * share;
  }
}

/**
 * The yarn that shows, in its colour, as strong as the dye. Of the little light that comes back from a
 * dark gap most has met the yarns around it, so a gap is tinted by both as far as it is dark.
 */
function tintRow(model: LinenModel, mean: SampleRow, tint: Float32Array, first: number): void {
  const { warpColour, weftColour, dye, gapDarkness } = model;
  for (let pixel = 0, at = 4 * first; pixel < mean.warp.length; pixel++, at += 4) {
    const warp = mean.warp[pixel];
    const weft = mean.weft[pixel];
    const gap = Math.max(0, 1 - warp - weft) * gapDarkness;
    const tinted = warp + weft + gap;
    const share = tinted > 0 ? (warp + gap / 2) / tinted : 0;
    tint[at] = weftColour[0] + share * (warpColour[0] - weftColour[0]);
    tint[at + 1] = weftColour[1] + share * (warpColour[1] - weftColour[1]);
    tint[at + 2] = weftColour[2] + share * (warpColour[2] - weftColour[2]);
    tint[at + 3] = dye * Math.min(1, tinted);
  }
}

/** How much ink there is: what returns that light, and never more than the artwork has. */
function loadRow(ink: Float32Array, load: Float32Array, first: number): void {
  for (let pixel = 0; pixel < ink.length; pixel++)
    load[first + pixel] = ink[pixel] > TYPICAL_RATIO ? Math.max(0, loadOfLight(ink[pixel])) : 1;
}

function shiftRow({ fromX, fromY }: SampleRow, shift: Float32Array, first: number): void {
  for (let pixel = 0, at = first; pixel < fromX.length; pixel++, at += 2) {
    shift[at] = fromX[pixel];
    shift[at + 1] = fromY[pixel];
  }
}
