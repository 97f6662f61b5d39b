import { numeric } from 'tenter';

/** What a maker may ask of a watered silk. */
export const PARAMETERS = {
  ribs: numeric({
    unit: 'per cm',
    min: 10,
    max: 40,
    default: 24,
    help: 'The fine ribs that run across the page; snapped to close over the repeat.',
  }),
  figureWidth: numeric({
    unit: 'mm',
    min: 8,
    max: 150,
    default: 34,
    help: 'How far the figures of the water mark spread across.',
  }),
  figureLength: numeric({
    unit: 'mm',
    min: 10,
    max: 400,
    default: 120,
    help: 'How long they are drawn out up and down the cloth.',
  }),
  bands: numeric({
    unit: 'count',
    min: 0.2,
    max: 8,
    default: 2.4,
    help: 'How many light and dark bands lie nested in a figure.',
  }),
  lines: numeric({
    unit: 'per m',
    min: 0,
    max: 120,
    default: 28,
    help: 'Bands that run right through from top to bottom; 0 leaves only closed figures.',
  }),
  wander: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How much the bands quiver on their way.',
  }),
  feather: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How raggedly the bands break from rib to rib; 0 cuts them clean.',
  }),
  pressing: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How hard the two layers were pressed: how strongly the water mark catches the light.',
  }),
  relief: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How deep the single ribs stand in light and shade.',
  }),
  filaments: numeric({
    unit: 'percent',
    min: 0,
    max: 40,
    default: 7,
    help: 'How clearly the fine threads show in the ribs.',
  }),
  light: numeric({
    unit: 'deg',
    min: 0,
    max: 360,
    default: 260,
    help: 'Where the light comes from: 0 the right, 90 below, 180 the left, 270 above; it changes which bands shine.',
  }),
} as const;
