import { Fault } from '../fault.ts';
import { pixelStep } from '../repeat/grid.ts';
import { formatLayout, type Layout } from '../repeat/layout.ts';
import { bestGrowth, type Growth } from './best-growth.ts';
import { bestOverlap } from './best-overlap.ts';
import { type Across, Canvas } from './canvas.ts';
import { type LitPicture, requireLitPicture } from './lit-picture.ts';
import { turnedStrip } from './turned-strip.ts';

/** What closing a picture is asked. */
export interface CloseOrder {
  /** How it shall stand: straight, any drop or brick, or turn. */
  readonly layout: Layout;
  /** px: no strip that is worked on is wider, across and down. */
  readonly within: { readonly x: number; readonly y: number };
  /** Whether what the overlap takes is grown from the picture itself; else the tile is smaller. */
  readonly keepSize?: boolean;
}

/** One of the two ways in which a picture is closed. */
export interface WayPlan {
  readonly way: Across;
  /** px that two copies lie over one another. */
  readonly overlap: number;
  /** px of the tile this way. */
  readonly size: number;
  /** The other end's overlap, px, where both ends are closed each upon itself (turn). */
  readonly farOverlap?: number;
  /** Where the piece comes from that the picture grows by; none where it does not. */
  readonly growth?: Growth;
}

/** What closing a picture will come to. */
export interface ClosePlan extends CloseOrder {
  /** In this order. */
  readonly ways: readonly [WayPlan, WayPlan];
  /** px of the tile. */
  readonly width: number;
  /** px of the tile. */
  readonly height: number;
}

/** px. A narrower strip leaves a cut no choice. */
export const LEAST_STRIP = 8;
/** Of a side of the picture, so that more of it stays than is worked on. */
export const LARGEST_SHARE = 1 / 3;
/** A picture must be as many strips long as it takes to grow one: the piece may not be its own neighbour. */
const GROWN_SHARE = 1 / 4;

/**
 * What closing will come to: how far copies lie over one another, and how large the tile is. It must land on
 * whole pixels for its layout.
 *
 * @throws Fault (usage) for a mirrored layout, a strip of under 8 px, or one of more than a third of the picture.
 */
export function planClose(picture: LitPicture, order: CloseOrder): ClosePlan {
  requireLitPicture(picture);
  refuseMirrors(order.layout);
  const { layout, within, keepSize = false } = order;
  for (const way of ['x', 'y'] as const) requireStrip(picture, way, within[way], keepSize);
  const canvas = new Canvas(picture);
  const step = pixelStep(layout);
  const sides = { x: picture.width, y: picture.height };
  const stepOf = { x: step.across, y: step.down };
  const [firstWay, secondWay]: [Across, Across] = layout.kind === 'brick' ? ['x', 'y'] : ['y', 'x'];
  const first = planWay(canvas, {
    ...{ way: firstWay, side: sides[firstWay], along: sides[secondWay], shift: 0, isRound: false, keepSize },
    within: within[firstWay],
    step: layout.kind === 'turn' ? 2 : stepOf[firstWay],
  });
  const second = planWay(canvas, {
    ...{ way: secondWay, side: sides[secondWay], along: first.size, isRound: true, keepSize },
    shift: (first.size * layout.numerator) / layout.denominator,
    within: within[secondWay],
    step: stepOf[secondWay],
    isTurned: layout.kind === 'turn',
  });
  const [width, height] = firstWay === 'x' ? [first.size, second.size] : [second.size, first.size];
  return { ...order, ways: [first, second], width, height };
}

interface WayOrder {
  readonly way: Across;
  /** px of the picture this way, and the other. */
  readonly side: number;
  readonly along: number;
  readonly shift: number;
  readonly isRound: boolean;
  readonly isTurned?: boolean;
  readonly keepSize: boolean;
  readonly within: number;
  /** The size must be a multiple of it, px. */
  readonly step: number;
}

function planWay(canvas: Canvas, order: WayOrder): WayPlan {
  if (order.keepSize) return planGrown(canvas, order);
  return order.isTurned ? planTurned(canvas, order) : planShrunk(canvas, order);
}

function planShrunk(canvas: Canvas, { way, side, along, shift, within, step }: WayOrder): WayPlan {
  const widths = overlapsFor(side, within, step);
  const most = widths.at(-1)!;
  const last = canvas.readStrip({ way, first: side - most, across: most, along, shift });
  const first = canvas.readStrip({ way, first: 0, across: most, along });
  const overlap = bestOverlap({ last, first }, widths);
  return { way, overlap, size: side - overlap };
}

/** Overlaps from half to all of the strip that leave a size of whole steps. */
function overlapsFor(side: number, within: number, step: number): number[] {
  const widths: number[] = [];
  for (let width = Math.ceil(within / 2); width <= within; width++)
    if ((side - width) % step === 0 && width >= LEAST_STRIP / 2) widths.push(width);
  if (widths.length > 0) return widths;
  // A fraction finer than the strip: the next size below that fits.
  return [side - Math.floor((side - within) / step) * step];
}

function planTurned(canvas: Canvas, { way, side, along, within }: WayOrder): WayPlan {
  const even = overlapsFor(side, within, 1).filter((width) => width % 2 === 0);
  const most = even.at(-1)!;
  const [overlap, farOverlap] = [0, side - most].map((first) => {
    const strip = canvas.readStrip({ way, first, across: most, along });
    const turned = turnedStrip(strip);
    const [last, next] = first === 0 ? [turned, strip] : [strip, turned];
    return bestOverlap({ last, first: next }, even);
  });
  return { way, overlap, farOverlap, size: side - (overlap + farOverlap) / 2 };
}

/** A strip is worked on on both sides of the seam: each takes half of what is allowed. */
function planGrown(
  canvas: Canvas,
  { way, side, along, shift, within, step, isRound, isTurned }: WayOrder,
): WayPlan {
  const size = Math.floor(side / step) * step;
  const half = Math.floor(within / 4) * 2;
  const overlap = Math.max(half, 4);
  const whole = canvas.readStrip({ way, first: 0, across: side, along });
  const next = canvas.readStrip({ way, first: 0, across: overlap, along, shift: -shift });
  const growth = bestGrowth({ whole, next, count: overlap, isRound });
  return { way, overlap, size, growth, ...(isTurned ? { farOverlap: overlap } : {}) };
}

/**
 * Refuses the layouts that close by nature.
 *
 * @throws Fault (usage) for a mirrored one.
 */
export function refuseMirrors(layout: Layout): void {
  if (!layout.kind.startsWith('mirror')) return;
  const name = formatLayout(layout);
  throw new Fault({
    kind: 'usage',
    expected: 'straight, a drop, a brick or turn',
    subject: 'the layout to close over',
    received: name,
    saying: `There is nothing to close in ${name}: each mirrored edge meets its own image, so tone goes on over it by itself. What mirroring does instead: whatever crosses an edge aslant turns back there, as in a kaleidoscope, and every motif comes back reversed.`,
    remedy: `Lay the picture with --layout ${name} as it is. Edges that are not mirrored there are closed over straight, which then holds for ${name} too.`,
  });
}

function requireStrip(picture: LitPicture, way: Across, strip: number, keepSize: boolean): void {
  const side = way === 'x' ? picture.width : picture.height;
  const name = way === 'x' ? 'width' : 'height';
  const most = Math.floor(side * (keepSize ? GROWN_SHARE : LARGEST_SHARE));
  if (strip >= LEAST_STRIP && strip <= most) return;
  const isSmall = most < LEAST_STRIP;
  throw new Fault({
    kind: 'usage',
    expected: isSmall
      ? `a picture at least ${Math.ceil(LEAST_STRIP / (keepSize ? GROWN_SHARE : LARGEST_SHARE))} px wide and high`
      : `from ${LEAST_STRIP} to ${most} px, a ${keepSize ? 'quarter' : 'third'} of its ${name}`,
    subject: isSmall ? 'what is to be closed' : 'the strip that is worked on (--within)',
    received: isSmall ? `${picture.width} x ${picture.height} px` : `${strip} px`,
    remedy: isSmall
      ? 'Scan or save it larger.'
      : strip < LEAST_STRIP
        ? 'Give more: a cut needs room to run round what is painted.'
        : 'Give less, or take more of the painting into the picture.',
  });
}
