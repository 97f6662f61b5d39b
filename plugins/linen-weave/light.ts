import { sectionAt, sectionHeight, sectionSlope } from './section.ts';
import { ALONG_STEPS, SECTION_STEPS } from './steps.ts';

/** Ways a yarn may go from one crossing to the next: under-under, under-over, over-under, over-over. */
export const COURSES = 4;
/** One row more than the courses need: a place may round up to the end of its cell. */
const ROWS = COURSES * ALONG_STEPS + 1;

/** How a set of yarns lies in the cloth. */
export interface YarnShape {
  readonly isWarp: boolean;
  /** mm, half the width as it lies. */
  readonly half: number;
  /** mm, half the thickness. */
  readonly thick: number;
  /** mm, how far the centre line rises and sinks about the middle of the cloth. */
  readonly rise: number;
  /**
   * How much higher than the middle of the cloth the whole set lies, in rises: where one set has
   * the long floats it lies on top, and the other binds it from below.
   */
  readonly lift: number;
  /** mm from crossing to crossing. */
  readonly cellLength: number;
}

/** What the light does to a set of yarns, for every place on them. Plain data. */
export interface LitYarn {
  /** mm, the centre line above the middle of the cloth: COURSES * ALONG_STEPS, and one more. */
  readonly centre: Float32Array;
  /** How much narrower than its mean the yarn lies there, as a factor of u: as many as `centre`. */
  readonly narrow: Float32Array;
  /** mm, the surface above the centre line: SECTION_STEPS. */
  readonly surface: Float32Array;
  /** Light returned: (course * ALONG_STEPS + along) * SECTION_STEPS + across. */
  readonly light: Float32Array;
  /** The share of the light this yarn takes from what lies beside and below it: SECTION_STEPS. */
  readonly shadow: Float32Array;
}

export interface Lighting {
  /** Where the light comes from, degrees from the right, clockwise on the page: 225 is the upper left. */
  readonly from: number;
  /** Strength of the relief, 1 as in nature. */
  readonly relief: number;
  /** 0 as woven, 1 worn or pressed flat. */
  readonly wear: number;
}

/** Height of the light: the tangent of its angle from the upright. */
const LIGHT_LEAN = 0.8;
/** Light that reaches past the edge of what it strikes; cloth lets some through. */
const WRAP = 0.6;
/** Light left at the bottom of a bend, and at the top: the neighbours stand in the way of the rest. */
const LEAST_OPEN = 0.74;
const MOST_OPEN = 1.04;
/** A yarn spreads where it lies on top and is pinched where it dives between its neighbours. */
const SPREAD = 0.14;
/** Above this the light bends over, and never passes the sum of the two: fibres scatter, they do not mirror. */
const SHOULDER = 0.8;
const HEADROOM = 0.25;
/** How much of its relief cloth loses when worn flat. */
const CALM_OF_WEAR = 0.35;
/** Light lost at the edge of a yarn, between it and the next. */
const GROOVE = 0.3;
/** Gloss of flax: a band across the yarn where the fibres mirror the light. */
const GLOSS = 0.06;
const GLOSS_SHARPNESS = 14;
/** The share of light a yarn takes right beside it, on average and between lee and lit side. */
const SHADOW = 0.34;
const SHADOW_LEE = 0.25;

/**
 * Lights a set of yarns. The centre line goes from crossing to crossing as a cubic with level ends, a
 * smooth stand-in for Peirce's arcs and straights; the section is an oval. Light is wrapped
 * diffuse, less what the bends and grooves hold back, and a gloss along the fibres (after Kajiya and
 * Kay, *Rendering fur with three dimensional textures*, 1989).
 */
export function lightYarn(shape: YarnShape, lighting: Lighting): LitYarn {
  const { thick, rise, lift } = shape;
  const pressed = 0.25 + 0.6 * lighting.wear;
  const centre = new Float32Array(ROWS);
  const narrow = new Float32Array(ROWS);
  const surface = new Float32Array(SECTION_STEPS);
  const light = new Float32Array(ROWS * SECTION_STEPS);
  for (let k = 0; k < SECTION_STEPS; k++) surface[k] = thick * sectionHeight(sectionAt(k), pressed);
  for (let row = 0; row < ROWS; row++) {
    const { level, slope } = courseAt(row);
    centre[row] = rise * (level + lift);
    narrow[row] = 1 / (1 + SPREAD * level);
    lightRow(light.subarray(row * SECTION_STEPS), level, slope, pressed, shape, lighting);
  }
  return { centre, narrow, surface, light, shadow: shadowOf(shape.isWarp, lighting) };
}

/** Lights the yarn from edge to edge where its centre line has this level and slope per cell. */
function lightRow(
  row: Float32Array,
  level: number,
  slope: number,
  pressed: number,
  { isWarp, half, thick, rise, lift, cellLength }: YarnShape,
  lighting: Lighting,
): void {
  const towards = lightVector(lighting);
  const along = (rise * slope) / cellLength;
  const open = openness(Math.max(-1, Math.min(1, level + lift)));
  const shine = gloss(isWarp, along, towards);
  const relief = lighting.relief * (1 - CALM_OF_WEAR * lighting.wear);
  for (let k = 0; k < SECTION_STEPS; k++) {
    const u = Math.max(-1, Math.min(1, sectionAt(k)));
    const across = (thick / half) * sectionSlope(u, pressed);
    const [dx, dy] = isWarp ? [across, along] : [along, across];
    const groove = 1 - GROOVE * u * u * u * u;
    const lit = shoulder(open * groove * diffuse(dx, dy, towards) + shine / (1 + across * across));
    row[k] = Math.max(0, 1 + relief * (lit - 1));
  }
}

/** Level (-1 under, 1 over) of the centre line and its slope per cell, at a row of the tables. */
function courseAt(row: number): { level: number; slope: number } {
  const course = Math.min(COURSES - 1, Math.floor(row / ALONG_STEPS));
  const t = ((row % ALONG_STEPS) + 0.5) / ALONG_STEPS;
  const from = course & 2 ? 1 : -1;
  const to = course & 1 ? 1 : -1;
  return { level: from + (to - from) * t * t * (3 - 2 * t), slope: (to - from) * 6 * t * (1 - t) };
}

function shoulder(lit: number): number {
  return lit < SHOULDER ? lit : SHOULDER + HEADROOM * Math.tanh((lit - SHOULDER) / HEADROOM);
}

function openness(level: number): number {
  const t = (level + 1) / 2;
  return LEAST_OPEN + (MOST_OPEN - LEAST_OPEN) * t * t * (3 - 2 * t);
}

type Vector = readonly [x: number, y: number, z: number];

/** The light's direction on the page, and upwards; length 1. */
function lightVector({ from }: Lighting): Vector {
  const angle = (from * Math.PI) / 180;
  const length = Math.hypot(LIGHT_LEAN, 1);
  return [(LIGHT_LEAN * Math.cos(angle)) / length, (LIGHT_LEAN * Math.sin(angle)) / length, 1 / length];
}

/** Wrapped diffuse light on a surface of slopes dx, dy, over what level cloth returns. */
function diffuse(dx: number, dy: number, [lx, ly, lz]: Vector): number {
  const cosine = (lz - dx * lx - dy * ly) / Math.sqrt(1 + dx * dx + dy * dy);
  return Math.max(0, cosine + WRAP) / (lz + WRAP);
}

/** Gloss on the crown of a yarn whose fibres climb by `along`, seen from straight above. */
function gloss(isWarp: boolean, along: number, [lx, ly, lz]: Vector): number {
  const halfway = Math.hypot(lx, ly, lz + 1);
  const cosine = ((isWarp ? ly : lx) + along * (lz + 1)) / (halfway * Math.hypot(1, along));
  return GLOSS * Math.max(0, 1 - cosine * cosine) ** (GLOSS_SHARPNESS / 2);
}

/** Darkest at the yarn's foot, gone at the end of the tables; deeper on the side away from the light. */
function shadowOf(isWarp: boolean, lighting: Lighting): Float32Array {
  const [lx, ly] = lightVector(lighting);
  const towards = isWarp ? lx : ly;
  const shadow = new Float32Array(SECTION_STEPS);
  for (let k = 0; k < SECTION_STEPS; k++) {
    const u = sectionAt(k);
    const reach = Math.max(0, Math.min(1, (1.5 - Math.abs(u)) / 0.5));
    const lee = u * towards < 0 ? Math.abs(towards) : -Math.abs(towards);
    shadow[k] = Math.min(0.9, lighting.relief * (SHADOW + SHADOW_LEE * lee) * reach * reach);
  }
  return shadow;
}
