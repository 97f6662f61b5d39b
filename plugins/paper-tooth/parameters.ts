import { numeric } from 'tenter';

/** What a maker may ask of a paper. */
export const PARAMETERS = {
  tooth: numeric({
    unit: 'mm',
    min: 0.6,
    max: 5,
    default: 1.3,
    help: 'From one hollow of the paper to the next: fine, or coarse as a rough sheet.',
  }),
  depth: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How deep the hollows are.',
  }),
  pressed: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.26,
    help: 'From rough, dried without a press (0), over cold-pressed to hot-pressed and nearly smooth (1).',
  }),
  felt: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How clearly the felt has left its slanting marks.',
  }),
  grain: numeric({
    unit: 'percent',
    min: 0,
    max: 40,
    default: 5,
    help: 'How much fine fibrous tooth lies on top of all.',
  }),
  laid: numeric({
    unit: 'per cm',
    min: 0,
    max: 14,
    default: 0,
    help: 'Laid lines of the mould, across the page; 0 is wove paper without any.',
  }),
  chain: numeric({
    unit: 'mm',
    min: 10,
    max: 60,
    default: 26,
    help: 'From one chain line of a laid paper to the next, down the page.',
  }),
  clouds: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How unevenly the pulp has settled: the tooth is deeper here and shallower there.',
  }),
  granulation: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 28,
    help: 'How much paint has gathered in the hollows and left the tops.',
  }),
  fibres: numeric({
    unit: 'per dm2',
    min: 0,
    max: 60,
    default: 5,
    help: 'Single long fibres and hairs of the felt in a square of 100 mm.',
  }),
} as const;
