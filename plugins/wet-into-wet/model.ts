import {
  addFractalRow,
  type Box,
  bakeField,
  bilinearAt,
  type CellShape,
  diffuseLines,
  type FieldShape,
  type FractalNoise,
  type FractalShape,
  fieldShape,
  fractalAt,
  fractalNoise,
  gaussianBlur,
  type Lattice,
  linesAlong,
  openLineStore,
  type PeriodicField,
  type RandomStream,
} from 'tenter';
import { type Flowed, type Push, runFlow } from './flow.ts';
import { type Fronts, growFronts } from './fronts.ts';
import { hasSecond, type Values } from './parameters.ts';
import { layBlooms, layCharges, layFloods, laySpatter, type Sources } from './sources.ts';

/** mm per cell of the fronts and of the flow. */
export interface Fineness {
  readonly fronts: number;
  readonly flow: number;
  readonly steps: number;
}
export const FINISHED: Fineness = { fronts: 0.4, flow: 0.75, steps: 64 };
export const SKETCH: Fineness = { fronts: 1, flow: 2, steps: 28 };

/** One kind of water as it is painted. Plain data. */
export interface Edge {
  /** mm from the outline, negative inside. */
  readonly level: PeriodicField;
  /** Of the flow's grid: how strongly it clears, 0..1. */
  readonly strength: PeriodicField;
  /** How much crisper than `sharpness` its edges are. */
  readonly crisp: number;
  /** How far fine noise moves the outline, mm. */
  readonly crinkle: number;
}

/** What `paint` needs; mm throughout. Plain data. */
export interface WetModel {
  /** Of the box, mm. */
  readonly lattice: Lattice;
  /** Natural logarithm of the paint's load as the flow left it. */
  readonly base: PeriodicField;
  readonly edges: readonly Edge[];
  /** Of the flow's grid, 1 / mm: how crisp edges are, small where they are lost. */
  readonly sharpness: PeriodicField;
  readonly lobes: FractalNoise;
  readonly feathers: FractalNoise;
  readonly tooth: FractalNoise;
  /** How strongly the paint settles in the tooth, per cell of the flow. */
  readonly settled: PeriodicField;
  readonly moveX: PeriodicField;
  readonly moveY: PeriodicField;
  readonly fringe: number;
  readonly second?: { readonly amount: PeriodicField; readonly colour: readonly [number, number, number] };
  readonly isMoving: boolean;
  /** Logarithm that makes the painted mean 1. */
  readonly level: number;
}

type Streams = (name: string) => RandomStream;
type Noise = (name: string, shape: CellShape, fractal: FractalShape) => FractalNoise;

export interface Prepared {
  readonly model: WetModel;
  readonly marks: {
    readonly floods: number;
    readonly blooms: number;
    readonly spatter: number;
    readonly charges: number;
  };
}

/** Runs the whole of it: marks, fronts, flow, and what the brush needs to paint them finely. */
export function floodPaper(
  values: Values,
  box: Box,
  streams: Streams,
  fineness: Fineness,
  progress: (done: number) => void = () => {},
): Prepared {
  const noise: Noise = (name, shape, fractal) => fractalNoise(box.lattice, shape, fractal, streams(name));
  const cell = (size: number): CellShape => ({ along: size, across: size });
  const throws = noise('throws', cell(45), { octaves: 2, gain: 0.6 });
  const calm = noise('calm', cell(95), { octaves: 2, gain: 0.6 });
  const share = (field: FractalNoise, mean: number, spread: number) => (x: number, y: number) =>
    Math.max(0, Math.min(1, mean + spread * fractalAt(field, x, y)));
  const sources = {
    floods: layFloods(values, box, streams),
    blooms: layBlooms(values, box, streams, share(calm, 0.5, 0.5)),
    spatter: laySpatter(values, box, streams, share(throws, 0.15, 0.55)),
    charges: layCharges(values, box, streams),
  };
  const shape = fieldShape(box, fineness.fronts);
  const coarse = fieldShape(box, fineness.flow);
  const { crinkle } = values;
  const rough = 0.16 + 0.2 * Math.min(1.6, crinkle);
  const grow = (
    list: Sources,
    name: string,
    size: number,
    octaves: number,
    roughness: number,
    margin: number,
  ) => growFronts(shape, list, noise(name, cell(size), { octaves, gain: 0.62 }), roughness, margin);
  const floods = grow(sources.floods, 'rough floods', 30, 4, rough * 1.5, 12);
  progress(0.1);
  const blooms = grow(sources.blooms, 'rough blooms', 9, 3, rough * 1.1, 8);
  progress(0.2);
  const spatter = grow(sources.spatter, 'rough spatter', 2.4, 2, rough * 0.7, 1.5);
  const charges = grow(sources.charges, 'rough charges', 8, 4, rough * 1.9, 10);
  progress(0.3);

  const wet = bake(box, fineness.flow, noise('wet', cell(38), { octaves: 3, gain: 0.6 }));
  const strengths = [floods, blooms, spatter].map((fronts) => spreadStrength(fronts, coarse));
  const lost = lostShare(wet, values);
  const held = strengths.map((strength) => strength.map((value, k) => value * (1 - 0.6 * lost[k])));
  const pushes: Push[] = [
    pushOf(floods, coarse, held[0], 0.42 * values.backrun, 16, 0.45),
    pushOf(blooms, coarse, held[1], 0.36 * values.backrun, 9, 0.6),
  ];
  const flowed = flowPaint(values, box, coarse, charges, pushes, fineness, noise, (done) =>
    progress(0.3 + 0.55 * done),
  );
  const model: Omit<WetModel, 'level'> = {
    lattice: box.lattice,
    base: logarithm(coarse, flowed.paint),
    edges: [
      edgeOf(floods, coarse, strengths[0], lost, values, 1.1, 0.75, 1.3 * crinkle),
      edgeOf(blooms, coarse, strengths[1], lost, values, 1.15, 1, 1 * crinkle),
      edgeOf(spatter, coarse, strengths[2], lost, values, 0.8, 1.6, 0.3 * crinkle),
    ].filter((_, k) => [sources.floods, sources.blooms, sources.spatter][k].count > 0),
    sharpness: { ...coarse, values: lost.map((share) => 1 / (0.45 + 7 * share ** 3)) },
    lobes: noise('lobes', cell(3.6), { octaves: 2, gain: 0.6 }),
    feathers: noise('feathers', cell(0.9), { octaves: 2, gain: 0.6 }),
    tooth: paperTooth(values.tooth, noise),
    settled: settledPaint(coarse, values, flowed, wet),
    ...movedEdges(coarse, flowed, values),
    fringe: 0.2 * values.move,
    second: hasSecond(values)
      ? { amount: asField(coarse, flowed.second as Float64Array), colour: channelsOf(values.second) }
      : undefined,
    isMoving: values.move > 0,
  };
  progress(0.9);
  const { floods: f, blooms: b, spatter: s, charges: c } = sources;
  return {
    model: { ...model, level: 0 },
    marks: { floods: f.count, blooms: b.count, spatter: s.count, charges: c.count },
  };
}

/**
 * The hollows of the paper. The coarsest octave lies aslant, so that no grid shows; the finer one lies
 * along the rows, where it costs a quarter.
 */
function paperTooth(size: number, noise: Noise): FractalNoise {
  const coarse = noise(
    'tooth',
    { along: size, across: size, direction: 33 },
    { octaves: 1, gain: 1, deviation: 0.7 },
  );
  const fine = noise(
    'fine tooth',
    { along: size / 2.6, across: size / 2.6 },
    { octaves: 1, gain: 1, deviation: 0.7 },
  );
  return { octaves: [...coarse.octaves, ...fine.octaves], gains: [...coarse.gains, ...fine.gains] };
}

function bake(box: Box, mmPerCell: number, noise: FractalNoise): PeriodicField {
  return bakeField(box, mmPerCell, (x0, step, y, row, count, offset) =>
    addFractalRow(noise, x0, step, y, 1, row, count, offset),
  );
}

function sample(field: PeriodicField, shape: FieldShape): Float32Array {
  const values = new Float32Array(shape.width * shape.height);
  for (let j = 0, k = 0; j < shape.height; j++)
    for (let i = 0; i < shape.width; i++, k++)
      values[k] = bilinearAt(field, (i + 0.5) * shape.mmPerCellX, (j + 0.5) * shape.mmPerCellY);
  return values;
}

/** mm that a mark's strength is carried beyond it, so that it is known on both sides of the outline. */
const CARRY = 3;
/** Share of a mark below which its strength fades out. */
const FAINT = 0.05;

/** The strengths on the coarse grid, drawn out beyond the outlines and softened between marks. */
function spreadStrength({ strength, level }: Fronts, shape: FieldShape): Float32Array {
  const sum = new Float64Array(shape.width * shape.height);
  const weight = new Float64Array(sum.length);
  const toX = shape.width / level.width;
  const toY = shape.height / level.height;
  for (let j = 0, k = 0; j < level.height; j++) {
    const row = Math.floor((j + 0.5) * toY) * shape.width;
    for (let i = 0; i < level.width; i++, k++) {
      if (strength[k] === 0) continue;
      const cell = row + Math.floor((i + 0.5) * toX);
      sum[cell] += strength[k];
      weight[cell] += 1;
    }
  }
  for (const axis of ['x', 'y'] as const) {
    const lines = linesAlong(shape, axis);
    const mm = axis === 'x' ? shape.mmPerCellX : shape.mmPerCellY;
    const conductance = new Float64Array(sum.length).fill((CARRY / mm) ** 2 / 2);
    const store = openLineStore(lines.length);
    diffuseLines(lines, sum, conductance, store);
    diffuseLines(lines, weight, conductance, store);
  }
  const spread = new Float32Array(sum.length);
  for (let k = 0; k < spread.length; k++)
    spread[k] = weight[k] > 1e-3 ? sum[k] / Math.max(weight[k], FAINT) : 0;
  return spread;
}

/** Of the outlines the wetter half is lost: there water and paint had time to mingle again. 0 crisp, 1 lost. */
function lostShare(wet: PeriodicField, { wetness }: Values): Float32Array {
  return wet.values.map((value) => 1 / (1 + Math.exp(-3.6 * (value + 2.4 * (wetness - 0.5)))));
}

function pushOf(
  fronts: Fronts,
  shape: FieldShape,
  strength: Float32Array,
  gain: number,
  trail: number,
  water: number,
): Push {
  const travelled = sample({ ...fronts.level, values: fronts.travelled }, shape);
  const grip = strength.map((value, k) => {
    const share = Math.min(1, travelled[k] / (0.3 * fronts.reach));
    // Beyond this paint would cake into black seams where two fronts meet.
    return Math.min(0.4, gain * value) * share * share;
  });
  return { level: sample(fronts.level, shape), reach: fronts.reach, grip, trail, water };
}

function flowPaint(
  values: Values,
  box: Box,
  shape: FieldShape,
  charges: Fronts,
  pushes: readonly Push[],
  fineness: Fineness,
  noise: Noise,
  onStep: (done: number) => void,
): Flowed {
  const _cell = (size: number): CellShape => ({ along: size, across: size });
  const downhill = (values.downhill * Math.PI) / 180;
  const drawn = (size: number): CellShape => ({
    along: size * (1 + 1.5 * values.tilt),
    across: size,
    direction: values.downhill,
  });
  const streaked = (size: number): CellShape => ({
    along: size * (1 + 5 * values.tilt),
    across: size,
    direction: values.downhill,
  });
  const clouds = bake(box, fineness.flow, noise('clouds', drawn(75), { octaves: 4, gain: 0.55 })).values;
  const sheet = bake(box, fineness.flow, noise('sheet', drawn(34), { octaves: 3, gain: 0.6 })).values;
  const ease = bake(box, fineness.flow, noise('ease', streaked(9), { octaves: 3, gain: 0.7 })).values;
  const water = new Float64Array(clouds.length);
  const paint = new Float64Array(clouds.length);
  const touched = touchOf(charges, shape);
  const second = hasSecond(values) ? new Float64Array(clouds.length) : undefined;
  for (let k = 0; k < clouds.length; k++) {
    water[k] = (0.5 + values.wetness) * Math.exp(0.64 * Math.min(0.6, values.clouds) * sheet[k]);
    paint[k] = Math.exp(0.62 * values.clouds * clouds[k]);
    ease[k] = Math.exp(0.5 * ease[k]);
    water[k] += 0.3 * touched[k];
    if (second) second[k] = touched[k];
    else paint[k] += 0.85 * touched[k];
  }
  scaleToMean(paint, 1);
  const long = values.drying / 240;
  const run = 42 * values.tilt * Math.sqrt(long);
  return runFlow({
    shape,
    water,
    paint,
    second,
    ease,
    pushes,
    levelling: 26 * long,
    spreading: 9 * long * values.wetness * values.wetness + 0.6,
    run: { x: run * Math.cos(downhill), y: run * Math.sin(downhill) },
    steps: fineness.steps,
    dried: 0.9,
    shield: 2,
    onStep,
  });
}

/** Paint that a loaded brush leaves: full within, feathering out over its rough front. */
function touchOf({ level, strength, reach }: Fronts, shape: FieldShape): Float32Array {
  const amount = new Float32Array(level.values.length);
  for (let k = 0; k < amount.length; k++) {
    const inside = Math.max(0, Math.min(1, (2.5 - level.values[k]) / Math.min(9, reach)));
    amount[k] = strength[k] * inside * inside * (3 - 2 * inside);
  }
  return sample({ ...level, values: amount }, shape);
}

function scaleToMean(values: Float64Array, mean: number): void {
  let sum = 0;
  for (const value of values) sum += value;
  const scale = (mean * values.length) / sum;
  for (let k = 0; k < values.length; k++) values[k] *= scale;
}

function edgeOf(
  fronts: Fronts,
  shape: FieldShape,
  strength: Float32Array,
  lost: Float32Array,
  values: Values,
  gain: number,
  crisp: number,
  crinkle: number,
): Edge {
  const amount = emptyLike(shape);
  for (let k = 0; k < amount.values.length; k++) {
    amount.values[k] = gain * values.backrun * strength[k] * (1 - 0.65 * lost[k]);
  }
  return { level: fronts.level, strength: amount, crisp, crinkle };
}

function settledPaint(
  shape: FieldShape,
  values: Values,
  { paint }: Flowed,
  wet: PeriodicField,
): PeriodicField {
  const field = emptyLike(shape);
  const share = values.granulation / 100;
  for (let k = 0; k < field.values.length; k++) {
    const patchy = 0.75 + 0.3 * wet.values[k] + 0.25 * Math.log(Math.max(0.05, paint[k]));
    field.values[k] =
      0.5 * share * Math.max(0.15, Math.min(1.6, patchy)) * Math.min(1.3, (values.drying / 240) ** 0.25);
  }
  return field;
}

function movedEdges(
  shape: FieldShape,
  { movedX, movedY }: Flowed,
  { move }: Values,
): Pick<WetModel, 'moveX' | 'moveY'> {
  const blur = (values: Float32Array) => gaussianBlur({ ...shape, values }, 2);
  const [x, y] = [blur(movedX), blur(movedY)];
  for (let k = 0; k < x.values.length; k++) {
    const far = Math.hypot(x.values[k], y.values[k]);
    // Where paint came from lies against the flow; a long way is shortened so that no place folds over.
    const scale = -move / (6 + far);
    x.values[k] *= scale;
    y.values[k] *= scale;
  }
  return { moveX: x, moveY: y };
}

function emptyLike(shape: FieldShape): PeriodicField {
  return { ...shape, values: new Float32Array(shape.width * shape.height) };
}

function asField(shape: FieldShape, values: Float64Array): PeriodicField {
  return { ...shape, values: Float32Array.from(values) };
}

function logarithm(shape: FieldShape, values: Float64Array): PeriodicField {
  return { ...shape, values: Float32Array.from(values, (value) => Math.log(Math.max(0.02, value))) };
}

/** `#rrggbb` as three numbers 0..1. */
function channelsOf(text: string): [number, number, number] {
  const bits = Number.parseInt(text.slice(1), 16);
  return [(bits >> 16) / 255, ((bits >> 8) & 255) / 255, (bits & 255) / 255];
}
