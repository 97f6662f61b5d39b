import type { Grid } from '../../repeat/grid.ts';
import type { Band } from '../effect.ts';
import { homeParts } from '../home.ts';
import { type AnyLayer, neutralLayer, type ReadablePlane } from '../layer.ts';
import type { Trial } from './trial.ts';

/** mm from crest to crest, about: coarse enough to be seen at any density that is tried. */
const WAVE = 5;
/** Turns: on a tiny tile no wave is caught at its foot alone. */
const PHASE = 0.13;
/** mm. */
const HEIGHT = 0.06;

/**
 * What lies below a band of a trial, for an effect that reads: crossing waves that close over the box, with
 * the same bits in all copies of it; or nothing, where the trial says so. Made anew for every call, so that
 * an effect that writes into it changes nothing but its own copy.
 */
export function belowOf(
  { trial, grid }: { readonly trial: Trial; readonly grid: Grid },
  reads: readonly ReadablePlane[],
  band: Band,
): AnyLayer {
  const below = neutralLayer(reads, band.width, band.height);
  if (trial.below === 'nothing') return below;
  if (trial.below === 'extremes') return filledWithExtremes(below);
  const { lattice, width, height } = grid.box;
  const { ax, ay, bx, by } = lattice;
  const area = ax * by - ay * bx;
  const across = Math.max(1, Math.round(width / WAVE));
  const down = Math.max(1, Math.round(height / WAVE));
  const waveAt = (m: number, n: number, x: number, y: number) =>
    Math.sin(2 * Math.PI * (((m * by - n * ay) * x + (n * ax - m * bx) * y) / area + PHASE));
  for (const part of homeParts(band, lattice)) {
    for (let j = 0; j < part.height; j++) {
      for (let i = 0; i < part.width; i++) {
        const x = (part.x + i + 0.5) * band.mmPerPixelX;
        const y = (part.y + j + 0.5) * band.mmPerPixelY;
        setBelow(below, part.at + j * band.width + i, waveAt(across, 1, x, y), waveAt(1, down, x, y));
      }
    }
  }
  return below;
}

/** What other steps may leave: no paint and much, no light and much, pits and heights, no colour and the ends of all. */
const EXTREMES = {
  load: [0, 1, 40],
  shade: [0, 1, 4],
  relief: [-2, 0, 5],
  tint: [0, 1, 0, 1],
} as const;

/** Pixel by pixel, each plane by turns of its own, so that all of them meet. */
function filledWithExtremes(below: AnyLayer): AnyLayer {
  for (const [turn, name] of (['load', 'shade', 'relief', 'tint'] as const).entries()) {
    const values = EXTREMES[name];
    below[name]?.forEach((_, k, plane) => {
      plane[k] = values[Math.floor(k / 3 ** turn) % values.length];
    });
  }
  return below;
}

function setBelow(
  { relief, load, shade, tint }: AnyLayer,
  pixel: number,
  first: number,
  second: number,
): void {
  if (relief) relief[pixel] = (HEIGHT / 2) * (first + second);
  if (load) load[pixel] = 1 + 0.4 * first * second;
  if (shade) shade[pixel] = 1 + 0.2 * second;
  tint?.set([0.5 + 0.4 * first, 0.4, 0.5 - 0.4 * second, 0.4 + 0.3 * first], 4 * pixel);
}
