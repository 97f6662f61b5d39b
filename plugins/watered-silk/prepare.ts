import {
  addFractalRow,
  type Box,
  bakeField,
  type FractalNoise,
  fractalNoise,
  type PeriodicField,
  type Setting,
  type ValuesOf,
} from 'tenter';
import type { WateredModel } from './model.ts';
import type { PARAMETERS } from './parameters.ts';
import { pressRibs } from './press.ts';
import { closingRibs, closingSlope } from './register.ts';

type Values = ValuesOf<typeof PARAMETERS>;

/** Weaves the ribs and presses them. */
export function pressSilk({ parameters, box, random, report }: Setting<typeof PARAMETERS>): WateredModel {
  const { lattice, layout } = box;
  const count = closingRibs(lattice, layout.denominator, parameters.ribs / 10);
  const pitch = box.height / count;
  const slope = closingSlope(lattice, parameters.lines / 1000);
  const { relief, pressing, feather, wander, filaments } = parameters;
  report({ name: 'ribs', value: rounded(10 / pitch), unit: 'per cm', asked: parameters.ribs });
  report({ name: 'lines', value: rounded(1000 * slope.x), unit: 'per m', asked: parameters.lines });
  const fractal = (
    along: number,
    across: number,
    octaves: number,
    gain: number,
    deviation: number,
    name: string,
  ) => fractalNoise(lattice, { along, across }, { octaves, gain, deviation }, random(name));
  return {
    lattice,
    pitch,
    slope,
    figure: bakeFigure(parameters, box, fractal),
    quiver: fractal(7, 11, 2, 0.6, 0.1 * wander, 'quiver'),
    feather: fractal(4.5, 0.8 * pitch, 2, 0.6, 0.085 * feather, 'feather'),
    press: bake(box, 4, fractal(38, 60, 2, 0.6, 0.2, 'press'), 1),
    straying: bake(box, 1.5, fractal(22, 9, 2, 0.5, 0.3, 'straying'), 0),
    filaments: fractal(3.5, 0.2, 2, 0.9, filaments / 100, 'filaments'),
    ribs: pressRibs({ from: parameters.light, relief: 0.75 * relief, mark: 0.19 * pressing }),
    mean: 1 - 0.1 * Math.max(relief, pressing),
  };
}

type MakeFractal = (
  along: number,
  across: number,
  octaves: number,
  gain: number,
  deviation: number,
  name: string,
) => FractalNoise;

function bakeFigure(
  { figureWidth, figureLength, bands }: Values,
  box: Box,
  fractal: MakeFractal,
): PeriodicField {
  const noise = fractal(figureWidth, figureLength, 2, 0.42, bands, 'figure');
  return bake(box, Math.min(figureWidth, figureLength) / 16, noise, 0);
}

/** Draws a fractal on a grid of `mmPerCell`, about `level`. */
function bake(box: Box, mmPerCell: number, noise: FractalNoise, level: number): PeriodicField {
  const field = bakeField(box, mmPerCell, (x0, step, y, row, count, offset) =>
    addFractalRow(noise, x0, step, y, 1, row, count, offset),
  );
  if (level !== 0) for (let k = 0; k < field.values.length; k++) field.values[k] += level;
  return field;
}

function rounded(value: number): number {
  return Math.round(1000 * value) / 1000;
}
