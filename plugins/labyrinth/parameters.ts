import { choice, numeric, type ValuesOf } from 'tenter';

export const PARAMETERS = {
  figure: choice({
    options: ['maze', 'worms', 'spots', 'holes'],
    default: 'maze',
    help: 'What grows: winding lines, worms among spots, spots that keep apart, or a net with holes.',
  }),
  action: choice({
    options: ['resist', 'dye'],
    default: 'resist',
    help: 'The figure keeps paint off, or takes more of it than the ground does.',
  }),
  width: numeric({
    unit: 'mm',
    min: 2.5,
    max: 40,
    default: 6,
    help: 'From the middle of one line to the next.',
  }),
  strength: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 75,
    help: 'How much of the paint the figure keeps off, or how much more it takes.',
  }),
  weight: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.5,
    help: 'How broad the figure is: 0 thin, 1 fat.',
  }),
  drift: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.3,
    help: 'How much the figure changes from place to place: lines break into worms and spots.',
  }),
  edge: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.4,
    help: 'How much paint gathered along the edges of the figure, as dye does where it stops.',
  }),
  softness: numeric({
    unit: 'mm',
    min: 0,
    max: 1,
    default: 0.08,
    help: 'How far the edge fades: 0 is cut, 1 has crept into the cloth.',
  }),
  fray: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.35,
    help: 'How much the edge strays with the grain of cloth or stone.',
  }),
  relief: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0,
    help: 'How much the figure stands up in the light.',
  }),
} as const;

export type LabyrinthValues = ValuesOf<typeof PARAMETERS>;
