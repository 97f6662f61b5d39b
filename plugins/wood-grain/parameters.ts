import { choice, colour, numeric, toggle, type ValuesOf } from 'tenter';

export const PARAMETERS = {
  construction: choice({
    options: ['boards', 'leaves', 'veneer', 'painted'],
    default: 'boards',
    help: 'Boards laid with staggered ends; book-matched veneer leaves, mirrored in pairs; one veneer without a joint; or a painted imitation drawn with rocker and comb.',
  }),
  species: choice({
    options: ['oak', 'ash', 'pine', 'walnut'],
    default: 'oak',
    help: 'The wood: its colours, the habit of its rings, its pores and rays. A painted imitation takes only the colours.',
  }),
  cut: choice({
    options: ['plain', 'rift', 'quarter'],
    default: 'plain',
    help: 'How the log was sawn: plain shows cathedrals, rift fine straight lines, quarter straight lines and, in oak, ray fleck.',
  }),
  direction: choice({
    options: ['upright', 'across'],
    default: 'upright',
    help: 'Which way the grain runs on the cloth or wall.',
  }),
  boardWidth: numeric({
    unit: 'mm',
    min: 10,
    max: 600,
    default: 107,
    help: 'Width of a board, leaf or painted strip; in a veneer, from heart to heart. Snapped so that whole ones fill the repeat.',
  }),
  boardLength: numeric({
    unit: 'mm',
    min: 50,
    max: 5000,
    default: 900,
    help: 'Length of a board from butt end to butt end. Snapped so that whole ones fill the repeat.',
  }),
  joint: numeric({
    unit: 'mm',
    min: 0,
    max: 5,
    default: 0.35,
    help: 'Width of the dark joint between boards or leaves; 0 for none.',
  }),
  ringWidth: numeric({
    unit: 'mm',
    min: 0.6,
    max: 15,
    default: 2.6,
    help: 'Mean width of a growth ring; in a painted imitation, from line to line of the comb.',
  }),
  figure: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How lively the grain is: 0 is straight and calm, 2 has many short, wandering arches.',
  }),
  knots: numeric({
    unit: 'per dm2',
    min: 0,
    max: 3,
    default: 0,
    help: 'Knots per square decimetre.',
  }),
  pores: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How strongly the open pores show.',
  }),
  rays: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How strongly the rays of oak show: broad silky flecks when quarter-sawn, fine dark lines when plain-sawn.',
  }),
  fibre: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'Strength of the fine streaks along the grain.',
  }),
  contrast: numeric({
    unit: 'ratio',
    min: 0,
    max: 2.5,
    default: 1,
    help: 'Contrast of the rings; the mean colour stays.',
  }),
  variation: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How much the colour differs from board to board and wanders along each.',
  }),
  relief: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 0.5,
    help: 'Depth of pores and joints and the lustre of the fibres, as light and shade.',
  }),
  body: choice({
    options: ['full', 'grain', 'relief'],
    default: 'full',
    help: 'The whole colour of the wood; only its darker grain, so that artwork beneath keeps its colours; or only light and shade without colour.',
  }),
  ownColours: toggle({
    default: false,
    help: 'Use the two colours below in place of those of the species.',
  }),
  light: colour({ default: '#d9bf94', help: 'The pale wood between the lines, where own colours are used.' }),
  dark: colour({ default: '#8f6a3e', help: 'The darkest grain, where own colours are used.' }),
} as const;

export type WoodValues = ValuesOf<typeof PARAMETERS>;
