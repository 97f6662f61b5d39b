import {
  bilinearAt,
  diffuseLines,
  type FieldShape,
  gaussianBlur,
  linesAlong,
  openLineStore,
  type PeriodicField,
} from 'tenter';
import { sample } from './fields.ts';
import type { Push } from './flow.ts';
import type { Fronts } from './fronts.ts';
import type { Values } from './parameters.ts';

/** One kind of water as it is painted. Plain data. */
export interface Edge {
  /** mm from the outline, negative inside. */
  readonly level: PeriodicField;
  /** How strongly it clears, 0..1. */
  readonly strength: PeriodicField;
  /** How much crisper than `sharpness` its edges are. */
  readonly crisp: number;
  /** How far fine noise moves the outline, mm. */
  readonly crinkle: number;
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
export function lostShare(wet: PeriodicField, { wetness }: Values): Float32Array {
  return wet.values.map((value) => 1 / (1 + Math.exp(-3.6 * (value + 2.4 * (wetness - 0.5)))));
}

/** How one kind of water behaves. */
export interface Water {
  readonly name: 'floods' | 'blooms' | 'spatter';
  /** How strongly it clears. */
  readonly gain: number;
  readonly crisp: number;
  /** mm at crinkle 1. */
  readonly crinkle: number;
  /** How much of its speed the paint takes on as it pushes in; 0 where it is too little to push. */
  readonly grip: number;
  /** mm behind its front over which the push dies away. */
  readonly trail: number;
  /** Water that it brings, in first sheets. */
  readonly brings: number;
}

/** What its push does to the flow. Paint under the mark itself is not pushed: the water was laid on, not driven in. */
export function pushOf(
  fronts: Fronts,
  shape: FieldShape,
  { spread }: EdgeOnGrid,
  lost: Float32Array,
  { backrun }: Values,
  { grip: most, trail, brings }: Water,
): Push {
  const meeting = meetingOf(fronts, shape);
  const travelled = sample({ ...fronts.level, values: fronts.travelled }, shape);
  const grip = spread.map((strength, k) => {
    const share = Math.min(1, travelled[k] / (0.3 * fronts.reach));
    // Beyond this paint would cake into black seams where two fronts meet.
    const calm = 1 / (1 + CALMED * meeting[k]);
    return Math.min(0.4, most * backrun * strength * (1 - 0.6 * lost[k])) * share * share * calm;
  });
  return { level: sample(fronts.level, shape), reach: fronts.reach, grip, trail, water: brings };
}

/** mm over which waters that meet hold one another up, and by how much. */
const CALM = 1.4;
const CALMED = 2.5;

/** How sharply fronts run against one another at each cell, 1 / mm: where they do they hold one another up. */
function meetingOf({ level }: Fronts, shape: FieldShape): Float32Array {
  const { width, height, mmPerCellX, mmPerCellY } = shape;
  const smooth = { ...shape, values: sample(level, shape) };
  const ridge = new Float32Array(width * height);
  for (let j = 0, k = 0; j < height; j++) {
    for (let i = 0; i < width; i++, k++) {
      const [x, y] = [(i + 0.5) * mmPerCellX, (j + 0.5) * mmPerCellY];
      const around = (dx: number, dy: number) =>
        bilinearAt(smooth, x + dx, y + dy) + bilinearAt(smooth, x - dx, y - dy);
      const bend = around(1, 0) + around(0, 1) - 4 * bilinearAt(smooth, x, y);
      ridge[k] = Math.max(0, -bend - 0.12);
    }
  }
  return gaussianBlur({ ...shape, values: ridge }, CALM).values;
}

/** An edge, and the strengths of its marks on the grid of the flow. */
export interface EdgeOnGrid extends Edge {
  readonly spread: Float32Array;
}

/**
 * @param broken Noise per cell: where it is low the outline is lost for a while, and found again.
 */
export function edgeOf(
  fronts: Fronts,
  shape: FieldShape,
  lost: Float32Array,
  broken: Float32Array,
  { backrun, crinkle }: Values,
  water: Water,
): EdgeOnGrid {
  const spread = spreadStrength(fronts, shape);
  const values = spread.map((strength, k) => {
    const found = Math.max(0, Math.min(1, 0.6 + 0.55 * broken[k]));
    return water.gain * backrun * strength * (1 - 0.65 * lost[k]) * (0.3 + 0.7 * found);
  });
  return {
    level: fronts.level,
    strength: { ...shape, values },
    crisp: water.crisp,
    crinkle: crinkle * water.crinkle,
    spread,
  };
}
