import { choice, colour, numeric, type ValuesOf } from 'tenter';

export const PARAMETERS = {
  action: choice({
    options: ['on', 'off', 'printed'],
    default: 'on',
    help: 'Dab the colours below over the artwork; dab its own paint off while wet, so that it looks worn; or print the artwork itself with the sponge.',
  }),
  colour: colour({ default: '#f1e6d0', help: 'Colour that is dabbed on.' }),
  secondColour: colour({ default: '#d9c4a4', help: 'Colour of some of the later passes.' }),
  second: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 35,
    help: 'How many of the dabs are of the second colour.',
  }),
  strength: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 60,
    help: 'How much a full dab covers, takes off or prints.',
  }),
  sponge: numeric({
    unit: 'mm',
    min: 12,
    max: 250,
    default: 62,
    help: 'Size of the sponge.',
  }),
  pores: numeric({
    unit: 'mm',
    min: 0.5,
    max: 8,
    default: 2.2,
    help: 'Size of its pores: fine silk sponge 1, sea wool 2.2, a coarse grass sponge 5.',
  }),
  pressure: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.45,
    help: 'How hard it is pressed: 0 leaves scattered specks, 1 nearly closed patches with pinholes.',
  }),
  passes: numeric({
    unit: 'ratio',
    min: 0.3,
    max: 5,
    default: 2,
    help: 'How many dabs lie over one another on average.',
  }),
  variation: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How much dabs differ in pressure and in how full the sponge was.',
  }),
  drifts: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.35,
    help: 'How much the dabs gather in some places and leave others: 0 is even all over.',
  }),
  edges: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How much paint is pressed out to the edges of each mark.',
  }),
} as const;

export type SpongeValues = ValuesOf<typeof PARAMETERS>;
