/** How the ribs are lit. */
export interface Lighting {
  /** Degrees: 0 from the right, 90 from below, 180 from the left, 270 from above. */
  readonly from: number;
  /** How much of the diffuse light's rise and fall shows, and how strong the gleam is; 0 or more. */
  readonly relief: number;
  readonly gleam: number;
}

/** Table steps across one rib. */
export const RIB_STEPS = 64;
/** The tables hold two ribs, for the warp crosses them over and under in turn. */
export const TABLE_STEPS = 2 * RIB_STEPS;

/**
 * Running integrals across the ribs, in steps of 1 / RIB_STEPS of a rib, three numbers for each step:
 * all light, the gleam alone, and the crossing of the warp. Each has mean 0 over two ribs, so the integral
 * is periodic, and the mean over any stretch, however many ribs it spans, is a difference of two look-ups:
 * an exact box filter.
 */
export type RibTable = Float64Array;

/** Height of a rib over half its width: a pressed oval. */
const CROWN = 0.62;
/** Tangent of the light's distance from straight above. */
const LIGHT_LEAN = 0.75;
/** Share of the light that wraps around. */
const WRAP = 0.55;
/** How dark the groove between two ribs is. */
const GROOVE = 0.4;
/** Width of the gleam on a rib whose half width is 1, and how far it moves towards the light. */
const GLEAM_WIDTH = 0.3;
const GLEAM_MOVE = 0.42;
/** Of light above this only a part is left, so that white cloth does not burn out. */
const SHOULDER = 1.1;
const BEND = 0.5;

/** Lights one rib of silk: a lambertian oval with a groove, and a gleam after Kajiya and Kay (1989). */
export function lightRibs({ from, relief, gleam: shine }: Lighting): RibTable {
  const angle = (from * Math.PI) / 180;
  const towards = Math.sin(angle);
  const diffuse = new Float64Array(TABLE_STEPS);
  const gleam = new Float64Array(TABLE_STEPS);
  const crossing = new Float64Array(TABLE_STEPS);
  for (let k = 0; k < TABLE_STEPS; k++) {
    const u = (2 * ((k % RIB_STEPS) + 0.5)) / RIB_STEPS - 1;
    diffuse[k] = diffuseAt(u, towards);
    gleam[k] = Math.exp(-(((u - GLEAM_MOVE * towards) / GLEAM_WIDTH) ** 2));
    crossing[k] = (k < RIB_STEPS ? 1 : -1) * (1 - u * u);
  }
  const [usual, rest] = [meanOf(diffuse), meanOf(gleam)];
  const light = diffuse.map((value, k) => {
    const lit = 1 + relief * (value / usual - 1) + shine * (gleam[k] - rest);
    return lit > SHOULDER ? SHOULDER + BEND * (lit - SHOULDER) : lit;
  });
  return interleave([light, gleam, crossing]);
}

function diffuseAt(u: number, towards: number): number {
  const slope = (-CROWN * u) / Math.sqrt(1.12 - u * u);
  const length = Math.hypot(1, LIGHT_LEAN);
  // The normal leans down the page where the height falls that way.
  const cosine = (1 - slope * LIGHT_LEAN * towards) / (length * Math.hypot(1, slope));
  return Math.max(0, cosine + WRAP) * (1 - GROOVE * u ** 6);
}

function meanOf(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function interleave(lines: readonly Float64Array[]): RibTable {
  const table = new Float64Array(lines.length * (TABLE_STEPS + 1));
  lines.forEach((line, n) => {
    const mean = meanOf(line);
    let sum = 0;
    for (let k = 0; k < TABLE_STEPS; k++) {
      table[k * lines.length + n] = sum;
      sum += (line[k] - mean) / RIB_STEPS;
    }
    table[TABLE_STEPS * lines.length + n] = 0;
  });
  return table;
}
