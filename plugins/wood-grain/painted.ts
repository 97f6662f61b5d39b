import { latticeNoise, noiseAt, type RandomStream } from 'tenter';
import type { WoodSetting } from './boards.ts';
import { columnsOver } from './columns.ts';
import type { Layout, PieceDraft } from './piece.ts';
import type { RingHabit } from './rings.ts';
import { endlessColumns } from './strips.ts';
import { closedWave, waveAt } from './waves.ts';

/**
 * Painted graining: a glaze over a dry ground, drawn while wet in strips as wide as the tool, hearts
 * pulled with the rocker beside plain grain pulled with the comb.
 */
export function layPainted(setting: WoodSetting): Layout {
  const { parameters, box } = setting;
  const isAcross = parameters.direction === 'across';
  const random = setting.random('painted');
  const columns = columnsOver(box, isAcross, parameters.boardWidth, true, random.between(0.2, 0.8));
  const { figure, ringWidth } = parameters;
  const along = Math.max(1, Math.round((0.13 * figure * columns.period) / ringWidth));
  setting.report({ name: 'strip width', value: columns.width, unit: 'mm', asked: parameters.boardWidth });
  setting.report({ name: 'strips across', value: columns.count, unit: 'count' });
  setting.report({ name: 'lines along', value: along, unit: 'count' });
  const drafts: PieceDraft[] = [];
  const waves: Float64Array[] = [];
  for (let id = 0; id < columns.distinct; id++) {
    const strip = id % 2 === 0 ? rockerStrip : combStrip;
    drafts.push(strip(setting, columns.width, columns.period, along, random));
    waves.push(closedWave(columns.period, 240, 4, 0.9, random));
  }
  return { ...endlessColumns(columns, drafts, waves, false), ringPeriod: along };
}

type Strip = (
  setting: WoodSetting,
  width: number,
  period: number,
  along: number,
  random: RandomStream,
) => PieceDraft;

/**
 * The rocker's face is cut like the end of a log: pulled along while it is rocked, its rings are
 * drawn out into nested hearts. Rocking faster crowds them, rocking back closes them.
 */
const rockerStrip: Strip = ({ parameters }, width, period, along, random) => {
  const { figure, variation, ringWidth } = parameters;
  const pace = closedWave(period, 230, 4, 0.75 * figure * ringWidth, random);
  const sweep = closedWave(period, 260, 3, 2.5 * figure, random);
  const depth = closedWave(period, 260, 3, 1.6 * figure, random);
  const gain = ((random.next() < 0.5 ? -1 : 1) * along * ringWidth) / period;
  const hand = handNoise(period, random);
  const middle = width * random.between(0.44, 0.56);
  return {
    ...plainStrip(width, period, variation, random),
    field: (u, v, out) => {
      const x = 0.95 * (u - middle - waveAt(sweep, v));
      const deep = Math.max(5, 15 + waveAt(depth, v));
      out.radius = Math.sqrt(x * x + deep * deep) + gain * v + waveAt(pace, v) + figure * hand(u, v);
      out.drift = -waveAt(sweep, v);
      out.wash = 0.02 * variation * hand(u + 300, v);
      out.ray = 0;
    },
  };
};

/** The comb draws as many lines as it has teeth, as straight as a hand can. */
const combStrip: Strip = ({ parameters }, width, period, _along, random) => {
  const { figure, variation } = parameters;
  const sway = closedWave(period, 260, 4, 1.6 * figure, random);
  const hand = handNoise(period, random);
  return {
    ...plainStrip(width, period, variation, random),
    field: (u, v, out) => {
      out.radius = 1.25 * (u + waveAt(sway, v)) + 0.5 * figure * hand(u, v);
      out.drift = -waveAt(sway, v);
      out.wash = 0.02 * variation * hand(u + 300, v);
      out.ray = 0;
    },
  };
};

function plainStrip(width: number, period: number, variation: number, random: RandomStream) {
  return {
    width,
    length: period,
    multipleU: 1,
    multipleV: 1,
    detailU: random.between(0, 132),
    detailV: 0,
    knots: [],
    lightness: 0.02 * variation * random.between(-1, 1),
    warmth: 0,
  };
}

function handNoise(period: number, random: RandomStream): (u: number, v: number) => number {
  const lattice = { ax: 1200, ay: 0, bx: 0, by: period };
  const broad = latticeNoise(lattice, { along: 22, across: 90 }, random);
  const small = latticeNoise(lattice, { along: 9, across: 30 }, random);
  return (u, v) => 4.6 * (0.55 * noiseAt(broad, u, v) + 0.16 * noiseAt(small, u, v));
}

/**
 * One line of glaze and the bare gap beside it. The tool pushes the glaze aside, so that a line is
 * darkest at its edges; lines differ in weight as the teeth wear and the pressure changes.
 */
export const PAINT_LINES: RingHabit = {
  profile: (t, weight) => {
    const from = Math.abs(t - 0.5) / (weight / 2);
    const body = 0.78 + 0.22 * Math.min(1, from) ** 3;
    return body * Math.max(0, Math.min(1, (1.08 - from) / 0.16));
  },
  latewood: 0.52,
  latewoodSpread: 0.35,
  ringSpread: 0.2,
  drift: 0.05,
  spells: 0.01,
};
