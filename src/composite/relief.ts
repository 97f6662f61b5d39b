import type { Light } from './light.ts';
import { type SlopeTaps, slopeTaps } from './slope.ts';

/** The share of the light that comes from all around, the sky and what the flanks throw on each other, not from where the light stands. */
const SKY = 0.4;
/** How rough a surface is whose facets gleam, as the deviation of their slopes: without gloss, and with all of it. */
const DULL = 0.5;
const SATIN = 0.22;
/** What a facet mirrors of the light that falls on it straight (Fresnel, refractive index 1.5). */
const MIRRORED = 0.04;
/** The share of light that a cloth of middling colour sends back. */
const GROUND = 0.5;

/** A light, ready for pixels of a size. */
export interface ReliefLight {
  /** Pixels of relief that are needed beyond what is lit, on all sides. */
  readonly margin: number;
  readonly across: SlopeTaps;
  readonly down: SlopeTaps;
  /** Of the light's direct part: what a slope across and down adds to level ground's. */
  readonly perAcross: number;
  readonly perDown: number;
  /** The slopes at which a facet mirrors the light up to the eye. */
  readonly mirrorAcross: number;
  readonly mirrorDown: number;
  /** The gleam of such a facet beside level ground, and one over the facets' variance. */
  readonly gleam: number;
  readonly sharpness: number;
  /** What level ground returns, gleam and all. */
  readonly level: number;
}

export function openLight(light: Light, mmPerPixelX: number, mmPerPixelY: number): ReliefLight {
  const across = slopeTaps(mmPerPixelX);
  const down = slopeTaps(mmPerPixelY);
  const direction = (light.direction * Math.PI) / 180;
  const elevation = (light.elevation * Math.PI) / 180;
  const [towardsX, towardsY] = [Math.cos(direction), Math.sin(direction)];
  const raking = Math.cos(elevation) / Math.sin(elevation);
  // Halfway between the light and the eye, which is straight above.
  const lean = Math.cos(elevation) / (1 + Math.sin(elevation));
  const variance = (DULL + (SATIN - DULL) * light.gloss) ** 2;
  const gleam = (light.gloss * MIRRORED) / (4 * variance * GROUND * Math.sin(elevation));
  return {
    margin: Math.max(across.reach, down.reach),
    across,
    down,
    perAcross: -raking * towardsX,
    perDown: -raking * towardsY,
    mirrorAcross: -lean * towardsX,
    mirrorDown: -lean * towardsY,
    gleam,
    sharpness: 1 / variance,
    level: 1 + gleam * Math.exp(-(lean * lean) / variance),
  };
}

/**
 * Lights a relief: multiplies a shade plane by the light that it returns beside level ground.
 *
 * Direct light by Lambert's law and the light of an even sky, (1 + cos e) / 2 of it for a slope of angle e, as
 * B. Horn gives both in _Hill Shading and the Reflectance Map_ (1981); the gleam by Beckmann's distribution of
 * facets, written in slopes about the surface's own as in M. Olano and D. Baker, _LEAN Mapping_ (2010). Light is
 * local: nothing casts a shadow on anything else.
 *
 * Every pixel is worked out from its own
 * neighbours, in the same order wherever the rectangle begins, so the bits do not depend on how a picture is cut.
 *
 * @param relief mm, over the rectangle and `light.margin` pixels on all sides of it.
 * @param shade  Of the rectangle, `width` x `height`.
 */
export function lightRelief(
  relief: Float32Array,
  width: number,
  height: number,
  light: ReliefLight,
  shade: Float32Array,
): void {
  const { margin, across, down } = light;
  const stride = width + 2 * margin;
  const rows = 2 * down.reach + 1;
  const slopes = Array.from({ length: rows }, () => new Float32Array(width));
  const levels = Array.from({ length: rows }, () => new Float32Array(width));
  const placeOf = (row: number) => (row + down.reach) % rows;
  const fill = (row: number) => {
    const first = (row + margin) * stride + margin;
    filterAcross(relief, first, across, slopes[placeOf(row)], levels[placeOf(row)]);
  };
  const slopesAcross = new Float32Array(width);
  const slopesDown = new Float32Array(width);
  for (let row = -down.reach; row < down.reach; row++) fill(row);
  for (let row = 0; row < height; row++) {
    fill(row + down.reach);
    filterDown(slopes, levels, (tap) => placeOf(row + tap), down, slopesAcross, slopesDown);
    lightRow(light, slopesAcross, slopesDown, shade, row * width);
  }
}

/** Slopes across of one row, and its heights evened out across. Taps come in pairs, so that level ground has no slope, to the bit. */
function filterAcross(
  relief: Float32Array,
  first: number,
  { reach, derivative, smooth }: SlopeTaps,
  slopes: Float32Array,
  levels: Float32Array,
): void {
  for (let tap = 1; tap <= reach; tap += 3) {
    const middle = tap === 1 ? smooth[0] : 0;
    const before = tap === 1 ? 0 : 1;
    const [slope1, slope2, slope3] = [derivative[tap], derivative[tap + 1], derivative[tap + 2]];
    const [share1, share2, share3] = [smooth[tap], smooth[tap + 1], smooth[tap + 2]];
    const end = first + slopes.length;
    for (let at = first, k = 0; at < end; at++, k++) {
      const a1 = relief[at + tap];
      const a2 = relief[at + tap + 1];
      const a3 = relief[at + tap + 2];
      const b1 = relief[at - tap];
      const b2 = relief[at - tap - 1];
      const b3 = relief[at - tap - 2];
      const slope = slope1 * (a1 - b1) + slope2 * (a2 - b2) + slope3 * (a3 - b3);
      const level = share1 * (a1 + b1) + share2 * (a2 + b2) + share3 * (a3 + b3);
      slopes[k] = before * slopes[k] + slope;
      levels[k] = before * levels[k] + middle * relief[at] + level;
    }
  }
}

/** The same down: of rows of slopes what is evened out, of rows of levels the slope. */
function filterDown(
  slopes: readonly Float32Array[],
  levels: readonly Float32Array[],
  placeOf: (tap: number) => number,
  { reach, derivative, smooth }: SlopeTaps,
  slopesAcross: Float32Array,
  slopesDown: Float32Array,
): void {
  for (let tap = 1; tap <= reach; tap += 3) {
    const ahead = [placeOf(tap), placeOf(tap + 1), placeOf(tap + 2)];
    const behind = [placeOf(-tap), placeOf(-tap - 1), placeOf(-tap - 2)];
    const before = tap === 1 ? slopes[placeOf(0)] : slopesAcross;
    addEven(before, tap === 1 ? smooth[0] : 1, slopes, ahead, behind, smooth, tap, slopesAcross);
    if (tap === 1) slopesDown.fill(0);
    addOdd(levels, ahead, behind, derivative, tap, slopesDown);
  }
}

function addEven(
  before: Float32Array,
  share: number,
  rows: readonly Float32Array[],
  ahead: readonly number[],
  behind: readonly number[],
  shares: Float64Array,
  tap: number,
  to: Float32Array,
): void {
  const [share1, share2, share3] = [shares[tap], shares[tap + 1], shares[tap + 2]];
  const [a1, a2, a3] = [rows[ahead[0]], rows[ahead[1]], rows[ahead[2]]];
  const [b1, b2, b3] = [rows[behind[0]], rows[behind[1]], rows[behind[2]]];
  for (let k = 0; k < to.length; k++)
    to[k] =
      share * before[k] + share1 * (a1[k] + b1[k]) + share2 * (a2[k] + b2[k]) + share3 * (a3[k] + b3[k]);
}

function addOdd(
  rows: readonly Float32Array[],
  ahead: readonly number[],
  behind: readonly number[],
  shares: Float64Array,
  tap: number,
  to: Float32Array,
): void {
  const [share1, share2, share3] = [shares[tap], shares[tap + 1], shares[tap + 2]];
  const [a1, a2, a3] = [rows[ahead[0]], rows[ahead[1]], rows[ahead[2]]];
  const [b1, b2, b3] = [rows[behind[0]], rows[behind[1]], rows[behind[2]]];
  for (let k = 0; k < to.length; k++)
    to[k] += share1 * (a1[k] - b1[k]) + share2 * (a2[k] - b2[k]) + share3 * (a3[k] - b3[k]);
}

function lightRow(
  light: ReliefLight,
  across: Float32Array,
  down: Float32Array,
  shade: Float32Array,
  first: number,
): void {
  const { perAcross, perDown, mirrorAcross, mirrorDown, gleam, sharpness, level } = light;
  for (let k = 0; k < across.length; k++) {
    const p = across[k];
    const q = down[k];
    // Level ground returns 1, to the bit.
    if (p === 0 && q === 0) continue;
    const upright = 1 / Math.sqrt(1 + p * p + q * q);
    const facing = 1 + perAcross * p + perDown * q;
    let lit = SKY * 0.5 * (1 + upright) + (facing > 0 ? (1 - SKY) * facing * upright : 0);
    if (gleam > 0) {
      const offAcross = p - mirrorAcross;
      const offDown = q - mirrorDown;
      lit = (lit + gleam * Math.exp(-(offAcross * offAcross + offDown * offDown) * sharpness)) / level;
    }
    shade[first + k] *= lit;
  }
}
