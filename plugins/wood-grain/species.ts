import { smoothstep } from 'tenter';

/** Red, green and blue, encoded sRGB, 0..1. */
export type Rgb = readonly [number, number, number];

/** One kind of vessel or resin canal, as it shows on a face along the grain. */
export interface PoreHabit {
  /** mm between places across the grain. */
  readonly pitch: number;
  /** mm between places along the grain; a pore is shorter than this. */
  readonly spacing: number;
  /** mm, the mean bore, and the share by which bores differ. */
  readonly bore: number;
  readonly spread: number;
  /** Share of the places taken at the start of a ring, and late in it. */
  readonly early: number;
  readonly late: number;
  /** Share of the ring over which the early density holds. */
  readonly band: number;
  /** How dark, 0..1. */
  readonly strength: number;
}

/** What one kind of wood looks like. */
export interface Species {
  /** The pale and the dark end of the ring, oiled and in daylight. */
  readonly light: Rgb;
  readonly dark: Rgb;
  /** What the middle tones add to the straight line between the two. */
  readonly glow: Rgb;
  readonly pore: Rgb;
  /** Tone 0..1 at share t of a ring, from the pith outward. */
  profile(t: number, latewood: number): number;
  /** Share of latewood, and by how much rings differ in it. */
  readonly latewood: number;
  readonly latewoodSpread: number;
  /** Coefficient of variation of the ring widths. */
  readonly ringSpread: number;
  /** How much the tone of whole groups of rings drifts (heart streaks). */
  readonly drift: number;
  /** Tone by which wet and dry spells within a year show. */
  readonly spells: number;
  /** mm by which single fibres lead or lag the growth surface. */
  readonly jitter: number;
  /** Lightness of single fibres, and how much they thin the ring's tone. */
  readonly fibre: number;
  readonly fibreTone: number;
  readonly pores: readonly PoreHabit[];
  /** How strongly wood rays show; 0 where they are too fine to see. */
  readonly rays: number;
}

const hex = (text: string): Rgb => {
  const bits = Number.parseInt(text.slice(1), 16);
  return [(bits >> 16) / 255, ((bits >> 8) & 255) / 255, (bits & 255) / 255];
};

/** 0 below `from`, 1 above `to`, smooth between. */
function rise(from: number, to: number, t: number): number {
  return smoothstep((t - from) / (to - from));
}

/** Hard pine: earlywood darkens slowly into resinous latewood that ends sharply. */
const pine: Species = {
  light: hex('#ecd2a6'),
  dark: hex('#bd8850'),
  glow: [0.04, 0.015, -0.03],
  pore: hex('#96602f'),
  profile: (t, latewood) => 0.1 * t + 0.9 * rise(1 - 1.3 * latewood, 1 - 0.55 * latewood, t),
  latewood: 0.27,
  latewoodSpread: 0.3,
  ringSpread: 0.36,
  drift: 0.05,
  spells: 0.04,
  jitter: 0.05,
  fibre: 0.022,
  fibreTone: 0.17,
  pores: [
    { pitch: 0.9, spacing: 11, bore: 0.1, spread: 0.3, early: 0.02, late: 0.3, band: 0.5, strength: 0.35 },
  ],
  rays: 0,
};

/** Ring-porous: the ring opens with a band of wide vessels and closes dense. */
const oak: Species = {
  light: hex('#d2b389'),
  dark: hex('#a17a50'),
  glow: [0.02, 0.01, -0.02],
  pore: hex('#6f4c2c'),
  profile: (t, latewood) => 0.8 * Math.exp(-((t / (0.7 * (1 - latewood))) ** 1.6)) + 0.34 * t * t,
  latewood: 0.6,
  latewoodSpread: 0.15,
  ringSpread: 0.34,
  drift: 0.1,
  spells: 0.03,
  jitter: 0.07,
  fibre: 0.034,
  fibreTone: 0.25,
  pores: [
    { pitch: 0.24, spacing: 8, bore: 0.17, spread: 0.4, early: 0.72, late: 0.02, band: 0.26, strength: 0.62 },
    { pitch: 0.36, spacing: 4.5, bore: 0.09, spread: 0.3, early: 0.25, late: 0.34, band: 0.3, strength: 0.4 },
  ],
  rays: 1,
};

/** Ring-porous like oak, paler, without rays to see. */
const ash: Species = {
  light: hex('#e9d6b4'),
  dark: hex('#b08a58'),
  glow: [0.02, 0.01, -0.01],
  pore: hex('#8a6338'),
  profile: (t, latewood) => 0.9 * Math.exp(-((t / (0.7 * (1 - latewood))) ** 1.8)) + 0.2 * t * t,
  latewood: 0.62,
  latewoodSpread: 0.15,
  ringSpread: 0.4,
  drift: 0.08,
  spells: 0.03,
  jitter: 0.07,
  fibre: 0.022,
  fibreTone: 0.24,
  pores: [
    { pitch: 0.24, spacing: 8, bore: 0.17, spread: 0.4, early: 0.74, late: 0.01, band: 0.27, strength: 0.55 },
    { pitch: 0.6, spacing: 4, bore: 0.08, spread: 0.3, early: 0.1, late: 0.2, band: 0.3, strength: 0.3 },
  ],
  rays: 0,
};

/** Half ring-porous, nearly diffuse: fine dark ring lines, smoky streaks over many rings. */
const walnut: Species = {
  light: hex('#8a6446'),
  dark: hex('#3d281b'),
  glow: [0.02, 0, -0.02],
  pore: hex('#2b1b13'),
  profile: (t, latewood) => 0.2 + 0.34 * rise(1 - latewood, 1, t) ** 2 + 0.16 * Math.exp(-t / 0.18),
  latewood: 0.35,
  latewoodSpread: 0.25,
  ringSpread: 0.36,
  drift: 0.22,
  spells: 0.06,
  jitter: 0.08,
  fibre: 0.06,
  fibreTone: 0.12,
  pores: [
    { pitch: 0.32, spacing: 8, bore: 0.13, spread: 0.4, early: 0.4, late: 0.16, band: 0.4, strength: 0.6 },
  ],
  rays: 0,
};

export const SPECIES = { pine, oak, ash, walnut } as const;
export type SpeciesName = keyof typeof SPECIES;
