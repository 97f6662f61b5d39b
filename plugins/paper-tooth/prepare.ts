import {
  addFractalRow,
  type Box,
  bakeField,
  fractalNoise,
  type PeriodicField,
  type RandomStream,
  type Setting,
} from 'tenter';
import { strewFibres } from './fibres.ts';
import { layWires } from './laid.ts';
import type { PaperModel } from './model.ts';
import type { PARAMETERS } from './parameters.ts';
import { mouldSheet } from './sheet.ts';

/** Deviation of the height of an unpressed sheet, as a share of the tooth. */
const RELIEF = 0.026;
/** mm: deviation of the height of one percent of grain: at 300 dpi, under the usual light, one percent more or less light. */
const GRAIN_HEIGHT = 0.0006;
/** mm: height of laid lines at depth 1. */
const LAID_HEIGHT = 0.012;

/** Moulds the sheet. */
export function makePaper(setting: Setting<typeof PARAMETERS>): PaperModel {
  const { parameters, box, random, report } = setting;
  const { tooth, depth, laid, chain, granulation, grain, clouds } = parameters;
  const wires = layWires(box, laid / 10, chain);
  if (laid > 0) {
    report({ name: 'laid lines', value: rounded(10 * wires.laidPerMm), unit: 'per cm', asked: laid });
    report({ name: 'chain lines apart', value: rounded(1 / wires.chainsPerMm), unit: 'mm', asked: chain });
  }
  const sheet = mouldSheet(box, parameters, setting);
  return {
    lattice: box.lattice,
    sheet,
    amplitude: RELIEF * tooth * depth,
    scale: fractalNoise(
      box.lattice,
      { along: tooth, across: tooth },
      { octaves: 1, gain: 1 },
      random('scale'),
    ),
    clouds: bakeClouds(box, 0.1 * clouds, random('clouds')),
    grain: fractalNoise(
      box.lattice,
      { along: 0.42, across: 0.3 },
      { octaves: 2, gain: 0.9, deviation: GRAIN_HEIGHT * grain },
      random('grain'),
    ),
    speckle: fractalNoise(
      box.lattice,
      { along: 0.34, across: 0.34 },
      { octaves: 2, gain: 0.8, deviation: 0.0017 * granulation },
      random('speckle'),
    ),
    wires,
    laidHeight: laid > 0 ? LAID_HEIGHT * depth : 0,
    fibres: strewFibres(box, parameters.fibres / 10000, random('fibres')),
    granulation: granulation / 100,
  };
}

function bakeClouds(box: Box, deviation: number, random: RandomStream): PeriodicField {
  const noise = fractalNoise(
    box.lattice,
    { along: 44, across: 36 },
    { octaves: 3, gain: 0.7, deviation },
    random,
  );
  return bakeField(box, 1.4, (x0, step, y, row, count, offset) =>
    addFractalRow(noise, x0, step, y, 1, row, count, offset),
  );
}

function rounded(value: number): number {
  return Math.round(1000 * value) / 1000;
}
