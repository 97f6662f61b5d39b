import { type AnyEffect, API_VERSION, type Band, defineEffect, type Lattice } from 'tenter';
import { expect, it } from 'vitest';
import { bandRemedy } from './band-cause.ts';
import { openBench } from './bench.ts';
import { HOME } from './trial.ts';

type Layer = { shade: Float32Array; width: number };
type Paint = (tone: (i: number, j: number) => number, band: Band, layer: Layer) => void;

/** Waves that close over the box, painted as `paint` does it. */
function wavesBy(paint: Paint): AnyEffect {
  return defineEffect({
    apiVersion: API_VERSION,
    name: 'waves',
    version: '1.0.0',
    summary: 'Waves.',
    parameters: {},
    planes: ['shade'],
    prepare: ({ box }) => ({ lattice: box.lattice as Lattice }),
    paint({ lattice: { ax, ay, bx, by } }, band, layer) {
      const turn = (2 * Math.PI) / (ax * by - ay * bx);
      const tone = (i: number, j: number) => {
        const [x, y] = [(band.x + i + 0.5) * band.mmPerPixelX, (band.y + j + 0.5) * band.mmPerPixelY];
        return (
          0.5 + 0.2 * Math.cos(3 * turn * (by * x - bx * y)) + 0.2 * Math.cos(4 * turn * (ax * y - ay * x))
        );
      };
      paint(tone, band, layer as Layer);
    },
  }) as unknown as AnyEffect;
}

const each = (band: Band, layer: Layer, value: (i: number, j: number) => number) => {
  for (let j = 0; j < band.height; j++)
    for (let i = 0; i < band.width; i++) layer.shade[j * band.width + i] = value(i, j);
};

it.each<[string, Paint, RegExp]>([
  [
    'the next pixel',
    (tone, band, layer) => each(band, layer, (i, j) => tone(Math.min(i + 1, band.width - 1), j)),
    /Only pixels at the edge of a band differ: they look at the next pixel/,
  ],
  [
    'what reaches in a few pixels',
    (tone, band, layer) =>
      each(band, layer, (i, j) => tone(i, j) * (j < 7 || band.height - j <= 7 ? 0.5 : 1)),
    /up to 7 px \(0\.88 mm\) from it/,
  ],
  [
    'a sum down the band',
    (tone, band, layer) => each(band, layer, (i, j) => tone(i, j) + 0.01 * j),
    /on the row in which a band begins, and not on the column/,
  ],
  [
    'a sum along the row',
    (tone, band, layer) => each(band, layer, (i, j) => tone(i, j) + 0.01 * i),
    /on the column in which a band begins, and not on the row/,
  ],
  [
    'its beginning',
    (tone, band, layer) => each(band, layer, (i, j) => tone(i, j) + 0.01 * (i + j)),
    /Work out every pixel from its own place, \(band\.x/,
  ],
])('names %s', async (_, paint, words) => {
  const bench = openBench(wavesBy(paint));
  const sample = await bench.prepare(HOME);
  expect(bandRemedy(bench, sample, { x: -29, y: -17, width: 64, height: 48 })).toMatch(words);
});
