import type { FractalNoise, Lattice, PeriodicField } from 'tenter';
import type { Edge } from './edges.ts';

/** What `paint` needs; mm throughout. Plain data. */
export interface WetModel {
  /** Of the box, mm. */
  readonly lattice: Lattice;
  /** Natural logarithm of the paint's load as the flow left it. */
  readonly base: PeriodicField;
  readonly edges: readonly Edge[];
  /** 1 / mm: how crisp edges are, small where they are lost. */
  readonly sharpness: PeriodicField;
  readonly lobes: FractalNoise;
  readonly feathers: FractalNoise;
  readonly tooth: FractalNoise;
  /** How strongly the paint settles in the tooth. */
  readonly settled: PeriodicField;
  readonly moveX: PeriodicField;
  readonly moveY: PeriodicField;
  /** How far colours run into one another, mm. */
  readonly bleed: PeriodicField;
  readonly fringe: number;
  readonly second?: { readonly amount: PeriodicField; readonly colour: readonly [number, number, number] };
  /** Logarithm that makes the painted mean 1. */
  readonly level: number;
}
