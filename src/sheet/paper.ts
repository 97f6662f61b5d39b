import { addFractalRow, type FractalNoise } from '../field/fractal.ts';
import type { FieldShape } from '../field/periodic.ts';

/** A sheet of paper as water finds it, cell by cell. Plain data. */
export interface Paper {
  /** How deep a film must stand before its front breaks into the cell, in films. */
  readonly pin: Float32Array;
  /** How easily water passes, about 1. */
  readonly ease: Float32Array;
  /** What the fibres hold without a film, in films. */
  readonly capacity: Float32Array;
}

/** What paper is made of: noises of mean 0 and deviation 1 that close over its repeat. */
export interface PaperNoises {
  /** Ridges of some mm, which give a front its fringe. */
  readonly ridges: FractalNoise;
  /** Ridges of some cm, which give it lobes. */
  readonly lobes: FractalNoise;
  /** Broad differences between one passage and another. */
  readonly passages: FractalNoise;
  /** The grain of the fibres. */
  readonly grain: FractalNoise;
}

/** Water held by the fibres alone, in films. */
const HELD = 0.5;
/** The depth that an ordinary place pins. */
const PINNED = 0.16;

/**
 * Paper whose ridges part the water: folded noise has long narrow crests, so fronts break through in
 * fingers and lobes; plain noise would leave round blots.
 *
 * @param fringe How strongly the ridges count: 0 for even paper, 1 for an ordinary one.
 */
export function layPaper(shape: FieldShape, noises: PaperNoises, fringe: number): Paper {
  const { width, height } = shape;
  const cells = width * height;
  const paper: Paper = {
    pin: new Float32Array(cells),
    ease: new Float32Array(cells),
    capacity: new Float32Array(cells),
  };
  const rows = [noises.ridges, noises.lobes, noises.passages, noises.grain].map((noise) => ({
    noise,
    row: new Float64Array(width),
  }));
  const [ridges, lobes, passages, grain] = rows.map(({ row }) => row);
  for (let j = 0; j < height; j++) {
    const y = (j + 0.5) * shape.mmPerCellY;
    for (const { noise, row } of rows) {
      row.fill(0);
      addFractalRow(noise, shape.mmPerCellX / 2, shape.mmPerCellX, y, 1, row, width);
    }
    for (let i = 0, k = j * width; i < width; i++, k++) {
      const fine = fringe * crest(ridges[i]);
      const broad = fringe * crest(lobes[i]);
      const here = passages[i];
      paper.ease[k] = within(Math.exp(0.9 * fine + 2 * broad + 0.5 * here), 0.04, 6);
      paper.pin[k] = within(PINNED * Math.exp(-1.2 * fine - 2 * broad + 0.6 * here), 0.01, 2.5);
      paper.capacity[k] = HELD * within(1 + 0.12 * grain[i], 0.5, 1.5);
    }
  }
  return paper;
}

/** Folded noise: high along its zeros, low to both sides; mean about 0 where the noise is normal. */
function crest(noise: number): number {
  return 0.55 - Math.abs(noise);
}

function within(value: number, low: number, high: number): number {
  return value < low ? low : Math.min(value, high);
}
