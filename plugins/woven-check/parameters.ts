import { numbers, numeric, palette, text, toggle, type ValuesOf } from 'tenter';
import { ORDER_PATTERN, SAME } from './order.ts';

export const PARAMETERS = {
  warp: text({
    pattern: ORDER_PATTERN,
    longest: 320,
    default: 'A24 B24',
    say: 'an order of threads such as A24 B4 A24 C2',
    help: 'The order of the ends, left to right: letters are the colours of the yarns, numbers count threads.',
  }),
  weft: text({
    pattern: `${SAME}|${ORDER_PATTERN}`,
    longest: 320,
    default: SAME,
    say: `an order of threads such as A24 B4 A24 C2, or "${SAME}"`,
    help: 'The order of the picks, top to bottom; "same" follows the warp.',
  }),
  turned: toggle({
    default: false,
    help: 'Whether each order is read to its end and back again, so that left and right are alike.',
  }),
  yarns: palette({
    least: 1,
    most: 8,
    default: ['#f6f1e6', '#34558b'],
    help: 'Colours of the yarns: the first is A, the second B, and so on.',
  }),
  sett: numbers({
    unit: 'per cm',
    min: 4,
    max: 60,
    least: 1,
    most: 2,
    default: [24],
    help: 'Ends and picks; one number counts for both. Snapped so that whole orders close over the repeat.',
  }),
  weave: numbers({
    unit: 'count',
    min: 1,
    max: 6,
    whole: true,
    least: 2,
    most: 4,
    default: [1, 1],
    help: 'Over and under by turns: 1,1 is plain weave, 2,2 an even twill, 3,1 one that shows more of the warp.',
  }),
  cover: numeric({
    unit: 'percent',
    min: 60,
    max: 100,
    default: 95,
    help: 'How much of the room from thread to thread a yarn fills: the rest is open.',
  }),
  unevenness: numeric({
    unit: 'percent',
    min: 0,
    max: 40,
    default: 9,
    help: 'How much the yarns thicken and thin along their length.',
  }),
  fibres: numeric({
    unit: 'percent',
    min: 0,
    max: 40,
    default: 10,
    help: 'How clearly single fibres show on the yarns.',
  }),
  tone: numeric({
    unit: 'percent',
    min: 0,
    max: 20,
    default: 3,
    help: 'How much lighter or darker one thread is than the next of its colour.',
  }),
  straying: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 0.8,
    help: 'How far the threads stray from straight lines; 0 is ruled.',
  }),
  light: numeric({
    unit: 'deg',
    min: 0,
    max: 360,
    default: 225,
    help: 'Where the light comes from: 0 the right, 90 below, 180 the left, 270 above.',
  }),
  relief: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How deep the threads stand in light and shade; 0 leaves them flat.',
  }),
  dye: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 100,
    help: 'Strength of the yarn colours over the artwork.',
  }),
} as const;

export type CheckValues = ValuesOf<typeof PARAMETERS>;
