import { cellLattice } from '../field/cells.ts';
import type { RandomStream } from '../field/random.ts';
import { smoothstep } from '../field/smoothstep.ts';
import type { Box } from '../repeat/repeat.ts';
import type { WashValues } from './wash-values.ts';

/** One stroke of a loaded brush: a long band with two edges of its own. Lengths in mm. */
export interface Stroke {
  /** Its middle. */
  readonly x: number;
  readonly y: number;
  /** Half its length, the ends included. */
  readonly half: number;
  /** How far its edges stray from its middle line, at every `EDGE_STEP` mm from its beginning on. */
  readonly upper: Float32Array;
  readonly lower: Float32Array;
  /** How far each edge had dried when it was met, 0..1, at the same places. */
  readonly upperDry: Float32Array;
  readonly lowerDry: Float32Array;
  /** How much paint the brush carried, about 1. */
  readonly level: number;
  /** How starved the brush was at each place, 0..1. */
  readonly starved: Float32Array;
}

/** All strokes of a wash. */
export interface Strokes {
  readonly list: readonly Stroke[];
  /** The way along a stroke, and across it, of length 1. */
  readonly alongX: number;
  readonly alongY: number;
  /** Farthest that an edge lies from its middle line. */
  readonly reach: number;
}

/** mm from place to place along an edge. */
export const EDGE_STEP = 1.5;
/** Rows lie closer than the brush is wide: each lap runs over the one before. */
const LAPPED = 0.84;
/** How far a stroke leans, as the slope that would take it a brush's width aside over its length. */
const LEAN = 0.16;
/** Strokes are longer than their share of a row by so much: they meet end over end. */
const MET = 1.6;

/** Lays strokes in rows that close over the repeat, no two alike. */
export function layStrokes(box: Box, values: WashValues, random: (name: string) => RandomStream): Strokes {
  const brush = Math.min(values.brush, 0.7 * Math.sqrt(box.width * box.height));
  const cells = cellLattice(box.lattice, {
    along: values.stroke,
    across: LAPPED * brush,
    direction: values.direction,
  });
  const [lean, length] = [Math.hypot(cells.tx, cells.ty), Math.hypot(cells.sx, cells.sy)];
  const [alongX, alongY] = [cells.ty / lean, -cells.tx / lean];
  const area = cells.sx * cells.ty - cells.sy * cells.tx;
  const form = random('strokes');
  const list: Stroke[] = [];
  for (let j = 0; j < cells.down; j++) {
    for (let i = 0; i < cells.across; i++) {
      const s = i + form.next();
      const t = j + 0.5 + 0.14 * form.normal();
      list.push({
        x: (s * cells.ty - t * cells.sy) / area,
        y: (t * cells.sx - s * cells.tx) / area,
        ...strokeForm((MET * (0.85 + 0.3 * form.next())) / (2 * length), 1 / lean / LAPPED, values, form),
      });
    }
  }
  return { list, alongX, alongY, reach: 0.9 * (1 / lean / LAPPED) };
}

function strokeForm(half: number, brush: number, values: WashValues, random: RandomStream) {
  const count = Math.ceil((2 * half) / EDGE_STEP) + 2;
  const wander = Math.min(brush, 60);
  const lean = LEAN * Math.max(-2, Math.min(2, random.normal())) * Math.min(1, brush / (2 * half));
  const bow = wanderingLine(count, [{ step: 160, strength: 0.07 * wander }], random).map(
    (stray, k) => stray + lean * (k * EDGE_STEP - half),
  );
  const edge = (side: number) => {
    const line = wanderingLine(
      count,
      [
        { step: 70, strength: 0.05 * wander },
        { step: 24, strength: 0.028 * wander },
        { step: 8, strength: 0.012 * wander },
      ],
      random,
    );
    return line.map((stray, k) => side * 0.5 * brush + bow[k] + stray);
  };
  const dry = () =>
    wanderingLine(
      count,
      [
        { step: 55, strength: 1 },
        { step: 16, strength: 0.5 },
      ],
      random,
    ).map((noise) => smoothstep((noise - 1.9 * (1 - 2 * values.drying)) / 1.1 + 0.5));
  const spent = wanderingLine(
    count,
    [
      { step: 60, strength: 1 },
      { step: 14, strength: 0.5 },
    ],
    random,
  );
  const early = 0.7 + 0.6 * random.next();
  return {
    half,
    upper: edge(-1),
    lower: edge(1),
    upperDry: dry(),
    lowerDry: dry(),
    level: Math.exp(0.1 * random.normal()),
    starved: spent.map((noise, k) => smoothstep((noise - 1.1 + 1.6 * (k / count - early)) / 1.2)),
  };
}

/** A line of noise from place to place: smooth between random heights at each step, in mm. */
function wanderingLine(
  count: number,
  octaves: readonly { readonly step: number; readonly strength: number }[],
  random: RandomStream,
): Float32Array {
  const line = new Float32Array(count);
  for (const { step, strength } of octaves) {
    const every = step / EDGE_STEP;
    const heights = Float64Array.from({ length: Math.ceil(count / every) + 3 }, () => random.normal());
    const phase = random.next();
    for (let k = 0; k < count; k++) {
      const at = k / every + phase;
      const i = Math.floor(at);
      line[k] += strength * (heights[i] + (heights[i + 1] - heights[i]) * smoothstep(at - i));
    }
  }
  return line;
}
