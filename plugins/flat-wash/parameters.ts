import { choice, numeric, type ValuesOf } from 'tenter';

export const PARAMETERS = {
  brush: numeric({
    unit: 'mm',
    min: 6,
    max: 200,
    default: 54,
    help: 'How wide the brush is: each stroke laps a little over the one before.',
  }),
  stroke: numeric({
    unit: 'mm',
    min: 30,
    max: 2000,
    default: 360,
    help: 'How long a stroke runs before the brush is lifted.',
  }),
  direction: numeric({
    unit: 'deg',
    min: -90,
    max: 90,
    default: -4,
    help: 'How the strokes run: 0 level, 90 down the page.',
  }),
  drying: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 22,
    help: 'How many edges met paint that had begun to dry: those stay as lines, the others are lost in each other.',
  }),
  edges: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 0.8,
    help: 'How dark paint gathers along edges that dried, and along the fronts of back-runs.',
  }),
  bead: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 0.7,
    help: 'How much paint gravity draws down to the lower edge of each stroke.',
  }),
  unevenness: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How far the wash wanders between light and dark, in pools and in runs down the board.',
  }),
  grading: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.2,
    help: 'How far the brush runs out along a stroke, from full to pale.',
  }),
  backRuns: numeric({
    unit: 'per dm2',
    min: 0,
    max: 12,
    default: 0.5,
    help: 'How often water crept back into paint that was drying: pale blooms with a crinkled, one-sided edge.',
  }),
  skips: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.35,
    help: 'How often the brush skips over the hills of the paper and leaves flecks bare.',
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
    max: 2.5,
    default: 0.8,
    help: 'How far apart the hollows of the paper lie: 0.4 mm smooth, 0.8 mm cold-pressed, 1.4 mm rough.',
  }),
  parting: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.4,
    help: 'How far the hues of the paint part: 0 is one ink, 1 parts strongly, at edges, in back-runs and in the grain.',
  }),
  settles: choice({
    options: ['blue', 'earth', 'green', 'violet'],
    default: 'blue',
    help: 'Which hue of the paint is the heavy one, that granulates and stays behind: a blue, a warm earth, a green earth or a violet; the other is a stain, and runs.',
  }),
} as const;

export type FlatWashValues = ValuesOf<typeof PARAMETERS>;
