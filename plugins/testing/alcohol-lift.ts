import type { Drop } from '../alcohol-lift/drop.ts';
import lift from '../alcohol-lift/index.ts';
import type { LiftModel } from '../alcohol-lift/model.ts';
import { type Made, makerOf, painterOf } from './make.ts';

export const makeLift = makerOf<LiftModel>(lift);
export const paintLift = painterOf<'load' | 'parting' | 'shift' | 'bleed' | 'tint'>(lift);

/** The load of the whole box. */
export function wholeLoad(made: Pick<Made, 'model' | 'grid'>): Float32Array {
  return paintLift(made, 0, 0, made.grid.width, made.grid.height, ['load']).load;
}

/** A drop without anything particular in the middle of a box of 40 x 30 mm. */
export const PLAIN_DROP: Drop = {
  x: 20,
  y: 15,
  radius: 4,
  time: 0,
  softness: 0,
  stain: 0,
  lobes: 0,
  stretch: 0,
  heading: 0,
  form: 'flat',
  isApart: false,
  ink: 1,
  sweep: 1,
  bleed: 0,
  fingers: 0,
  grain: 0,
};
