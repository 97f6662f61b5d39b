import {
  addFractalRow,
  type Box,
  emptyField,
  type FractalNoise,
  fractalNoise,
  type PeriodicField,
  type RandomStream,
} from 'tenter';
import { crumplesOf, foldsOf } from './crumple.ts';
import type { WornValues } from './parameters.ts';
import { stampCreases } from './stamp.ts';

/** What nobody touched, in deviations of the surface: its highest is still far from being worn. */
export const UNTOUCHED = -3.3;
/** Most that each kind of wear takes, in deviations. */
const RUBBED = 4;
const FOLDED = 5.6;
const CREASED = 3.6;
/** So much is rubbed off easily, and so much more at last, in deviations. */
const EASY = 1.6;
const HARD = 2.9;

interface Making {
  readonly box: Box;
  readonly values: WornValues;
  readonly mmPerCell: number;
  random(name: string): RandomStream;
  progress(done: number): void;
}

/** How far each place was worn; see `WornModel.wear`. */
export function wearOf({ box, values, mmPerCell, random, progress }: Making): PeriodicField {
  const { rubbed, patchiness, folds, foldsApart, creases } = values;
  const field = emptyField(box, mmPerCell);
  const handled = handledOf(box, values, random);
  const streaks = streaksOf(box, values.direction, random('strokes'));
  const gate = fractalNoise(
    box.lattice,
    { along: 17, across: 17 },
    { octaves: 4, gain: 0.7 },
    random('gate'),
  );
  const blotches = fractalNoise(
    box.lattice,
    { along: 5.6, across: 5.6 },
    { octaves: 2, gain: 0.9 },
    random('blotches'),
  );
  const folded = creasedField(box, mmPerCell, folds > 0 ? foldsOf(box, foldsApart, random('folds')) : []);
  progress(0.3);
  const creased = creasedField(box, mmPerCell, creases > 0 ? crumplesOf(box, random('creases')) : []);
  progress(0.5);
  const { width, height, mmPerCellX, mmPerCellY } = field;
  const rows = [0, 1, 2, 3].map(() => new Float32Array(width));
  const [hand, streak, open, blotch] = rows;
  // Yarn that is thick here and thin there, and the broad part of a tooth.
  const fine = 0.25 + (values.surface === 'cloth' ? 0.35 * values.standing : 0.2);
  const most = RUBBED * (rubbed / 100);
  const foldMost = FOLDED * (folds / 100) ** 0.75;
  const creaseMost = CREASED * (creases / 100) ** 0.8;
  for (let j = 0; j < height; j++) {
    for (const row of rows) row.fill(0);
    const add = (noise: FractalNoise, row: Float32Array) =>
      addFractalRow(noise, mmPerCellX / 2, mmPerCellX, (j + 0.5) * mmPerCellY, 1, row, width);
    add(handled, hand);
    add(streaks, streak);
    add(gate, open);
    add(blotches, blotch);
    for (let i = 0, k = j * width; i < width; i++, k++) {
      const gathered = softPlus(hand[i] - 0.25 + 0.3 * streak[i]) * (1 + 0.35 * streak[i]);
      const even = 0.72 + 0.1 * streak[i];
      const broken = Math.max(0.12, Math.min(1.5, 0.85 + 0.42 * open[i]));
      const rub = most * (patchiness * gathered + (1 - patchiness) * even);
      const bent = broken * Math.max(foldMost * folded.values[k], creaseMost * creased.values[k]);
      const mottled = fine * blotch[i] + 0.2 * open[i];
      field.values[k] = UNTOUCHED + spent(rub + mottled * Math.min(1, rub)) + bent * (1 + 0.2 * blotch[i]);
    }
    if ((j & 63) === 0) progress(0.5 + (0.5 * j) / height);
  }
  return field;
}

/** 0 far below 0, and growing as fast as its number far above: so most is hardly touched, some much. */
export function softPlus(z: number): number {
  return 0.45 * Math.log1p(Math.exp(z / 0.45));
}

/** The more is gone already the less a stroke takes: what lies in the hollows is hard to reach. */
function spent(rub: number): number {
  return rub <= EASY ? rub : EASY + HARD * (1 - Math.exp((EASY - rub) / HARD));
}

/** Where it was handled: places of all sizes, the largest as wide as asked. */
function handledOf(box: Box, { patches }: WornValues, random: Making['random']): FractalNoise {
  const octaves = Math.max(3, Math.min(7, Math.round(Math.log2(patches / 3))));
  return fractalNoise(
    box.lattice,
    { along: patches, across: patches },
    { octaves, gain: 0.66 },
    random('handled'),
  );
}

/** Strokes of whatever rubbed it, broad and fine. */
function streaksOf(box: Box, direction: number, random: RandomStream): FractalNoise {
  const shape = { along: 75, across: 9, direction };
  return fractalNoise(box.lattice, shape, { octaves: 3, gain: 0.75, lacunarity: 1.9 }, random);
}

function creasedField(
  box: Box,
  mmPerCell: number,
  creases: Parameters<typeof stampCreases>[1],
): PeriodicField {
  const field = emptyField(box, mmPerCell);
  stampCreases(field, creases);
  return field;
}

/** mm per cell of what washing has left: all of it is broad. */
const BROAD_CELL = 1.2;
/** How much paint washing can take, and sun, and both of them along creases. */
const WASHED = 0.62;
const FADED = 0.14;
const CREASES_WASHED = 0.5;

/** The load that washing and light have left. */
export function leftOf({ box, values, random }: Pick<Making, 'box' | 'values' | 'random'>): PeriodicField {
  const { washed, uneven, patches, creases, folds, foldsApart } = values;
  const field = emptyField(box, BROAD_CELL);
  if (creases > 0) stampCreases(field, crumplesOf(box, random('creases')), 1.9);
  const folded = emptyField(box, BROAD_CELL);
  if (folds > 0) stampCreases(folded, foldsOf(box, foldsApart, random('folds')), 2.6);
  const size = 1.3 * patches;
  const noise = fractalNoise(
    box.lattice,
    { along: 1.7 * size, across: 0.5 * size, direction: values.direction },
    { octaves: 6, gain: 0.72 },
    random('fading'),
  );
  const marbled = fractalNoise(
    box.lattice,
    { along: 7, across: 7 },
    { octaves: 3, gain: 0.75 },
    random('marbled'),
  );
  const { width, height, mmPerCellX, mmPerCellY, values: left } = field;
  const [more, fine] = [new Float32Array(width), new Float32Array(width)];
  const share = washed / 100;
  for (let j = 0; j < height; j++) {
    const y = (j + 0.5) * mmPerCellY;
    addFractalRow(noise, mmPerCellX / 2, mmPerCellX, y, 1, more.fill(0), width);
    addFractalRow(marbled, mmPerCellX / 2, mmPerCellX, y, 1, fine.fill(0), width);
    for (let i = 0, k = j * width; i < width; i++, k++) {
      const bent = Math.max((creases / 100) * left[k], 0.8 * (folds / 100) * folded.values[k]);
      const beside = Math.max(0, 1 + 0.5 * fine[i]) * bent;
      const even = share * (1 + uneven * (0.3 * more[i] + 0.12 * fine[i]));
      const gone =
        WASHED * even +
        FADED * uneven * softPlus(more[i] - 0.4) +
        CREASES_WASHED * (0.25 + 0.75 * share) * beside;
      left[k] = Math.max(0.04, Math.min(1, 1 - gone));
    }
  }
  return field;
}
