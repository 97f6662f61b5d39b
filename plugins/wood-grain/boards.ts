import { type Box, latticeNoise, noiseAt, type RandomStream, type Setting } from 'tenter';
import { type Columns, columnsOver, resolveColumn } from './columns.ts';
import { bendRoundKnots, scatterKnots } from './knots.ts';
import type { GrainSample } from './nodes.ts';
import type { PARAMETERS, WoodValues } from './parameters.ts';
import type { Layout, PieceDraft, Placement } from './piece.ts';
import { RAY_PITCH } from './rays.ts';
import { closedWave, waveAt } from './waves.ts';

export type WoodSetting = Setting<typeof PARAMETERS>;

/** mm of the sheet of fibres that all boards are cut from, each elsewhere. */
const DETAIL_WIDTH = 132;
const DETAIL_LENGTH = 198;

/** Where the saw went through the log. */
interface SawCut {
  /** mm across the face from the board's middle to the foot of the pith. */
  readonly pith: number;
  /** mm from the face to the pith at the top end, and its change per mm along. */
  readonly depth: number;
  readonly taper: number;
}

/** How often a board lies the other way than the one before it. */
const TURNED = 0.72;

/** Boards side by side, each its own cut from its own log, their butt ends staggered. */
export function layBoards(setting: WoodSetting): Layout {
  const { parameters, box } = setting;
  const isAcross = parameters.direction === 'across';
  const random = setting.random('boards');
  const columns = columnsOver(box, isAcross, parameters.boardWidth, false, random.between(0.2, 0.8));
  const perColumn = Math.max(1, Math.round(columns.period / parameters.boardLength));
  reportBoards(setting, columns, perColumn);
  const noises = grainNoises(random);
  const knotsOf = shareKnots(setting, box, columns.distinct * perColumn);
  const drafts: PieceDraft[] = [];
  const ends: Float64Array[] = [];
  const first = random.next();
  let isUp = random.next() < 0.5;
  for (let id = 0; id < columns.distinct; id++) {
    const cuts = buttEnds(columns.period, perColumn, first + id * 0.618034, random);
    ends.push(cuts);
    for (let k = 0; k < perColumn; k++) {
      const length = cuts[k + 1] - cuts[k];
      // Layers turn boards end for end as they come to hand: neighbours seldom point the same way.
      if (random.next() < TURNED) isUp = !isUp;
      drafts.push(board(parameters, columns.width, length, knotsOf(drafts.length), noises, isUp, random));
    }
  }
  return {
    drafts,
    placements: placeBoards(columns, perColumn, ends),
    waves: [],
    ringPeriod: 0,
    detail: {
      lattice: { ax: DETAIL_WIDTH, ay: 0, bx: 0, by: DETAIL_LENGTH },
      stepU: 1,
      stepV: 1,
      rayTurns: [Math.round(DETAIL_WIDTH / RAY_PITCH), 0],
    },
  };
}

function reportBoards(setting: WoodSetting, columns: Columns, perColumn: number): void {
  const { boardWidth, boardLength } = setting.parameters;
  setting.report({ name: 'board width', value: columns.width, unit: 'mm', asked: boardWidth });
  setting.report({
    name: 'board length',
    value: columns.period / perColumn,
    unit: 'mm',
    asked: boardLength,
  });
  setting.report({ name: 'boards across', value: columns.count, unit: 'count' });
}

/** Where the boards of a column end, mm, from the first end to the same end one period on. */
function buttEnds(period: number, count: number, stagger: number, random: RandomStream): Float64Array {
  const ends = new Float64Array(count + 1);
  const length = period / count;
  const start = (stagger - Math.floor(stagger)) * length;
  for (let k = 0; k < count; k++) ends[k] = start + length * (k + random.between(-0.14, 0.14));
  ends[count] = ends[0] + period;
  return ends;
}

function placeBoards(columns: Columns, perColumn: number, ends: readonly Float64Array[]): Placement[] {
  const { lattice, width, start, period } = columns;
  const placements: Placement[] = [];
  const edge = (c: number) => ({ at: c * width + start, wave: -1, shift: 0 });
  for (let c = -1; c * width + start < lattice.ax; c++) {
    const { id, shift } = resolveColumn(columns, c);
    const endAt = (k: number) => {
      const turns = Math.floor(k / perColumn);
      return ends[id][k - turns * perColumn] + turns * period + shift;
    };
    let k = -1;
    while (endAt(k) > 0) k--;
    for (; endAt(k) < lattice.by; k++) {
      const slot = k - Math.floor(k / perColumn) * perColumn;
      placements.push({
        piece: id * perColumn + slot,
        left: edge(c),
        right: edge(c + 1),
        top: endAt(k),
        bottom: endAt(k + 1),
        offsetU: edge(c).at,
        offsetV: endAt(k),
        hasTopJoint: true,
        hasBottomJoint: true,
        hasSideJoints: true,
      });
    }
  }
  return placements;
}

/** Deals the knots of the whole repeat out to its boards. */
function shareKnots(
  { parameters, random }: WoodSetting,
  box: Box,
  boards: number,
): (board: number) => number {
  const total = Math.round((parameters.knots * box.width * box.height) / 1e4);
  const dealt = new Uint16Array(boards);
  const stream = random('knots');
  for (let n = 0; n < total; n++) dealt[stream.below(boards)]++;
  return (board) => dealt[board];
}

/** Noises that bend the growth surface; one large field of its own, from which each board takes a part. */
export function grainNoises(random: RandomStream) {
  const lattice = { ax: 1900, ay: 0, bx: 0, by: 2900 };
  const noise = (across: number, along: number) => {
    const field = latticeNoise(lattice, { along: across, across: along }, random);
    return (u: number, v: number) => noiseAt(field, u, v) * 4.6;
  };
  return {
    broad: noise(34, 190),
    middle: noise(17, 80),
    small: noise(8, 45),
    years: noise(22, 70),
    wash: noise(28, 260),
    washFine: noise(6, 110),
    ripple: noise(60, 34),
  };
}

export type GrainNoises = ReturnType<typeof grainNoises>;

/** How many plain-sawn boards have the foot of their pith far from their middle. */
const ASIDE = 0.4;

function sawCut(
  parameters: WoodValues,
  width: number,
  length: number,
  isUp: boolean,
  random: RandomStream,
): SawCut {
  const side = random.next() < 0.5 ? -1 : 1;
  const figure = parameters.figure;
  if (parameters.cut === 'plain') {
    const taper = figure * random.between(0.02, 0.1);
    const nearest = random.between(5, 22) + 60 * random.next() ** 4;
    // Some boards are sawn so far beside the pith that half an arch is left, or its flank alone.
    const isAside = random.next() < ASIDE;
    const aside = isAside ? random.between(0.35, 0.85) : random.between(0, 0.24);
    return {
      pith: side * width * aside,
      depth: isUp ? nearest : nearest + taper * length,
      taper: isUp ? taper : -taper,
    };
  }
  const pith = side * (width / 2 + random.between(45, 110));
  const angle = parameters.cut === 'rift' ? random.between(38, 52) : random.between(84, 90);
  const depth = Math.abs(pith) / Math.tan((angle * Math.PI) / 180);
  return { pith, depth, taper: figure * random.between(-0.012, 0.012) };
}

/** One board: R = sqrt((u - pith(v))^2 + depth(v)^2), bent by noise. */
function board(
  parameters: WoodValues,
  width: number,
  length: number,
  knotCount: number,
  noises: GrainNoises,
  isUp: boolean,
  random: RandomStream,
): PieceDraft {
  const { figure, variation, cut: sawn } = parameters;
  const cut = sawCut(parameters, width, length, isUp, random);
  const far = 8000;
  const sweep = closedWave(far, 900, 4, 3.2 * figure, random);
  // Stems swell and shrink unevenly: arches stand close here and far apart there.
  const bow = closedWave(far, 760, 6, (sawn === 'plain' ? 3.1 : 1) * figure, random);
  const [du, dv] = [random.between(0, 1900), random.between(0, 2900)];
  const scale = Math.exp(0.16 * random.normal());
  const start = random.between(0, 60);
  const uneven = figure * (sawn === 'plain' ? 1 : 0.55);
  const reference = Math.hypot(cut.pith, cut.depth);
  // Rays follow the fibres, which never run quite along the board: so a quartered face cuts them at a slant.
  const slant = (random.next() < 0.5 ? -1 : 1) * random.between(0.05, 0.08);
  const blade = sawn === 'quarter' ? slant : 0;
  const knots = scatterKnots(knotCount, width, length, sawn === 'plain' ? 1.35 : 0.5, random);
  const straight = (u: number, v: number, out: GrainSample) => {
    const x = u - width / 2 - cut.pith - waveAt(sweep, v);
    const bent = cut.depth + cut.taper * v + waveAt(bow, v);
    const depth = sawn === 'plain' ? above(bent, 4) : bent;
    const [nu, nv] = [u + du, v + dv];
    const radius = Math.sqrt(x * x + depth * depth);
    const lumps =
      uneven *
      (0.95 * noises.broad(nu, nv) +
        0.5 * noises.middle(nu, nv) +
        0.3 * noises.small(nu, nv) +
        // Years differ along the stem: a ring does not wave as its neighbours do.
        0.34 * noises.years(2.6 * radius + du, nv));
    out.radius = (radius + lumps) / scale + start;
    out.drift = -waveAt(sweep, v) - 1.2 * figure * noises.broad(nu + 500, nv);
    out.wash =
      variation * (0.03 * noises.wash(nu, nv) + 0.018 * noises.washFine(nu, nv)) -
      0.02 * variation * noises.broad(nu, nv + 700);
    out.ray = reference * Math.atan2(x, depth + blade * (v - length / 2) + 0.3 * noises.ripple(nu, nv));
  };
  const centre: GrainSample = { radius: 0, wash: 0, drift: 0, ray: 0 };
  const centres = knots.map((knot) => {
    straight(knot.u, knot.v, centre);
    return centre.radius;
  });
  return {
    width,
    length,
    multipleU: 1,
    multipleV: 1,
    detailU: random.between(0, DETAIL_WIDTH),
    detailV: random.between(0, DETAIL_LENGTH),
    knots,
    lightness: 0.085 * variation * clampNormal(random),
    warmth: 0.32 * variation * clampNormal(random),
    field: (u, v, out) => {
      straight(u, v, out);
      bendRoundKnots(knots, centres, u, v, out);
    },
  };
}

export function clampNormal(random: RandomStream): number {
  return Math.max(-1.8, Math.min(1.8, random.normal()));
}

/** `value`, but never below about `least`, without a corner. */
function above(value: number, least: number): number {
  const x = value - least;
  return least + (x + Math.sqrt(x * x + least * least)) / 2;
}
