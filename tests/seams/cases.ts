import { isReflected, type Layout, parseLayout } from '../../src/repeat/layout.ts';
import { crop, cutMotif, type Drawn, firstOnceMore, isBroken, repeatLastRow, shade } from './faults.ts';
import { groundOf } from './ground.ts';
import type { Kind } from './kinds.ts';

/** A picture and what is to be said of it. */
export interface Case {
  readonly kind: string;
  /** What was done to the closed picture, e.g. `closed` or `cropped by an eighth`. */
  readonly fault: string;
  readonly layout: Layout;
  readonly picture: Drawn;
  readonly closes: boolean;
  /** Quality and colour subsampling where it is to be saved as JPEG first. */
  readonly jpeg?: { readonly quality: number; readonly subsampling: '4:2:0' | '4:4:4' };
  /** The edges at which it is open, of those that move. */
  readonly openAt?: readonly ('right' | 'bottom')[];
}

export const LAYOUTS = [
  'straight',
  'drop:1/2',
  'drop:1/3',
  'brick:1/2',
  'brick:1/3',
  'mirror-x',
  'mirror-y',
  'mirror-xy',
  'turn',
].map(parseLayout);

/** Pixels that every layout divides, also with an eighth off. */
export const WIDTH = 336;
export const HEIGHT = 264;

export const JPEGS = [
  { quality: 60, subsampling: '4:2:0' },
  { quality: 75, subsampling: '4:2:0' },
  { quality: 85, subsampling: '4:4:4' },
  { quality: 92, subsampling: '4:2:0' },
] as const;

/** Every case of one kind over one layout. */
export function casesOf(kind: Kind, layout: Layout, seed: string, width = WIDTH, height = HEIGHT): Case[] {
  if (kind.unreflected && isReflected(layout)) return [];
  const ground = groundOf(layout, width, height, `${seed} ${kind.name}`);
  const picture = { samples: kind.draw(ground), width, height };
  const cases = [...closedCases(kind, layout, picture)];
  if (!kind.cutHides) cases.push(...cutCases(kind, layout, picture));
  if (!isReflected(layout)) cases.push(...otherCases(kind, layout, picture));
  return cases;
}

function closedCases(kind: Kind, layout: Layout, picture: Drawn): Case[] {
  const closed = { kind: kind.name, fault: 'closed', layout, picture, closes: true };
  return [closed, ...(kind.transparent ? [] : JPEGS.map((jpeg) => ({ ...closed, jpeg })))];
}

function cutCases(kind: Kind, layout: Layout, picture: Drawn): Case[] {
  const step = layout.denominator;
  const cases: Case[] = [];
  const add = (fault: string, across: number, down: number) => {
    const { width, height } = picture;
    const cut = crop(picture, 0, 0, width - across * step, height - down * step);
    const openAt = openEdges(layout, picture, cut);
    if (openAt.length === 0) return;
    const one = { kind: kind.name, fault, layout, picture: cut, closes: false, openAt };
    cases.push(one);
    if (fault.includes('eighth') && !kind.transparent) {
      cases.push({ ...one, fault: `${fault}, JPEG`, jpeg: JPEGS[1] });
    }
  };
  const eighthAcross = Math.round(picture.width / 8 / step);
  const eighthDown = Math.round(picture.height / 8 / step);
  add('cropped by an eighth across', eighthAcross, 0);
  add('cropped by an eighth down', 0, eighthDown);
  add('cropped by an eighth both ways', eighthAcross, eighthDown);
  if (!isReflected(layout)) {
    for (const px of [2, 4, 8].filter((px) => px >= step))
      add(`cropped by ${px} px both ways`, px / step, px / step);
  }
  return cases.filter(({ picture: { width, height } }) => width % step === 0 && height % step === 0);
}

/** The moved edges that the cut leaves visibly wrong; a mirrored or turned one counts as wrong where it was cut. */
function openEdges(layout: Layout, picture: Drawn, cut: Drawn): ('right' | 'bottom')[] {
  const open: ('right' | 'bottom')[] = [];
  const { width } = picture;
  const acrossMoves = !['mirror-x', 'mirror-xy', 'turn'].includes(layout.kind);
  const downMoves = !['mirror-y', 'mirror-xy'].includes(layout.kind);
  const drop = layout.kind === 'drop' ? (layout.numerator / layout.denominator) * cut.height : 0;
  const brick = layout.kind === 'brick' ? (layout.numerator / layout.denominator) * cut.width : 0;
  const column = (k: number) => ((k - drop + cut.height) % cut.height) * width;
  const row = (k: number) => (k - brick + cut.width) % cut.width;
  if (cut.width < width) {
    if (!acrossMoves || isBroken(picture, cut.height, (k) => k * width + cut.width, column))
      open.push('right');
  }
  if (cut.height < picture.height) {
    if (!downMoves || isBroken(picture, cut.width, (k) => cut.height * width + k, row)) open.push('bottom');
  }
  return open;
}

const STRAIGHT = parseLayout('straight');
const HALF_DROP = parseLayout('drop:1/2');

function otherCases(kind: Kind, layout: Layout, picture: Drawn): Case[] {
  const base = { kind: kind.name, layout, picture, closes: false };
  const { width, height } = picture;
  const cases: Case[] = [
    { ...base, fault: 'a twentieth of a motif cut', picture: cutMotif(picture, 0.05), openAt: ['right'] },
    { ...base, fault: 'a tenth of a motif cut', picture: cutMotif(picture, 0.1), openAt: ['right'] },
  ];
  if (!kind.transparent) {
    const [jpeg] = JPEGS.slice(1);
    cases.push({
      ...base,
      fault: 'a tenth of a motif cut, JPEG',
      picture: cutMotif(picture, 0.1),
      jpeg,
      openAt: ['right'],
    });
    const across = shade(picture, (x) => (6 * x) / width - 3);
    const down = shade(picture, (_, y) => (12 * y) / height - 6);
    cases.push({ ...base, fault: 'lit unevenly, 6 levels', picture: across, openAt: ['right'] });
    cases.push({ ...base, fault: 'lit unevenly, 12 levels, JPEG', picture: down, jpeg, openAt: ['bottom'] });
  }
  if (kind.cutHides) return cases;
  cases.push({ ...base, fault: 'last row doubled', picture: repeatLastRow(picture), openAt: ['bottom'] });
  if (layout.kind === 'straight') {
    cases.push({
      ...base,
      fault: 'first column once more',
      picture: firstOnceMore(picture, 'across'),
      openAt: ['right'],
    });
    cases.push(...mistaken(base, HALF_DROP));
  } else cases.push(...mistaken(base, STRAIGHT));
  return cases;
}

/** The picture held against another layout than its own, where that is visibly wrong. */
function mistaken(base: Omit<Case, 'fault'>, layout: Layout): Case[] {
  const { width, height } = base.picture;
  const [drop, brick] = [dropOf(base.layout, height), brickOf(base.layout, width)];
  const [wrongDrop, wrongBrick] = [dropOf(layout, height), brickOf(layout, width)];
  const column = (shift: number) => (k: number) => ((k - shift + height) % height) * width;
  const row = (shift: number) => (k: number) => (k - shift + width) % width;
  const openAt: ('right' | 'bottom')[] = [];
  if (isBroken(base.picture, height, column(drop), column(wrongDrop))) openAt.push('right');
  if (isBroken(base.picture, width, row(brick), row(wrongBrick))) openAt.push('bottom');
  const fault =
    layout.kind === 'straight' ? 'made for a drop, checked straight' : 'made straight, checked for a drop';
  return openAt.length > 0 ? [{ ...base, layout, fault, openAt }] : [];
}

function dropOf({ kind, numerator, denominator }: Layout, height: number): number {
  return kind === 'drop' ? (numerator / denominator) * height : 0;
}

function brickOf({ kind, numerator, denominator }: Layout, width: number): number {
  return kind === 'brick' ? (numerator / denominator) * width : 0;
}
