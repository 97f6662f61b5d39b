import { bezier, curveThrough, lengthOf, partOf, stationAt, walkAlong } from './curve.ts';
import { leafProfile, NOTHING, type Profile, ribbon, taper } from './cut.ts';
import type { Point, Shape } from './geometry.ts';

/** A leaf in four cuts: its stalk, its two halves, and the veins that are left open in it. */
export interface LeafCut {
  readonly stalk: Shape;
  readonly left: Shape;
  readonly right: Shape;
  readonly veins: Shape;
}

/**
 * A whole-edged leaf along a line.
 *
 * @param halfWidth mm
 * @param veins     Side veins on each half.
 */
export function plainLeaf(points: readonly Point[], halfWidth: number, veins = 0, peak = 0.42): LeafCut {
  const line = curveThrough(points);
  const profile = leafProfile(halfWidth, peak);
  const reach = Math.max(0.35, halfWidth * 0.05);
  const sides: Shape[] = [];
  for (let index = 0; index < veins; index++) {
    const t = 0.14 + (0.66 * index) / Math.max(1, veins - 1);
    for (const side of [1, -1]) sides.push(sideVein(line, t, side, profile, reach * 0.7));
  }
  return {
    stalk: [],
    left: ribbon(line, profile, NOTHING),
    right: ribbon(line, NOTHING, profile),
    veins: [...ribbon(line, taper(reach * 1.3, 0.1)), ...sides.flat()],
  };
}

function sideVein(
  line: readonly Point[],
  t: number,
  side: number,
  profile: Profile,
  halfWidth: number,
): Shape {
  const { point, along, left } = stationAt(line, t);
  const tip = stationAt(line, Math.min(0.97, t + 0.16));
  const reach = profile(Math.min(0.97, t + 0.16)) * 0.72 * side;
  const end: Point = [tip.point[0] + tip.left[0] * reach, tip.point[1] + tip.left[1] * reach];
  const bend: Point = [
    (point[0] + end[0]) / 2 + (left[0] * side - along[0]) * Math.abs(reach) * 0.08,
    (point[1] + end[1]) / 2 + (left[1] * side - along[1]) * Math.abs(reach) * 0.08,
  ];
  return ribbon(curveThrough([point, bend, end]), taper(halfWidth, 0.08), undefined, 16);
}

/** How a lobed leaf is cut. */
export interface Lobes {
  /** On each half. */
  readonly count: number;
  /** From the midrib to the tip of the longest lobe, mm: left half, right half. */
  readonly reach: readonly [number, number];
  /** How deep the cuts go: 0 to the midrib, 1 not at all. */
  readonly waist?: number;
  /** Where along the leaf the lobes are longest, 0..1. */
  readonly peak?: number;
  /** How far the tips are swept towards the leaf's end, in lobes. */
  readonly sweep?: number;
  /** False to leave the midrib out. */
  readonly midrib?: boolean;
}

/** A leaf cut into swept, pointed lobes along a line, as a thistle's or an acanthus's. */
export function lobedLeaf(points: readonly Point[], lobes: Lobes): LeafCut {
  const line = curveThrough(points);
  const bent = bendAlong(line);
  const sides = [1, -1].map((side) => lobedHalf(lobes, lobes.reach[side > 0 ? 0 : 1], side));
  const rib = ribbon(partOf(line, LOBES_FROM, 1), (t) => 0.1 + 1.35 * Math.min(1, t / 0.14) * (1 - t));
  return {
    stalk: ribbon(partOf(line, 0, LOBES_FROM + 0.06), taper(STALK, STALK * 0.8)),
    left: [sides[0].edge.map(bent)],
    right: [sides[1].edge.map(bent)],
    veins: [
      ...(lobes.midrib === false ? [] : rib),
      ...sides.flatMap(({ veins }) =>
        veins.flatMap((vein) => ribbon(vein.map(bent), taper(0.95, 0.12), undefined, 24)),
      ),
    ],
  };
}

/** Carries a point of a straight leaf (0..1 along, mm to the left) to the leaf bent along a line. */
function bendAlong(line: readonly Point[]): (point: Point) => Point {
  const length = lengthOf(line);
  const walk = walkAlong(line);
  return ([u, v]) => {
    const { point, along, left } = walk(Math.min(1, Math.max(0, u)));
    const over = (u - Math.min(1, Math.max(0, u))) * length;
    return [point[0] + left[0] * v + along[0] * over, point[1] + left[1] * v + along[1] * over];
  };
}

const LOBES_FROM = 0.09;
const LOBES_TO = 0.8;
/** Half-width of the leaf's stalk, mm. */
const STALK = 1.9;

/** One half of a straight lobed leaf: 0..1 along the midrib, mm across it. */
function lobedHalf(
  { count, waist = 0.3, peak = 0.36, sweep = 0.55 }: Lobes,
  reach: number,
  side: number,
): { edge: Point[]; veins: Point[][] } {
  const step = (LOBES_TO - LOBES_FROM) / count;
  const height = (u: number) => reach * (0.3 + 0.7 * leafProfile(1, peak, 0.75)(Math.min(0.98, u)));
  const notch = (index: number): Point => {
    const u = LOBES_FROM + index * step;
    return [u, index === 0 ? STALK * 0.8 : height(u) * waist];
  };
  const edge: Point[] = [[LOBES_FROM, 0]];
  const veins: Point[][] = [];
  for (let index = 0; index < count; index++) {
    const [from, to] = [notch(index), notch(index + 1)];
    const tip: Point = [to[0] + sweep * step, height((from[0] + to[0]) / 2)];
    edge.push(
      ...bezier(
        from,
        [from[0] + step * 0.12, tip[1] * (index === 0 ? 0.42 : 0.6)],
        [from[0] + step * (sweep + 0.1), tip[1] * 1.04],
        tip,
        20,
      ),
      ...bezier(tip, [tip[0] - step * 0.2, tip[1] * 0.72], [to[0] + step * 0.1, to[1] * 1.5], to, 16),
    );
    if (index === 0) continue;
    const root: Point = [from[0] - step * 0.42, 0];
    veins.push(
      bezier(
        root,
        [from[0] + step * 0.1, tip[1] * 0.22],
        [from[0] + step * 0.4, tip[1] * 0.52],
        [to[0] + (sweep - 0.42) * step, tip[1] * 0.8],
        12,
      ),
    );
  }
  const last = edge[edge.length - 1];
  const room = 1 - last[0];
  edge.push(
    ...bezier(
      last,
      [last[0] + room * 0.05, last[1] * 2.3],
      [last[0] + room * 0.5, last[1] * 1.7],
      [1, 0],
      24,
    ),
  );
  for (let step = 40; step > 0; step--) edge.push([LOBES_FROM + ((1 - LOBES_FROM) * step) / 40, 0]);
  return {
    edge: edge.map(([u, v]) => [u, v * side] as const),
    veins: veins.map((vein) => vein.map(([u, v]) => [Math.max(LOBES_FROM + 0.03, u), v * side] as const)),
  };
}
