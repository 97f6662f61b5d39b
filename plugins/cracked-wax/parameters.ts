import { choice, colour, numeric, type ValuesOf } from 'tenter';

export const PARAMETERS = {
  bath: choice({
    options: ['dye', 'bleach'],
    default: 'dye',
    help: 'What seeped in: dye draws veins of its own colour, bleach takes the colour out of the cloth.',
  }),
  dye: colour({ default: '#26345c', help: 'Colour of the dye at full strength on white cloth.' }),
  strength: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 85,
    help: 'How deeply the cracks are coloured or bleached.',
  }),
  spacing: numeric({
    unit: 'mm',
    min: 6,
    max: 150,
    default: 23,
    help: 'How far the main cracks lie apart on average.',
  }),
  branching: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How many finer cracks branch between the main ones: 0 has none, 2 a close web.',
  }),
  width: numeric({
    unit: 'mm',
    min: 0.08,
    max: 2,
    default: 0.34,
    help: 'Width of the main cracks; finer ones are narrower.',
  }),
  unevenness: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How much cracks swell, thin out and lose their dye along their way.',
  }),
  bleeding: numeric({
    unit: 'mm',
    min: 0,
    max: 6,
    default: 0.9,
    help: 'How far dye creeps from a crack into the cloth; 0 is crisp.',
  }),
  crumpling: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1.1,
    help: 'How unevenly the cloth was crumpled: 0 cracks it alike all over, 2 leaves calm and crowded places.',
  }),
  crumples: numeric({
    unit: 'mm',
    min: 15,
    max: 300,
    default: 58,
    help: 'Size of the crumpled places.',
  }),
  curve: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How much cracks wander: 0 runs straight as in cold hard wax, 2 winds as in soft wax.',
  }),
  blush: numeric({
    unit: 'percent',
    min: 0,
    max: 40,
    default: 4,
    help: 'Faint cloudy colour where the wax was thin and let some through.',
  }),
} as const;

export type WaxValues = ValuesOf<typeof PARAMETERS>;
