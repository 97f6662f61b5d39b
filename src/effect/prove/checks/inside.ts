import { planesRead } from '../../artwork.ts';
import { type AnyLayer, neutralLayer, PLANE_CHANNELS } from '../../layer.ts';
import { atDensity, type Bench, type Sample } from '../bench.ts';
import type { Check } from '../check.ts';
import { Failed } from '../failed.ts';
import { guardedLayer, type Stray } from '../guard.ts';
import { fillRectangle, showLayer, sideBySide } from '../picture.ts';
import type { ProofPicture } from '../report.ts';
import { HOME } from '../trial.ts';
import { overTrials, SKETCHED, spread, thinned, variants } from '../vary.ts';

/** Wide, high, single rows, columns and pixels: each makes another slip of an index show. */
const BANDS = [
  { x: -7, y: -5, width: 23, height: 11 },
  { x: 90, y: 40, width: 9, height: 31 },
  { x: 3, y: -2, width: 37, height: 1 },
  { x: -1, y: 8, width: 1, height: 19 },
  { x: 0, y: 0, width: 1, height: 1 },
];

/** px/mm: what is as wide as a pixel, or as many, reaches out of a band there. */
const DENSITIES = [47.2, 1.2];
/** Extremes that are tried in one band each. */
const MOST_OTHERS = { quick: 8, whole: 40 };

const BELOW = { x: -11, y: -7, width: 48, height: 32 };

export const inside: Check = {
  name: 'inside',
  promise:
    'It writes only inside the band that it was asked for, and into nothing that it was handed to read.',
  needs: ['runs'],
  async run(bench) {
    const sample = await bench.shared(HOME);
    for (const band of BANDS) tryBand(bench, sample, band);
    for (const density of DENSITIES) tryBand(bench, atDensity(sample, density), BANDS[0]);
    const others = thinned(
      variants(bench.effect, SKETCHED).slice(1),
      MOST_OTHERS[bench.quick ? 'quick' : 'whole'],
    );
    await overTrials(bench, others, (other) => tryBand(bench, other, BANDS[0]));
    if (planesRead(bench.effect).length > 0)
      await overTrials(bench, spread(bench), (read) => tryBelow(bench, read));
    return { status: 'passed' };
  },
};

function tryBand(bench: Bench, sample: Sample, band: (typeof BANDS)[number]): void {
  const { width, height } = band;
  const guarded = guardedLayer(sample.planes, width, height);
  try {
    bench.paintInto(sample, band, guarded.layer);
  } catch (error) {
    // What else is wrong with the call is for other checks to say, unless the plane itself refused.
    if (error instanceof RangeError) throw tooLong(sample, band, error);
    return;
  }
  const stray = guarded.strays()[0];
  if (!stray) return;
  const layer = neutralLayer(sample.planes, width, height);
  bench.paintInto(sample, band, layer);
  throw new Failed(sample.trial, {
    expected: `writes to a band of ${width} x ${height} px only`,
    received: `a write to number ${stray.index} of ${stray.plane}, which has ${width * height * PLANE_CHANNELS[stray.plane]}`,
    remedy: 'Let rows run to band.height and columns to band.width, and count a row as band.width pixels.',
    picture: showStray(layer, stray),
  });
}

/** All steps that come later, and the light, are to see what lies below as it was laid. */
function tryBelow(bench: Bench, sample: Sample): void {
  const { width, height } = BELOW;
  const layer = neutralLayer(sample.planes, width, height);
  let place: string | undefined;
  bench.paintInto(sample, BELOW, layer, (written) => {
    place = written;
  });
  if (place === undefined) return;
  const [plane] = place.slice('below.'.length).split('[');
  throw new Failed(sample.trial, {
    expected: 'what lies below to be left as it was laid',
    received: `a write to ${place}`,
    remedy: `Copy what you want to change: below.${plane}.slice() is a copy. Fill only the planes of the layer.`,
    picture: sideBySide([showLayer(layer)], 'What was painted, over a ground that was written into.'),
  });
}

function tooLong(sample: Sample, band: (typeof BANDS)[number], error: RangeError): Failed {
  return new Failed(sample.trial, {
    expected: `writes to a band of ${band.width} x ${band.height} px only`,
    received: `${error.name}: ${error.message}`,
    remedy: 'Set no more numbers than a plane has.',
    picture: sideBySide([showLayer(bandLayer(sample, band))], 'The band, which is left as it was.'),
  });
}

function bandLayer(sample: Sample, { width, height }: (typeof BANDS)[number]): AnyLayer {
  return neutralLayer(sample.planes, width, height);
}

/** The band within white, and in red the pixel outside that was written. */
function showStray(layer: AnyLayer, { plane, index }: Stray): ProofPicture {
  const margin = 4;
  const shown = showLayer(layer);
  const width = layer.width + 2 * margin;
  const height = layer.height + 2 * margin;
  const pixels = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let y = 0; y < layer.height; y++) {
    const row = shown.pixels.subarray(4 * y * layer.width, 4 * (y + 1) * layer.width);
    pixels.set(row, 4 * ((y + margin) * width + margin));
  }
  const picture = { pixels, width, height };
  const pixel = Number.isFinite(index) ? Math.floor(index / PLANE_CHANNELS[plane]) : -1;
  const column = ((pixel % layer.width) + layer.width) % layer.width;
  const row = Math.max(-margin, Math.min(layer.height + margin - 1, Math.floor(pixel / layer.width)));
  fillRectangle(picture, [margin + column, margin + row, 1, 1]);
  return sideBySide([picture], 'In red: the pixel outside the band that was written.');
}
