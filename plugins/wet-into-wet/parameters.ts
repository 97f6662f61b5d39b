import { colour, numeric, type ValuesOf } from 'tenter';

export const PARAMETERS = {
  wetness: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.48,
    help: 'How wet the first wash still is: damp keeps crisp, crinkled edges; soaked lets nearly all of them melt away.',
  }),
  clouds: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.5,
    help: 'How unevenly the first wash lies, in broad soft clouds of more and less paint.',
  }),
  floods: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.6,
    help: 'How much of the tile is crossed by broad brushloads of clean water.',
  }),
  blooms: numeric({
    unit: 'per dm2',
    min: 0,
    max: 60,
    default: 4,
    help: 'Drops of clean water let fall on each square decimetre, which run back into the paint.',
  }),
  size: numeric({
    unit: 'mm',
    min: 6,
    max: 80,
    default: 26,
    help: 'How wide a middling bloom grows before the wash sets.',
  }),
  variety: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.6,
    help: 'How much the blooms differ in size and strength; 0 makes them nearly alike.',
  }),
  spatter: numeric({
    unit: 'per dm2',
    min: 0,
    max: 120,
    default: 8,
    help: 'Small droplets, 2 to 8 mm, thrown in loose clusters on each square decimetre.',
  }),
  backrun: numeric({
    unit: 'ratio',
    min: 0,
    max: 1.5,
    default: 0.8,
    help: 'How far clean water clears the paint before it, and how strong a line it leaves.',
  }),
  crinkle: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How crinkled and feathered the edges of the blooms are.',
  }),
  tilt: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.2,
    help: 'How steeply the sheet is propped up: flat leaves rounded pools, steep lets the paint run in tongues.',
  }),
  downhill: numeric({
    unit: 'deg',
    min: 0,
    max: 360,
    default: 80,
    help: 'Where a tilted sheet runs to: 0 the right, 90 down, 180 the left, 270 up.',
  }),
  drying: numeric({
    unit: 's',
    min: 30,
    max: 900,
    default: 240,
    help: 'How long the wash takes to dry: longer lets paint creep and soften further, and settle in the paper.',
  }),
  granulation: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 45,
    help: 'How clearly the pigment gathers in the hollows of the paper.',
  }),
  tooth: numeric({
    unit: 'mm',
    min: 0.3,
    max: 2,
    default: 0.7,
    help: 'How coarse the tooth of the paper is, from hollow to hollow.',
  }),
  brushwork: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 0.8,
    help: 'How much the wash shows the brush that laid it: laps, beads and drying lines; 0 is poured and even.',
  }),
  parting: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.45,
    help: 'How far the hues of the paint part: 0 is one ink, 1 parts strongly, in back-runs, at dark fringes and in the grain.',
  }),
  move: numeric({
    unit: 'mm',
    min: 0,
    max: 6,
    default: 1.6,
    help: "How far the flow carries the edges of the artwork's own shapes.",
  }),
  charges: numeric({
    unit: 'per dm2',
    min: 0,
    max: 30,
    default: 1.5,
    help: 'Loaded brush touches of paint on each square decimetre, which spread soft and dark.',
  }),
  second: colour({
    default: '#ffffff',
    help: 'Colour of the paint that is touched in; white takes more of the artwork’s own.',
  }),
  secondAmount: numeric({
    unit: 'percent',
    min: 0,
    max: 200,
    default: 100,
    help: 'How strong the second colour is touched in.',
  }),
} as const;

export type Values = ValuesOf<typeof PARAMETERS>;

/** Whether a second paint is touched in, so that a tint is needed. */
export function hasSecond({ second, secondAmount, charges }: Values): boolean {
  return second !== '#ffffff' && secondAmount > 0 && charges > 0;
}
