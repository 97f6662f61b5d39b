import { sharedSamples } from '../../colour/frame.ts';
import { hashUnit } from '../../field/hash.ts';
import type { AnyEffect } from '../effect.ts';
import type { Picture } from '../picture.ts';
import { pictureNames } from '../picture-value.ts';
import type { Trial } from './trial.ts';

/** Red, green, blue and alpha of a place, each 0..1. */
type Paint = (x: number, y: number) => readonly [number, number, number, number];

interface Swatch {
  readonly width: number;
  readonly height: number;
  /** mm of a pixel across; as much down unless it is said. */
  readonly mm: number;
  readonly mmDown?: number;
  readonly paint: Paint;
}

/** Strokes across a slope of light, with a wash that thins to the right: nothing in it is alike in two places. */
const brushed: Paint = (x, y) => {
  const stroke = 0.5 + 0.5 * Math.sin(y * 0.9 + 3 * Math.sin(x * 0.05) + 0.4 * grain(x >> 2, y));
  const light = 0.75 + 0.002 * (x - y);
  const red = light * (0.55 + 0.35 * stroke);
  return [red, light * (0.4 + 0.3 * stroke), light * (0.3 + 0.2 * grain(x, y)), 1];
};

function grain(x: number, y: number): number {
  return hashUnit(0x5eed, x, y);
}

/** What people give besides a good scan: the kit's own pictures, by the names that settings have for them. */
const SWATCHES: Readonly<Record<string, Swatch>> = {
  'proof-brushed.png': { width: 240, height: 180, mm: 0.25, paint: brushed },
  'proof-dot.png': { width: 1, height: 1, mm: 0.1, paint: () => [0.6, 0.3, 0.2, 1] },
  'proof-six.png': { width: 3, height: 2, mm: 0.5, paint: (x, y) => [x / 2, y, 0.5, 1] },
  'proof-flat.png': { width: 64, height: 48, mm: 0.2, paint: () => [0.5, 0.5, 0.5, 1] },
  'proof-clear.png': { width: 60, height: 40, mm: 0.2, paint: () => [0, 0, 0, 0] },
  'proof-strip.png': { width: 500, height: 10, mm: 0.1, paint: brushed },
  'proof-oblong.png': { width: 100, height: 60, mm: 0.1, mmDown: 0.25, paint: brushed },
  'proof-large.png': { width: 1200, height: 900, mm: 0.1, paint: brushed },
  'proof-noise.png': {
    width: 240,
    height: 180,
    mm: 0.1,
    paint: (x, y) => [grain(x, y), grain(x + 999, y), grain(x, y + 999), 1],
  },
};

/** The names of the kit's own pictures; the first stands for whatever picture an effect brings along. */
export const PROOF_PICTURES = Object.keys(SWATCHES);

/** What effects are given, and what was drawn: an effect that writes into the first does not reach the second. */
interface Drawn {
  readonly given: Picture;
  readonly drawn: Uint16Array;
}

const pictures = new Map<string, Drawn>();

/** The name of the kit's picture that stands for a value. */
export function proofName(value: unknown): string {
  return PROOF_PICTURES.find((name) => name === value) ?? PROOF_PICTURES[0];
}

/** What the picture parameters of an effect name in a trial, as they were drawn. */
export function proofPictures(
  { parameters }: AnyEffect,
  given: Trial['parameters'],
): Record<string, Picture> {
  return Object.fromEntries(pictureNames(parameters).map((name) => [name, restored(proofName(given[name]))]));
}

/** One of the kit's pictures as it was drawn. */
export function proofPicture(name: string): Picture {
  return restored(proofName(name));
}

/** The buffers of all pictures that effects were given: a model that holds one does not own it. */
export function lentBuffers(): Set<unknown> {
  return new Set([...pictures.values()].map(({ given }) => given.samples.buffer));
}

/** The place where something was written into a picture that effects were given; all is then as it was drawn. */
export function writtenInPictures(): string | undefined {
  for (const [name, { given, drawn }] of pictures) {
    const at = drawn.findIndex((sample, k) => sample !== given.samples[k]);
    if (at < 0) continue;
    given.samples.set(drawn);
    return `samples[${at}] of ${name}`;
  }
  return undefined;
}

function restored(name: string): Picture {
  const { given, drawn } = pictures.get(name) ?? add(name);
  given.samples.set(drawn);
  return given;
}

function add(name: string): Drawn {
  const given = draw(SWATCHES[name]);
  const made = { given, drawn: given.samples.slice() };
  pictures.set(name, made);
  return made;
}

function draw({ width, height, mm, mmDown = mm, paint }: Swatch): Picture {
  const samples = sharedSamples(4 * width * height, 16) as Uint16Array;
  for (let y = 0, to = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      for (const part of paint(x, y)) samples[to++] = Math.round(65_535 * Math.min(1, Math.max(0, part)));
    }
  }
  return { width, height, mmPerPixelX: mm, mmPerPixelY: mmDown, samples };
}
