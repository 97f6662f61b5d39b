import { choice, colour, numbers, numeric, picture, toggle, type ValuesOf } from 'tenter';

export const PARAMETERS = {
  picture: picture({
    default: 'sponge.jpg',
    help: 'The swatch: a painting, rubbing or cloth, scanned.',
  }),
  way: choice({
    options: ['measured', 'even', 'figured'],
    default: 'measured',
    help: 'How it is grown: as its structure asks; by blending, for fine and even textures; by joining pieces, for figured ones.',
  }),
  layAs: choice({
    options: ['wash', 'colour', 'shade'],
    default: 'wash',
    help: "How it is laid: as paint that lies thick and thin in the artwork's own colours; in its own colours; or as light and shade alone, as of a cloth or a rubbing.",
  }),
  strength: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 100,
    help: 'How much of it shows.',
  }),
  scale: numeric({
    unit: 'ratio',
    min: 0.25,
    max: 4,
    default: 1,
    help: 'Its size: 1 is as it was painted.',
  }),
  part: numbers({
    unit: 'mm',
    min: 0,
    max: 1000,
    least: 4,
    most: 4,
    default: [0, 0, 0, 0],
    help: 'The part of the picture that is taken: from its left, from its top, width and height; a width or height of 0 takes all that is left.',
  }),
  evenLight: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 100,
    help: 'How much of the uneven light of the scan is taken out.',
  }),
  paper: choice({
    options: ['found', 'given'],
    default: 'found',
    help: 'What is bare paper in a wash: the lightest of the picture, or the colour below.',
  }),
  paperColour: colour({
    default: '#f4f0e6',
    help: 'Colour of the bare paper in the picture, where it is given.',
  }),
  turned: toggle({ default: false, help: 'Whether pieces may be turned by quarter turns.' }),
  mirrored: toggle({ default: false, help: 'Whether pieces may be turned over, left for right.' }),
} as const;

export type SwatchValues = ValuesOf<typeof PARAMETERS>;
