import {
  addFractalRow,
  type Box,
  bakeField,
  emptyField,
  Fault,
  type FractalNoise,
  fractalNoise,
  indexPoints,
  nearestTwo,
  noneFound,
  PEARSON,
  type PeriodicField,
  poissonPoints,
  reactGrayScott,
  type Setting,
} from 'tenter';
import type { LabyrinthModel } from './model.ts';
import type { LabyrinthValues, PARAMETERS } from './parameters.ts';

/**
 * Cells from line to line, where lines are fine and where they are broad: broad lines show more of their outline. And
 * how long the reaction goes on.
 */
const CELLS = { finished: [8, 12], sketch: [6, 8] } as const;
const FINE = 3;
const BROAD = 6;
const DURATION = { finished: 700, sketch: 300 };
/** Lines come out so many roots of the diffusion apart; see `reactGrayScott`. */
const ROOTS = 29;

interface Kind {
  readonly feed: number;
  readonly kill: number;
  /** What it starts from: noise, above this many deviations; or drops (gaps) a line apart. */
  readonly from: number | 'drops' | 'gaps';
  /** How much of the second substance there is where it has begun. */
  readonly full: number;
  /** What is added to the kill where it drifts most. */
  readonly drift: number;
}

const KINDS: Readonly<Record<LabyrinthValues['figure'], Kind>> = {
  maze: { ...PEARSON.kappa, from: 0, full: 0.32, drift: 0.0022 },
  worms: { feed: 0.046, kill: 0.0637, from: 'drops', full: 0.32, drift: 0.0012 },
  spots: { feed: 0.04, kill: 0.0648, from: 'drops', full: 0.32, drift: 0.0006 },
  // Begun near its even state, v = (F + k) / u: more would burn out, less would not light.
  holes: { feed: 0.042, kill: 0.059, from: 'gaps', full: 0.245, drift: 0.0005 },
};
/** mm per line of the places where the figure changes. */
const DRIFTS = 9;

/** Where a tile is smaller than its lines are apart the reaction dies; this share of its shorter side always lived. */
const MOST_OF_TILE = 0.95;

export function prepareLabyrinth(asked: Setting<typeof PARAMETERS>): LabyrinthModel {
  const width = Math.min(asked.parameters.width, MOST_OF_TILE * Math.min(asked.box.width, asked.box.height));
  if (width < asked.parameters.width)
    asked.report({
      name: 'width',
      value: Math.round(width * 100) / 100,
      unit: 'mm',
      asked: asked.parameters.width,
    });
  const setting = { ...asked, parameters: { ...asked.parameters, width } };
  const { parameters: values, box, random } = setting;
  const noise = (name: string, size: number, octaves: number, deviation = 1) =>
    fractalNoise(box.lattice, { along: size, across: size }, { octaves, gain: 0.5, deviation }, random(name));
  const places = noise('places', DRIFTS * values.width, 2);
  const level = grow(setting, places);
  const cut = levelOfShare(level.values, shareOf(values));
  const more = values.strength / 100;
  return {
    lattice: box.lattice,
    level,
    cut,
    leastSlope: 0.25 / values.width,
    fray: noise('fray', Math.min(1.2, values.width / 4), 3, (values.fray * Math.min(6, values.width)) / 70),
    inside: values.action === 'resist' ? 1 - more : 1 + more,
    outside: 1,
    softness: values.softness,
    rim: 0.9 * values.edge,
    rimWidth: 0.055 * values.width,
    relief: 0.3 * values.relief * values.width,
  };
}

function grow(setting: Setting<typeof PARAMETERS>, places: FractalNoise): PeriodicField {
  const { parameters: values, box, quality, progress } = setting;
  const { width, drift } = values;
  const [fine, broad] = CELLS[quality];
  const finer = Math.min(1, Math.max(0, (width - FINE) / (BROAD - FINE)));
  const mmPerCell = width / (fine + (broad - fine) * finer);
  const kind = KINDS[values.figure];
  const begun = begin(setting, mmPerCell, kind);
  const kill = baked(box, mmPerCell, places).values;
  for (let k = 0; k < kill.length; k++) {
    kill[k] = kind.kill + drift * kind.drift * Math.max(-2, Math.min(1.2, kill[k]));
  }
  const u = begun.values.map((share) => 1 - 0.6 * share);
  const v = begun.values.map((share) => kind.full * share);
  const diffusion = (width / ROOTS) ** 2;
  reactGrayScott(
    begun,
    { u, v },
    { feed: kind.feed, kill, diffusionU: diffusion, diffusionV: diffusion / 2 },
    { duration: DURATION[quality], progress },
  );
  if (!hasFigure(v)) throw noRoom(setting);
  return { ...begun, values: v };
}

/** Of the second substance, which is about 0.3 in a line and none beside it. */
const LEAST_CONTRAST = 0.02;

/** Where the reaction has died all of it is one ground. */
function hasFigure(v: Float32Array): boolean {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of v) {
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return most - least > LEAST_CONTRAST;
}

function noRoom({ parameters: { width }, box }: Setting<typeof PARAMETERS>): Fault {
  return new Fault({
    kind: 'usage',
    expected: `lines that have room in a tile of ${Math.round(box.width)} x ${Math.round(box.height)} mm`,
    subject: 'width',
    received: `${width} mm, at which no line lives`,
    remedy: `Take lines of ${Math.max(2.5, Math.floor(Math.min(box.width, box.height) / 4))} mm at most, or a larger tile.`,
  });
}

/** Where the reaction has begun, 0..1 per cell. */
function begin(
  { parameters: { width }, box, random }: Setting<typeof PARAMETERS>,
  mmPerCell: number,
  { from }: Kind,
): PeriodicField {
  if (typeof from === 'number') {
    // Turned, or the lines would heed the axes that the noise has.
    const grain = { along: 0.9 * width, across: 0.9 * width, direction: 27 };
    const grains = fractalNoise(box.lattice, grain, { octaves: 2, gain: 0.5 }, random('grains'));
    const field = baked(box, mmPerCell, grains);
    return { ...field, values: field.values.map((z) => 1 / (1 + Math.exp(-3 * (z - from)))) };
  }
  const index = indexPoints(box, poissonPoints(box, 0.88 * width, random('drops')));
  const field = emptyField(box, mmPerCell);
  const found = noneFound();
  for (let k = 0; k < field.values.length; k++) {
    const x = ((k % field.width) + 0.5) * field.mmPerCellX;
    const y = (Math.floor(k / field.width) + 0.5) * field.mmPerCellY;
    const drop = Math.exp(-nearestTwo(index, x, y, found).square1 / (0.25 * width) ** 2);
    field.values[k] = from === 'drops' ? drop : 1 - drop;
  }
  return field;
}

function baked(box: Box, mmPerCell: number, noise: FractalNoise): PeriodicField {
  return bakeField(box, mmPerCell, (x0, step, y, row, count, offset) =>
    addFractalRow(noise, x0, step, y, 1, row, count, offset),
  );
}

/** How much of the ground the figure takes, by its kind: where its edge is steep. */
const SHARES: Readonly<Record<LabyrinthValues['figure'], readonly [number, number]>> = {
  maze: [0.3, 0.62],
  worms: [0.2, 0.5],
  spots: [0.14, 0.36],
  holes: [0.5, 0.84],
};

function shareOf({ figure, weight }: LabyrinthValues): number {
  const [least, most] = SHARES[figure];
  return least + (most - least) * weight;
}

/** No edge is as low or as high: where all is even, all is ground, or all is figure. */
const LOWEST = 0.05;
const HIGHEST = 0.3;

/** The level above which a share of all cells lies. */
function levelOfShare(values: Float32Array, share: number): number {
  const sorted = values.slice().sort();
  const level = sorted[Math.floor((1 - share) * (sorted.length - 1))];
  return Math.min(HIGHEST, Math.max(LOWEST, level));
}
