import type { Quality, Report } from '../../effect/effect.ts';
import type { Size } from '../../repeat/length.ts';
import type { Laying, Resist } from './work.ts';

/** A rectangle of the plane, mm from the tile's upper left corner. */
export interface Part extends Size {
  readonly left: number;
  readonly top: number;
}

/** Asks for a picture of the cloth. `POST api/look`; given up by aborting the request. */
export interface LookOrder {
  readonly tile?: string;
  readonly ground: string;
  readonly layout: string;
  readonly size: Size;
  /** Held steps are left out. No steps at all: the artwork itself. */
  readonly laying: Laying;
  /** Those that the laying names. */
  readonly resists: Readonly<Record<string, Resist>>;
  /** Pixels per mm that the screen can show; what comes may be coarser. */
  readonly density: number;
  /** What is wanted of the plane; one whole period (the unfolded box) where absent. */
  readonly part?: Part;
  readonly quality: Quality;
}

/**
 * What comes back before the pixels. The body is a 4-byte little-endian length, so many bytes of this as
 * JSON, padded with spaces so that the pixels begin at a multiple of 4, then width * height * 4 bytes
 * of straight RGBA, sRGB.
 */
export interface Look {
  readonly width: number;
  readonly height: number;
  /** What it shows, mm: exactly the part, or one whole period from 0, 0. */
  readonly part: Part;
  /** How whole periods stand: straight, drop:p/q or brick:p/q. Reflected layouts come unfolded. */
  readonly layout: string;
  /** Where the pixels come from a coarser density than was asked. */
  readonly isCoarse: boolean;
  /** What every step's effect reported, those that are held left out; by the step's id. */
  readonly reports: Readonly<Record<string, readonly Report[]>>;
  /** The share of the cloth that each masked step was laid on, 0..1, by the step's id. */
  readonly laidOn: Readonly<Record<string, number>>;
  /** ms: until all was prepared, and painting. */
  readonly timings: { readonly prepare: number; readonly paint: number };
}

/** Every failure comes as JSON with the status 400 to 500. */
export interface Told {
  readonly message: string;
  /** Of the fault. */
  readonly kind: string;
  /** The step at fault, where it is known. */
  readonly step?: string;
}
