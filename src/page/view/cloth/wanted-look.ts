import type { View } from '../../../collection/page/paint-cloth.ts';
import { MOST_PIXELS } from '../../../collection/page/repeat-piece.ts';
import { boxOf, type Lattice, shortestWay } from '../../../repeat/index.ts';
import type { Part } from '../../words/look.ts';
import { type ClothRepeat, type Room, repeatOf } from './cloth.ts';

/** Of a look order: how fine, and what part of the plane; one whole period where there is none. */
export interface WantedLook {
  /** px per mm */
  readonly density: number;
  readonly part?: Part;
}

/** A whole period of so many pixels is asked for even where the window shows a part of it. */
const SMALL_PERIOD = 1.5e6;
/** Of a part: what a look can be made of in a moment. */
const MOST_PART_PIXELS = 8e6;
/** How far a part reaches beyond the window, as a share of it, on every side. */
const MARGIN = 1 / 8;
/** Samples a little larger than pixels still look sharp. */
const FINE_ENOUGH = 0.9;
/** Device pixels beyond two to a CSS pixel are not worth their time. */
const MOST_RATIO = 2;

/** What to ask for so that the window is filled as finely as its screen shows. */
export function wantedLook(
  view: View,
  room: Room,
  repeat: ClothRepeat,
  devicePixelRatio: number,
): WantedLook {
  const density = view.scale * Math.min(MOST_RATIO, devicePixelRatio || 1);
  const seen = seenOf(view, room);
  const { layout, ...size } = repeatOf(repeat);
  const { width, height } = boxOf({ ...size, layout });
  const pixels = width * height * density ** 2;
  const isSeenWhole = seen.width >= width && seen.height >= height;
  const canBeLaid = pixels * layout.denominator <= MOST_PIXELS;
  if (canBeLaid && (isSeenWhole || pixels <= SMALL_PERIOD)) return { density };
  const part = widened(seen, MARGIN);
  return { density: Math.min(density, Math.sqrt(MOST_PART_PIXELS / (part.width * part.height))), part };
}

/**
 * Whether what is on the cloth leaves something to be wished for.
 *
 * @param shown As they were asked for, not as they came: what came coarser would come so again.
 */
export function needsNewLook(shown: readonly WantedLook[], wanted: WantedLook, repeat: ClothRepeat): boolean {
  const { lattice } = boxOf(repeatOf(repeat));
  return !shown.some((one) => one.density >= wanted.density * FINE_ENOUGH && covers(one, wanted, lattice));
}

/** What of the plane the window shows, mm. */
export function seenOf({ left, top, scale }: View, room: Room): Part {
  return { left, top, width: room.width / scale, height: room.height / scale };
}

/** A part lies on every period: it covers a window that shows any of its copies. */
function covers(shown: WantedLook, wanted: WantedLook, lattice: Lattice): boolean {
  if (!shown.part) return true;
  if (!wanted.part) return false;
  const seen = widened(wanted.part, -MARGIN / (1 + 2 * MARGIN));
  const [x, y] = shortestWay(lattice, ...between(shown.part, seen));
  // A millionth for what rounding takes.
  const roomX = ((shown.part.width - seen.width) / 2) * (1 + 1e-6);
  const roomY = ((shown.part.height - seen.height) / 2) * (1 + 1e-6);
  return Math.abs(x) <= roomX && Math.abs(y) <= roomY;
}

function between(a: Part, b: Part): [number, number] {
  return [b.left + b.width / 2 - a.left - a.width / 2, b.top + b.height / 2 - a.top - a.height / 2];
}

function widened({ left, top, width, height }: Part, share: number): Part {
  return {
    left: left - width * share,
    top: top - height * share,
    width: width * (1 + 2 * share),
    height: height * (1 + 2 * share),
  };
}
