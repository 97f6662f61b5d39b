import { numeric, type ValuesOf } from 'tenter';

export const PARAMETERS = {
  wetness: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 45,
    help: 'How wet the wash is when the salt falls: damp gives small crisp stars, wet large blurred blooms that run together; on a dry wash nothing happens.',
  }),
  salt: numeric({
    unit: 'per dm2',
    min: 0,
    max: 3000,
    default: 160,
    help: 'How many grains fall on a square decimetre.',
  }),
  grain: numeric({
    unit: 'mm',
    min: 0.2,
    max: 5,
    default: 1.6,
    help: 'Size of the largest grains: fine table salt is 0.3 mm, kitchen salt 1 mm, coarse sea salt 2 to 4 mm.',
  }),
  mixture: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 85,
    help: 'From grains all of one size to a few large ones among many small.',
  }),
  drifts: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.6,
    help: 'How unevenly the salt is thrown: 0 is an even sprinkling, 1 lies in drifts with bare passages between.',
  }),
  dried: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 25,
    help: 'How much of the wash had begun to dry before the salt fell; there the marks stay small and faint.',
  }),
  feathering: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.6,
    help: 'From round soft blooms to stars with long feathered arms.',
  }),
  staining: numeric({
    unit: 'percent',
    min: 0,
    max: 90,
    default: 12,
    help: 'How much of the colour stays in the paper however hard the salt draws.',
  }),
  fringe: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 0.8,
    help: 'How much of the pushed paint gathers round the blooms and in the veins between them.',
  }),
  specks: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.35,
    help: 'How many grains leave a tiny dark speck at the heart of their bloom.',
  }),
  unevenness: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How much the wash itself wanders between light and dark.',
  }),
  run: numeric({
    unit: 'mm',
    min: 0,
    max: 3,
    default: 0.6,
    help: 'How far the colours of the artwork run into one another where the wash is wet and round the grains; 0 leaves every edge crisp.',
  }),
  granulation: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 0.8,
    help: 'How strongly the paint settles in the hollows of the paper.',
  }),
  tooth: numeric({
    unit: 'mm',
    min: 0.3,
    max: 2,
    default: 0.7,
    help: 'How far apart the hollows of the paper lie: 0.4 mm smooth, 0.7 mm cold-pressed, 1.2 mm rough.',
  }),
} as const;

export type SaltValues = ValuesOf<typeof PARAMETERS>;
