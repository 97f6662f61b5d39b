import { choice, colour, numeric, type ValuesOf } from 'tenter';

export const PARAMETERS = {
  bed: choice({
    options: ['colour', 'artwork'],
    default: 'colour',
    help: 'What the chips lie in: a cement of the colour below, or the artwork itself.',
  }),
  bedColour: colour({ default: '#ece4d6', help: 'Colour of the cement.' }),
  first: colour({ default: '#b5654a', help: 'Colour of some of the chips.' }),
  second: colour({ default: '#7f8f7c', help: 'Colour of others.' }),
  third: colour({ default: '#3f4446', help: 'Colour of others.' }),
  fourth: colour({ default: '#d9b98c', help: 'Colour of others.' }),
  strength: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 100,
    help: 'How much of the artwork is hidden.',
  }),
  chips: numeric({ unit: 'mm', min: 6, max: 70, default: 19, help: 'Length of the larger chips.' }),
  mix: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.75,
    help: 'How much chips differ in size: 0 sieved to one size, 1 from splinters to slabs.',
  }),
  cover: numeric({
    unit: 'percent',
    min: 5,
    max: 80,
    default: 46,
    help: 'How much of the ground the chips cover, the grit aside.',
  }),
  wear: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.15,
    help: 'How round the chips are: 0 freshly broken, 1 pebbles.',
  }),
  grit: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.5,
    help: 'How much fine grit lies between the chips.',
  }),
  gritSize: numeric({ unit: 'mm', min: 0.5, max: 4, default: 1.2, help: 'Size of the grit.' }),
  cloud: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.4,
    help: 'How much the tone of the stone changes, from chip to chip and within each.',
  }),
} as const;

export type TerrazzoValues = ValuesOf<typeof PARAMETERS>;
