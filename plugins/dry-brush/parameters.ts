import { numeric, type ValuesOf } from 'tenter';

export const PARAMETERS = {
  direction: numeric({
    unit: 'deg',
    min: 0,
    max: 180,
    default: 12,
    help: 'Which way most strokes run: 0 and 180 across the page, 90 down it.',
  }),
  straying: numeric({
    unit: 'deg',
    min: 0,
    max: 90,
    default: 9,
    help: 'How far strokes turn from that direction: 0 is combed, 90 every way.',
  }),
  crossing: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 0,
    help: 'Strokes laid across the others, at right angles.',
  }),
  length: numeric({
    unit: 'mm',
    min: 10,
    max: 600,
    default: 130,
    help: 'How far the brush is drawn before it is lifted; single strokes are longer or shorter.',
  }),
  width: numeric({
    unit: 'mm',
    min: 2,
    max: 150,
    default: 26,
    help: 'Width of the brush.',
  }),
  bend: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.25,
    help: 'How much strokes curve: 0 is ruled, 1 swings with the whole arm.',
  }),
  dryness: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.5,
    help: 'How little paint the brush holds: 0 covers with faint streaks, 1 leaves broken traces.',
  }),
  bristle: numeric({
    unit: 'mm',
    min: 0.1,
    max: 1.5,
    default: 0.32,
    help: 'Width of the finest tracks: soft hair 0.15, hog bristle 0.3, a worn house brush 0.8.',
  }),
  tooth: numeric({
    unit: 'mm',
    min: 0.15,
    max: 3,
    default: 0.55,
    help: 'Size of the grain of the paper or plaster on which the paint breaks.',
  }),
  roughness: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How strongly the paint breaks on that grain: 0 is smooth board, only the bristles show.',
  }),
  layers: numeric({
    unit: 'ratio',
    min: 0.3,
    max: 5,
    default: 2.2,
    help: 'How many strokes lie over one another on average.',
  }),
  underpaint: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 16,
    help: 'How much of the paint is there where no bristle touched: 0 shows bare paper.',
  }),
  variation: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How much thicker or thinner the paint lies from stroke to stroke and from track to track.',
  }),
} as const;

export type BrushValues = ValuesOf<typeof PARAMETERS>;
