import { type Lattice, latticeNoise, noiseAt, type RandomStream } from 'tenter';
import type { WoodSetting } from './boards.ts';
import { columnsOver, grainLattice, resolveColumn } from './columns.ts';
import { bendRoundKnots, type Knot, scatterKnots } from './knots.ts';
import type { GrainSample } from './nodes.ts';
import type { Detail, Layout } from './piece.ts';
import { RAY_PITCH } from './rays.ts';
import { closedWave, waveAt } from './waves.ts';

/** A radius over the whole plane that comes back after each vector of the repeat, whole rings further on. */
interface Winding {
  radius(u: number, v: number): number;
  /** Rings gained across and along one repeat. */
  readonly across: number;
  readonly along: number;
  readonly period: number;
}

/** One sheet of veneer without a joint over the whole repeat. */
export function layVeneer(setting: WoodSetting): Layout {
  const { parameters, box } = setting;
  const { figure, variation, cut, species } = parameters;
  const lattice = grainLattice(box, parameters.direction === 'across');
  const random = setting.random('veneer');
  const winding = cut === 'plain' ? heartWinding(setting, random) : straightWinding(setting, random);
  setting.report({ name: 'rings across', value: winding.across, unit: 'count' });
  setting.report({ name: 'rings along', value: winding.along, unit: 'count' });
  const knots = closedKnots(setting, lattice);
  const centres = knots.map((knot) => winding.radius(knot.u, knot.v));
  const noises = closedNoises(lattice, random);
  const detail = detailOf(lattice, box.layout.denominator, cut);
  const rays = raySlopes(detail);
  const field = (u: number, v: number, out: GrainSample) => {
    out.radius = winding.radius(u, v);
    out.drift = -1.6 * figure * noises.bend(u, v);
    out.wash = variation * (WASH_DEPTH[species] * noises.wash(u, v) + 0.018 * noises.washFine(u, v));
    out.ray = rays.across * u + rays.along * v + 0.35 * noises.ripple(u, v);
    bendRoundKnots(knots, centres, u, v, out);
  };
  const edge = (at: number) => ({ at, wave: -1, shift: 0 });
  const { denominator } = box.layout;
  return {
    drafts: [
      {
        width: lattice.ax,
        length: lattice.by,
        multipleU: lattice.bx === 0 ? 1 : denominator,
        multipleV: lattice.ay === 0 ? 1 : denominator,
        detailU: 0,
        detailV: 0,
        knots,
        lightness: 0,
        warmth: 0,
        field,
      },
    ],
    placements: [
      {
        piece: 0,
        left: edge(0),
        right: edge(lattice.ax),
        top: 0,
        bottom: lattice.by,
        offsetU: 0,
        offsetV: 0,
        hasTopJoint: false,
        hasBottomJoint: false,
        hasSideJoints: false,
      },
    ],
    waves: [],
    ringPeriod: winding.period,
    detail,
  };
}

/** How far the colour wanders over the sheet: walnut is smoky, the others even. */
const WASH_DEPTH = { oak: 0.03, ash: 0.03, pine: 0.025, walnut: 0.07 } as const;

/** How often the sheet of fibres may stand in a repeat: once per 160 mm or so. */
function shares({ ax, by }: Lattice): { across: number; along: number } {
  return { across: Math.max(1, Math.round(ax / 160)), along: Math.max(1, Math.round(by / 200)) };
}

/** A lattice whose whole multiples include the repeat's own vectors, so that what closes over it closes there. */
function detailOf(lattice: Lattice, denominator: number, cut: keyof typeof RAYS_PER_MM): Detail {
  const { across, along } = shares(lattice);
  const turns = Math.max(1, Math.round((RAYS_PER_MM[cut] * lattice.ax) / across));
  return {
    lattice: {
      ax: lattice.ax / across,
      ay: lattice.ay / across,
      bx: lattice.bx / along,
      by: lattice.by / along,
    },
    stepU: lattice.bx === 0 ? 1 : denominator * along,
    stepV: lattice.ay === 0 ? 1 : denominator * across,
    // Along a quartered face the fibres' slant passes about as many rays as the face does across.
    rayTurns: [turns, cut === 'quarter' ? turns : 0],
  };
}

/** Rays met per mm across the face: all of them on a plain one, few on one that runs nearly along them. */
const RAYS_PER_MM = { plain: 1 / RAY_PITCH, rift: 0.5 / RAY_PITCH, quarter: 0.045 / RAY_PITCH } as const;

/** mm round the stem per mm across and along that make up the turns of a detail lattice. */
function raySlopes({ lattice, rayTurns }: Detail): { across: number; along: number } {
  const { ax, ay, bx, by } = lattice;
  const [a, b] = [rayTurns[0] * RAY_PITCH, rayTurns[1] * RAY_PITCH];
  const area = ax * by - ay * bx;
  return { across: (a * by - b * ay) / area, along: (b * ax - a * bx) / area };
}

/**
 * Straight grain: N rings across, none along. Under a brick the rows are offset by whole rings, so N
 * is a multiple of its denominator.
 */
function straightWinding({ parameters, box }: WoodSetting, random: RandomStream): Winding {
  const isAcross = parameters.direction === 'across';
  const lattice = grainLattice(box, isAcross);
  const step = lattice.bx === 0 ? 1 : box.layout.denominator;
  const slope = parameters.cut === 'quarter' ? 1 : Math.SQRT1_2;
  const rings = Math.max(1, Math.floor((slope * lattice.ax) / parameters.ringWidth / step)) * step;
  const rise = (rings * parameters.ringWidth) / lattice.ax;
  const lumps = windingNoises(lattice, random);
  return {
    across: rings,
    along: 0,
    period: rings / step,
    radius: (u, v) => rise * u + parameters.figure * 0.6 * lumps(u, v),
  };
}

/**
 * Cathedrals: the nearest of several hearts decides the radius, and a steady gain of M rings along
 * the grain lets all arches point the same way.
 */
function heartWinding({ parameters, box }: WoodSetting, random: RandomStream): Winding {
  const { boardWidth, ringWidth, figure } = parameters;
  const isAcross = parameters.direction === 'across';
  const columns = columnsOver(box, isAcross, boardWidth, false, random.next());
  const { lattice, width } = columns;
  const hearts = Array.from({ length: columns.distinct }, () => ({
    aside: width * random.between(-0.22, 0.22),
    depth: random.between(11, 28),
    bow: closedWave(columns.period, 300, 4, 1.6 * figure, random),
    sweep: closedWave(columns.period, 500, 3, 1.4 * figure, random),
  }));
  const along = Math.max(1, Math.round((0.062 * figure * lattice.by) / ringWidth));
  const sense = random.next() < 0.5 ? -1 : 1;
  const gain = (sense * along * ringWidth) / lattice.by;
  const lean = (-gain * lattice.ay) / lattice.ax;
  const lumps = windingNoises(lattice, random);
  return {
    across: 0,
    along: sense * along,
    period: along,
    radius: (u, v) => {
      const c = Math.floor((u - columns.start) / width);
      let sum = 0;
      for (let k = c - 2; k <= c + 2; k++) {
        const { id, shift } = resolveColumn(columns, k);
        const heart = hearts[id];
        const x = u - (columns.start + (k + 0.5) * width + heart.aside) - waveAt(heart.sweep, v - shift);
        const depth = Math.max(4, heart.depth + waveAt(heart.bow, v - shift));
        sum += Math.exp(-Math.sqrt(x * x + depth * depth) / SOFTNESS);
      }
      return -SOFTNESS * Math.log(sum) + gain * v + lean * u + figure * lumps(u, v);
    },
  };
}

/** mm over which two hearts' rings blend where they meet. */
const SOFTNESS = 4;

function windingNoises(lattice: Lattice, random: RandomStream): (u: number, v: number) => number {
  const noise = (across: number, along: number) =>
    latticeNoise(lattice, { along: across, across: along }, random);
  const [broad, middle, small] = [noise(34, 190), noise(17, 80), noise(8, 45)];
  return (u, v) =>
    4.6 * (0.75 * noiseAt(broad, u, v) + 0.45 * noiseAt(middle, u, v) + 0.16 * noiseAt(small, u, v));
}

function closedNoises(lattice: Lattice, random: RandomStream) {
  const noise = (across: number, along: number) => {
    const field = latticeNoise(lattice, { along: across, across: along }, random);
    return (u: number, v: number) => 4.6 * noiseAt(field, u, v);
  };
  return { bend: noise(60, 220), wash: noise(40, 260), washFine: noise(6, 110), ripple: noise(70, 50) };
}

/** Knots of the repeat with those copies that reach into its box. */
function closedKnots(setting: WoodSetting, lattice: Lattice): Knot[] {
  const { parameters, box } = setting;
  const count = Math.round((parameters.knots * box.width * box.height) / 1e4);
  const slender = parameters.cut === 'plain' ? 1.35 : 0.5;
  const own = scatterKnots(count, lattice.ax, lattice.by, slender, setting.random('knots'));
  const copies: Knot[] = [];
  for (const knot of own) {
    const reach = 8 * knot.size * Math.max(1, knot.slender);
    for (let n = -2; n <= 2; n++) {
      for (let m = -2; m <= 2; m++) {
        const u = knot.u + n * lattice.ax + m * lattice.bx;
        const v = knot.v + n * lattice.ay + m * lattice.by;
        const isNear = u > -reach && u < lattice.ax + reach && v > -reach && v < lattice.by + reach;
        if (isNear) copies.push({ ...knot, u, v });
      }
    }
  }
  return copies;
}
