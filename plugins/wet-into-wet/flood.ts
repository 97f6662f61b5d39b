import {
  type Artwork,
  type Box,
  type FieldShape,
  type FractalNoise,
  fieldShape,
  fractalAt,
  fractalNoise,
  type PeriodicField,
  type RandomStream,
} from 'tenter';
import { edgeOf, lostShare, pushOf, type Water } from './edges.ts';
import { featherArtwork } from './feather.ts';
import { asField, bake, logarithm, type Noise, roundCell, softener } from './fields.ts';
import type { Fineness } from './fineness.ts';
import type { Flood } from './flooded.ts';
import { type Fronts, growFronts } from './fronts.ts';
import type { WetModel } from './model.ts';
import { hasSecond, type Values } from './parameters.ts';
import {
  chosenPlaces,
  mingledColours,
  movedEdges,
  movedTogether,
  paperTooth,
  SILT,
  settledPaint,
  stoodWhere,
} from './settled.ts';
import { layBlooms, layCharges, layFloods, laySpatter, type Sources } from './sources.ts';
import { streamOf } from './streaks.ts';
import { flowPaint } from './wash.ts';

type Streams = (name: string) => RandomStream;

export interface Prepared {
  /** Not yet levelled. */
  readonly model: WetModel;
  /** What a ground is laid on. */
  readonly flood: Flood;
  /** How many marks of each kind were let in. */
  readonly marks: Readonly<Record<'floods' | 'blooms' | 'spatter' | 'charges', number>>;
}

/** Runs the whole of it: marks, fronts, flow, and what the brush needs to paint them finely. */
export function floodPaper(
  values: Values,
  box: Box,
  streams: Streams,
  fineness: Fineness,
  progress: (done: number) => void = () => {},
  artwork?: Artwork,
): Prepared {
  const noise: Noise = (name, shape, fractal) => fractalNoise(box.lattice, shape, fractal, streams(name));
  const sources = layMarks(values, box, streams, noise);
  const fronts = growAll(values, sources, fieldShape(box, fineness.fronts), noise, progress);
  const coarse = fieldShape(box, fineness.flow);
  const wet = bake(box, fineness.flow, noise('wet', roundCell(38), { octaves: 3, gain: 0.6 }));
  const lost = lostShare(wet, values);
  const silt = bake(box, fineness.flow, noise('silt', SILT, { octaves: 3, gain: 0.6 }));
  const broken = bake(box, fineness.flow, noise('broken', roundCell(20), { octaves: 3, gain: 0.6 })).values;
  const edges = WATERS.map((water) => edgeOf(fronts[water.name], coarse, lost, broken, values, water));
  const pushes = WATERS.flatMap((water, k) =>
    water.grip > 0 ? [pushOf(fronts[water.name], coarse, edges[k], lost, values, water)] : [],
  );
  const flowed = flowPaint(values, box, coarse, fronts.charges, pushes, fineness, noise, (done) =>
    progress(0.3 + 0.5 * done),
  );
  const stream = streamOf(coarse, flowed, values.tilt, values.downhill);
  const stood = stoodWhere(flowed, stream.pace.values, wet.values, silt.values);
  // What varies over several mm is kept on larger cells, where painting steps less often from one to the next.
  const soften = softener(fieldShape(box, 2 * fineness.flow));
  const chosen = chosenPlaces(
    bake(box, 2, noise('chosen', roundCell(42), { octaves: 2, gain: 0.6 })),
    values,
  );
  const bleed = mingledColours(chosen, values);
  const moved = movedEdges(coarse, flowed, values, chosen, soften);
  const fingers = noise('fingers', roundCell(5), { octaves: 4, gain: 0.7 });
  const feathered = artwork && featherArtwork(artwork, chosen, values.move, fingers);
  const model: WetModel = {
    lattice: box.lattice,
    base: logarithm(coarse, flowed.paint),
    edges: edges.flatMap(({ level, strength, crisp, crinkle }, k) =>
      sources[WATERS[k].name].count > 0 ? [{ level, strength: soften(strength), crisp, crinkle }] : [],
    ),
    sharpness: soften({ ...coarse, values: lost.map((share) => 1 / (0.45 + 7 * share ** 3)) }),
    lobes: noise('lobes', roundCell(4.4), { octaves: 2, gain: 0.75 }),
    feathers: noise('feathers', roundCell(0.8), { octaves: 1, gain: 1 }),
    tooth: paperTooth(values.tooth, noise),
    settled: soften(settledPaint(coarse, values, stood)),
    teeth: toothed(bake(box, 3, noise('teeth', roundCell(30), { octaves: 2, gain: 0.6 }))),
    ...(feathered ? movedTogether(moved, bleed, feathered) : { ...moved, bleed }),
    level: 0,
  };
  const flood: Flood = {
    base: model.base,
    touched: flowed.second && asField(coarse, flowed.second),
    feathered: feathered?.load,
    isSecond: hasSecond(values),
    lost: { ...coarse, values: lost },
    silt,
    stream,
    stood: { ...coarse, values: stood },
  };
  return { model, flood, marks: countMarks(sources) };
}

type AllSources = Readonly<Record<keyof Prepared['marks'], Sources>>;
type AllFronts = Readonly<Record<keyof Prepared['marks'], Fronts>>;

/** Waters in the order in which they are painted; see `Water`. */
const WATERS: readonly Water[] = [
  { name: 'floods', gain: 1.1, crisp: 0.75, crinkle: 1.3, grip: 0.26, trail: 16, brings: 0.45 },
  { name: 'blooms', gain: 1.4, crisp: 1, crinkle: 1, grip: 0.25, trail: 9, brings: 0.6 },
  { name: 'spatter', gain: 0.8, crisp: 1.6, crinkle: 0.3, grip: 0, trail: 0, brings: 0 },
];

/** Blooms and spatter fall in clusters, with calm passages between. */
function layMarks(values: Values, box: Box, streams: Streams, noise: Noise): AllSources {
  const throws = noise('throws', roundCell(45), { octaves: 2, gain: 0.6 });
  const calm = noise('calm', roundCell(95), { octaves: 2, gain: 0.6 });
  const share = (field: FractalNoise, mean: number, spread: number) => (x: number, y: number) =>
    Math.max(0, Math.min(1, mean + spread * fractalAt(field, x, y)));
  return {
    floods: layFloods(values, box, streams),
    blooms: layBlooms(values, box, streams, share(calm, 0.5, 0.5)),
    spatter: laySpatter(values, box, streams, share(throws, 0.15, 0.55)),
    charges: layCharges(values, box, streams),
  };
}

function growAll(
  { crinkle }: Values,
  sources: AllSources,
  shape: FieldShape,
  noise: Noise,
  progress: (done: number) => void,
): AllFronts {
  const rough = 0.16 + 0.2 * Math.min(1.6, crinkle);
  const grow = (name: keyof AllSources, size: number, octaves: number, share: number, margin: number) => {
    progress(0.05);
    const sheet = noise(`rough ${name}`, roundCell(size), { octaves, gain: 0.62 });
    return growFronts(shape, sources[name], sheet, rough * share, margin);
  };
  return {
    floods: grow('floods', 30, 4, 1.5, 12),
    blooms: grow('blooms', 9, 3, 1.1, 8),
    spatter: grow('spatter', 2.4, 2, 0.7, 1.5),
    charges: grow('charges', 8, 4, 1.9, 10),
  };
}

/** How much outlines are toothed, of a noise: many are nearly smooth, some twice as much. */
function toothed(noise: PeriodicField): PeriodicField {
  return { ...noise, values: noise.values.map((value) => Math.max(0.25, Math.min(1.7, 0.9 + 0.6 * value))) };
}

function countMarks({ floods, blooms, spatter, charges }: AllSources): Prepared['marks'] {
  return { floods: floods.count, blooms: blooms.count, spatter: spatter.count, charges: charges.count };
}
