import {
  addFractalRow,
  type Box,
  bakeField,
  bicubicAt,
  fractalNoise,
  type PeriodicField,
  type RandomStream,
  type Setting,
} from 'tenter';
import { strewFibres } from './fibres.ts';
import { layWires } from './laid.ts';
import { returned, SLOPE_REACH } from './light.ts';
import type { PaperModel } from './model.ts';
import type { PARAMETERS } from './parameters.ts';
import { mouldSheet } from './sheet.ts';

/** Deviation of the height of an unpressed sheet, as a share of the tooth. */
const RELIEF = 0.019;
/** mm: height of laid lines at depth 1. */
const LAID_HEIGHT = 0.012;

/** Moulds the sheet. */
export function makePaper(setting: Setting<typeof PARAMETERS>): PaperModel {
  const { parameters, box, random, report } = setting;
  const { tooth, depth, laid, chain, granulation, grain, clouds, light, rake } = parameters;
  const wires = layWires(box, laid / 10, chain);
  if (laid > 0) {
    report({ name: 'laid lines', value: rounded(10 * wires.laidPerMm), unit: 'per cm', asked: laid });
    report({ name: 'chain lines apart', value: rounded(1 / wires.chainsPerMm), unit: 'mm', asked: chain });
  }
  const angle = (light * Math.PI) / 180;
  const sheet = mouldSheet(box, parameters, setting);
  const model = {
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
      { octaves: 2, gain: 0.9, deviation: grain / 100 },
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
    towards: [Math.cos(angle), Math.sin(angle)] as const,
    raking: 1 / Math.tan((rake * Math.PI) / 180),
    granulation: granulation / 100,
  };
  return { ...model, mean: 0.97 / meanLight(model, random('mean')) };
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

/** Places at which the tooth is lit to find the mean light it returns. */
const PLACES = 4000;

function meanLight(
  { sheet, amplitude, towards: [tx, ty], raking }: Omit<PaperModel, 'mean'>,
  random: RandomStream,
): number {
  const width = sheet.width * sheet.mmPerCellX;
  const height = sheet.height * sheet.mmPerCellY;
  let sum = 0;
  for (let k = 0; k < PLACES; k++) {
    const x = random.between(0, width);
    const y = random.between(0, height);
    const near = bicubicAt(sheet, x + SLOPE_REACH * tx, y + SLOPE_REACH * ty);
    const far = bicubicAt(sheet, x - SLOPE_REACH * tx, y - SLOPE_REACH * ty);
    sum += returned((-amplitude * raking * (near - far)) / (2 * SLOPE_REACH));
  }
  return sum / PLACES;
}

function rounded(value: number): number {
  return Math.round(1000 * value) / 1000;
}
