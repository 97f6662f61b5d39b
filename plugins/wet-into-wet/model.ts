import type { FractalNoise, Lattice, PeriodicField } from 'tenter';

/** A field with copies of its far sides around it, for look-ups that stray a little. Plain data. */
export interface Framed {
  readonly values: Float32Array;
  readonly stride: number;
  readonly mmPerCellX: number;
  readonly mmPerCellY: number;
}

/** What `paint` needs; mm throughout. Plain data. */
export interface WetModel {
  /** Of the box, mm. */
  readonly lattice: Lattice;
  /** Natural logarithm of the load as the sheet dried. */
  readonly load: Framed;
  /** Moves look-ups, so that no grid shows. */
  readonly feathers: FractalNoise;
  /** Frays what has run. */
  readonly lobes: FractalNoise;
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
