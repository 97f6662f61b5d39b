import type { FractalNoise, Lattice, PeriodicField } from 'tenter';
import type { Edge } from './edges.ts';

/** How the hues of the paint part. */
export interface Parted {
  /** How much more of the paint is heavy pigment than stain, -1..1, but for what back-runs and the tooth do. */
  readonly heavy: PeriodicField;
  /** How much more paint of each channel there is per unit of heavy pigment. */
  readonly hues: readonly [number, number, number];
  /** Share of the load that makes the painted mean of heavy pigment that of the stain. */
  readonly level: number;
}

/** What `paint` needs; mm throughout. Plain data. */
export interface WetModel {
  /** Of the box, mm. */
  readonly lattice: Lattice;
  /** Natural logarithm of the paint's load as flow and brush left it. */
  readonly base: PeriodicField;
  /** Nothing where all is one ink. */
  readonly parted?: Parted;
  readonly edges: readonly Edge[];
  /** 1 / mm: how crisp edges are, small where they are lost. */
  readonly sharpness: PeriodicField;
  /** How much outlines are toothed, of what is usual: many are nearly smooth. */
  readonly teeth: PeriodicField;
  readonly lobes: FractalNoise;
  readonly feathers: FractalNoise;
  readonly tooth: FractalNoise;
  /** How strongly the paint settles in the tooth. */
  readonly settled: PeriodicField;
  readonly moveX: PeriodicField;
  readonly moveY: PeriodicField;
  /** How far colours run into one another, mm. */
  readonly bleed: PeriodicField;
  readonly second?: { readonly amount: PeriodicField; readonly colour: readonly [number, number, number] };
  /** Logarithm that makes the painted mean 1. */
  readonly level: number;
}
