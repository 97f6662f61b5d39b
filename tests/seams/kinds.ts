import { hashUnit } from '../../src/field/hash.ts';
import { randomStream } from '../../src/field/random.ts';
import { isReflected } from '../../src/repeat/layout.ts';
import { contourPlane, coverage, distancePlane, type Ground, noisePlane, type Shape } from './ground.ts';

/** Encoded sRGB, 0..255. */
export type Ink = readonly [number, number, number];

/** How a seamless picture of one kind is drawn. */
export interface Kind {
  readonly name: string;
  /** Fills `width * height * 4` numbers, 0..255, RGBA straight; not rounded, so that gradients stay smooth. */
  draw(ground: Ground): Float32Array;
  /**
   * Where a cut is no fault that anybody could tell: it leaves a narrower stripe, check or thread, which is a
   * picture as good as the first, or runs along streaks or through specks as fine as a pixel.
   */
  readonly cutHides?: boolean;
  /** Cannot be drawn without a crease in the reflected layouts. */
  readonly unreflected?: boolean;
  /** Cannot be a JPEG. */
  readonly transparent?: boolean;
}

type Paint = (x: number, y: number, at: number) => Ink;

function painted({ width, height }: Ground, paint: Paint): Float32Array {
  const samples = new Float32Array(width * height * 4);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const at = y * width + x;
      const [r, g, b] = paint(x + 0.5, y + 0.5, at);
      samples.set([r, g, b, 255], at * 4);
    }
  }
  return samples;
}

function mix(a: Ink, b: Ink, share: number): Ink {
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, a[2] + (b[2] - a[2]) * share];
}

function add([r, g, b]: Ink, more: number): Ink {
  return [r + more, g + more, b + more];
}

/** Grey levels of noise that belong to the pixel, not to the cloth: as a camera adds. */
function grain(ground: Ground, name: string, deviation: number): Float32Array {
  const random = randomStream(ground.seed, name);
  return Float32Array.from({ length: ground.width * ground.height }, () => random.normal() * deviation);
}

const LINEN: Ink = [232, 222, 204];
const INDIGO: Ink = [38, 52, 98];
const MADDER: Ink = [168, 58, 46];
const WELD: Ink = [214, 178, 72];
const SAGE: Ink = [128, 148, 116];
const COAL: Ink = [24, 22, 26];

/** Clouds between two inks. */
function clouds(size: number, octaves: number, from: Ink, to: Ink, contrast = 0.25, grainLevels = 0) {
  return (ground: Ground) => {
    const noise = noisePlane(ground, 'clouds', { along: size, across: size }, { octaves, gain: 0.5 });
    const speck = grainLevels > 0 ? grain(ground, 'grain', grainLevels) : undefined;
    return painted(ground, (_x, _y, at) =>
      add(mix(from, to, 0.5 + contrast * noise[at]), speck ? speck[at] : 0),
    );
  };
}

/** Streaks along a direction, as in planks; `along` and `across` in px. */
function streaks(along: number, across: number, direction: number, from: Ink, to: Ink) {
  return (ground: Ground) => {
    const shape = { octaves: 4, gain: 0.6 };
    const noise = noisePlane(ground, 'streaks', { along, across, direction }, shape);
    return painted(ground, (_x, _y, at) => mix(from, to, 0.5 + 0.3 * noise[at]));
  };
}

/** Rings and cathedrals: the sine of a slow noise. */
function rings(ground: Ground) {
  const noise = noisePlane(
    ground,
    'rings',
    { along: 150, across: 60, direction: 90 },
    { octaves: 2, gain: 0.3 },
  );
  return painted(ground, (_x, _y, at) =>
    mix([196, 150, 100], [128, 84, 48], 0.5 + 0.5 * Math.sin(9 * noise[at])),
  );
}

/** Flat shapes with anti-aliased outlines, cut where a noise passes a level. */
function blobs(size: number, levels: readonly [number, Ink][], base: Ink, softness = 1) {
  return (ground: Ground) => {
    const cell = { along: size, across: size };
    const planes = levels.map(([level]) =>
      contourPlane(ground, 'blobs', cell, { octaves: 2, gain: 0.35 }, level),
    );
    return painted(ground, (_x, _y, at) =>
      levels.reduce((ink, [, over], k) => mix(ink, over, coverage(planes[k][at], softness)), base),
    );
  };
}

/** Lines of a given width where a noise passes several levels. */
function contours(ground: Ground) {
  const cell = { along: 60, across: 60 };
  const planes = [-0.9, 0, 0.9].map((level) =>
    contourPlane(ground, 'lines', cell, { octaves: 2, gain: 0.3 }, level),
  );
  return painted(ground, (_x, _y, at) => {
    const nearest = Math.min(...planes.map((plane) => Math.abs(plane[at])));
    return mix(LINEN, COAL, coverage(nearest - 1.2));
  });
}

interface Place {
  readonly x: number;
  readonly y: number;
  /** 0..1, for who wants variety. */
  readonly r: number;
  readonly k: number;
}

/**
 * Places for motifs, about `spacing` px apart. Near a mirror line a motif would meet its own
 * reflection in a corner: there is none, or, `onMirrors`, one that stands right on the line.
 */
function places(ground: Ground, name: string, spacing: number, onMirrors = false): Place[] {
  const random = randomStream(ground.seed, name);
  const found: Place[] = [];
  const wanted = Math.max(2, Math.round((ground.width * ground.height) / spacing ** 2));
  for (let tries = 0; tries < 20 * wanted && found.length < wanted; tries++) {
    const place = { x: random.next() * ground.width, y: random.next() * ground.height };
    const settled = settle(ground, place, spacing * 0.6, onMirrors);
    if (!settled) continue;
    const next = { ...settled, r: random.next(), k: found.length };
    if (found.every((other) => apart(ground, next, other) > spacing * 0.8)) found.push(next);
  }
  return found;
}

function settle(
  { layout, width, height }: Ground,
  { x, y }: { x: number; y: number },
  near: number,
  onMirrors: boolean,
): { x: number; y: number } | undefined {
  const lineOf = (at: number, size: number) => (at < near ? 0 : at > size - near ? size : undefined);
  const mirrorX = layout.kind === 'mirror-x' || layout.kind === 'mirror-xy';
  const mirrorY = layout.kind === 'mirror-y' || layout.kind === 'mirror-xy';
  const column = mirrorX ? lineOf(x, width) : undefined;
  const row = mirrorY ? lineOf(y, height) : undefined;
  if (!onMirrors && (column !== undefined || row !== undefined)) return undefined;
  return { x: column ?? x, y: row ?? y };
}

/** px between two places of the tile, the shorter way round. */
function apart({ lattice }: Ground, a: { x: number; y: number }, b: { x: number; y: number }): number {
  const { ax, ay, bx, by } = lattice;
  const [acrossMost, downMost] = bx === 0 ? [1, 2] : [2, 1];
  let least = Number.POSITIVE_INFINITY;
  for (let m = -acrossMost; m <= acrossMost; m++) {
    for (let n = -downMost; n <= downMost; n++) {
      const dx = a.x - b.x + m * ax + n * bx;
      const dy = a.y - b.y + m * ay + n * by;
      least = Math.min(least, dx * dx + dy * dy);
    }
  }
  return Math.sqrt(least);
}

function disc(x: number, y: number, radius: number): Shape {
  return { x, y, reach: radius + 4, distance: (dx, dy) => Math.hypot(dx, dy) - radius };
}

/** A flower of `petals`; `turn` in radians. */
function flower(x: number, y: number, radius: number, petals: number, turn: number): Shape {
  return {
    x,
    y,
    reach: radius * 1.3 + 4,
    distance: (dx, dy) => {
      const angle = Math.atan2(dy, dx) - turn;
      return (Math.hypot(dx, dy) - radius * (0.75 + 0.25 * Math.cos(petals * angle))) * 0.8;
    },
  };
}

/** A leaf: where two discs overlap. */
function leaf(x: number, y: number, length: number, turn: number): Shape {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const radius = length * 0.75;
  const offset = length * 0.55;
  return {
    x,
    y,
    reach: length,
    distance: (dx, dy) => {
      const across = Math.abs(-dx * s + dy * c);
      return Math.hypot(dx * c + dy * s, across + offset) - radius;
    },
  };
}

function rectangle(x: number, y: number, halfWidth: number, halfHeight: number, turn = 0): Shape {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return {
    x,
    y,
    reach: Math.hypot(halfWidth, halfHeight) + 4,
    distance: (dx, dy) =>
      Math.max(Math.abs(dx * c + dy * s) - halfWidth, Math.abs(-dx * s + dy * c) - halfHeight),
  };
}

function motifs(
  spacing: number,
  base: Ink,
  inks: readonly Ink[],
  shape: (place: Place) => Shape,
  softness = 1,
  onMirrors = false,
) {
  return (ground: Ground) => {
    const all = places(ground, 'motifs', spacing, onMirrors);
    const planes = inks.map((_, k) =>
      distancePlane(ground, all.filter((place) => place.k % inks.length === k).map(shape)),
    );
    return painted(ground, (_x, _y, at) =>
      inks.reduce((under, ink, k) => mix(under, ink, coverage(planes[k][at], softness)), base),
    );
  };
}

/** Flowers with a centre and an outline. */
function tossedFlowers(ground: Ground) {
  const all = places(ground, 'flowers', 90);
  const petals = distancePlane(
    ground,
    all.map(({ x, y, r, k }) => flower(x, y, 26 + 16 * r, 5 + (k % 3), 7 * r)),
  );
  const hearts = distancePlane(
    ground,
    all.map(({ x, y, r }) => disc(x, y, 6 + 4 * r)),
  );
  const leaves = distancePlane(
    ground,
    all.map(({ x, y, r }) => leaf(x + 44 * Math.cos(9 * r), y + 44 * Math.sin(9 * r), 17, 9 * r)),
  );
  return painted(ground, (_x, _y, at) => {
    const withLeaves = mix(LINEN, SAGE, coverage(leaves[at]));
    const withPetals = mix(withLeaves, MADDER, coverage(petals[at]));
    const outlined = mix(withPetals, COAL, coverage(Math.abs(petals[at]) - 0.8));
    return mix(outlined, WELD, coverage(hearts[at]));
  });
}

/** A motif much smaller than its ground; `x`, `y` as shares of the tile. */
function lonely(x: number, y: number) {
  return (ground: Ground) => {
    const size = Math.min(ground.width, ground.height);
    const shape = flower(x * ground.width, y * ground.height, size * 0.24, 5, 0.6);
    const plane = distancePlane(ground, [shape]);
    return painted(ground, (_x, _y, at) => mix(LINEN, INDIGO, coverage(plane[at])));
  };
}

/** A square wave of `count` periods over `size` px, as coverage; symmetric about 0. */
function stripe(position: number, size: number, count: number, softness = 1): number {
  const period = size / count;
  const phase = position / period - Math.floor(position / period);
  return coverage((0.25 - Math.abs(phase - 0.5)) * -period, softness);
}

/** How many times a pattern may stand in the height so that a drop of p/q moves it by whole periods. */
function countDown(ground: Ground, about: number): number {
  const step = ground.layout.kind === 'drop' ? ground.layout.denominator : 1;
  return Math.max(1, Math.round(about / step)) * step;
}

function countAcross(ground: Ground, about: number): number {
  const step = ground.layout.kind === 'brick' ? ground.layout.denominator : 1;
  return Math.max(1, Math.round(about / step)) * step;
}

function stripesAcross(ground: Ground) {
  const count = countAcross(ground, 7);
  return painted(ground, (x) => mix(LINEN, INDIGO, stripe(x, ground.width, count)));
}

function stripesDown(ground: Ground) {
  const count = countDown(ground, 7);
  return painted(ground, (_x, y) => mix(WELD, MADDER, stripe(y, ground.height, count)));
}

function checks(ground: Ground) {
  const [across, down] = [countAcross(ground, 6), countDown(ground, 6)];
  return painted(ground, (x, y) => {
    const a = stripe(x, ground.width, across);
    const b = stripe(y, ground.height, down);
    return mix(LINEN, INDIGO, a + b - 2 * a * b);
  });
}

function plaid(ground: Ground) {
  const [across, down] = [countAcross(ground, 5), countDown(ground, 5)];
  return painted(ground, (x, y) => {
    const broad = 0.5 * stripe(x, ground.width, across) + 0.5 * stripe(y, ground.height, down);
    const fine = 0.3 * stripe(x, ground.width, across * 4) + 0.3 * stripe(y, ground.height, down * 4);
    return mix(mix(LINEN, SAGE, broad), MADDER, fine);
  });
}

/** Diagonal stripes that close. */
function diagonals(ground: Ground) {
  const { width, height } = ground;
  const across = countAcross(ground, 5);
  const down = countDown(ground, 4);
  return painted(ground, (x, y) => {
    const phase = (across * x) / width + (down * y) / height;
    const gradient = Math.hypot(across / width, down / height);
    const from = phase - Math.floor(phase) - 0.5;
    return mix(LINEN, INDIGO, coverage((0.25 - Math.abs(from)) / gradient));
  });
}

/** Threads of `pitch` px, over and under, each with its own shade. */
function woven(pitch: number, uneven: number) {
  return (ground: Ground) => {
    const { width, height } = ground;
    const ends = 2 * countAcross(ground, width / pitch / 2);
    const picks = 2 * countDown(ground, height / pitch / 2);
    const slub = noisePlane(ground, 'slub', { along: 9, across: 9 }, { octaves: 3, gain: 0.6 });
    return painted(ground, (x, y, at) => {
      const u = (x / width) * ends;
      const v = (y / height) * picks;
      const over = (Math.floor(u) + Math.floor(v)) % 2 === 0;
      const bulge = over ? Math.sin(Math.PI * (u - Math.floor(u))) : Math.sin(Math.PI * (v - Math.floor(v)));
      return add(mix([120, 112, 96], [226, 214, 190], 0.25 + 0.7 * bulge), uneven * slub[at]);
    });
  };
}

/** Smooth waves with no noise at all: an ombre that comes back. */
function ombre(from: Ink, to: Ink) {
  return (ground: Ground) => {
    const kx = (2 * Math.PI) / ground.width;
    const ky = (2 * Math.PI * countDown(ground, 1)) / ground.height;
    const kxWhole = kx * countAcross(ground, 1);
    const shift = isReflected(ground.layout) ? 0 : 0.7;
    const turn = ground.layout.kind === 'turn';
    return painted(ground, (x, y) => {
      const wave = turn
        ? Math.cos(ky * (y - ground.height / 2)) + Math.cos(kx * (x - ground.width))
        : Math.cos(kxWhole * x + shift) + Math.cos(ky * y + 2 * shift);
      return mix(from, to, 0.5 + 0.25 * wave);
    });
  };
}

/** Scales: rows of overlapping discs with a rim. */
function scales(ground: Ground) {
  const { width, height } = ground;
  const across = countAcross(ground, 6);
  const down = 2 * countDown(ground, 5);
  const shapes: Shape[] = [];
  const [w, h] = [width / across, height / down];
  for (let j = 0; j < down; j++) {
    for (let i = 0; i < across; i++) {
      shapes.push({
        x: (i + (j % 2) / 2) * w,
        y: j * h,
        reach: w,
        distance: (dx, dy) => Math.abs(Math.hypot(dx, dy) - w * 0.62) - 1.5 + Math.max(dy, 0),
      });
    }
  }
  const plane = distancePlane(ground, shapes);
  return painted(ground, (_x, _y, at) => mix([36, 84, 92], WELD, coverage(plane[at])));
}

/** Short brush marks of many directions. */
const strokes = motifs(22, LINEN, [COAL, INDIGO], ({ x, y, r, k }) => rectangle(x, y, 8, 1.6, r * 9 + k));

/** White noise of the cloth itself, symmetric where the layout is: every pixel its own. */
function speckle(ground: Ground) {
  const { turns, lattice } = ground;
  return painted(ground, (x, y) => {
    let sum = 0;
    for (const { sx, sy, ox, oy } of turns) {
      const i = Math.floor(ox + sx * x);
      const j = Math.floor(oy + sy * y);
      sum += hashUnit(
        7,
        ((i % lattice.ax) + lattice.ax) % lattice.ax,
        ((j % lattice.by) + lattice.by) % lattice.by,
      );
    }
    return add(SAGE, 90 * (sum / turns.length - 0.5));
  });
}

/** A drawing with soft washes behind, as scanned paper: three scales at once. */
function watercolour(ground: Ground) {
  const wash = noisePlane(ground, 'wash', { along: 120, across: 120 }, { octaves: 4, gain: 0.5 });
  const tooth = noisePlane(ground, 'tooth', { along: 5, across: 5 }, { octaves: 2, gain: 0.7 });
  const edge = contourPlane(ground, 'pool', { along: 80, across: 80 }, { octaves: 3, gain: 0.4 }, 0.2);
  const speck = grain(ground, 'speck', 1.5);
  return painted(ground, (_x, _y, at) => {
    const pool = coverage(edge[at], 3);
    const rim = Math.exp(-Math.max(0, -edge[at]) / 6) * pool;
    const ink = mix(LINEN, [96, 140, 176], pool * (0.55 + 0.12 * wash[at]) + 0.25 * rim);
    return add(ink, 4 * tooth[at] + speck[at]);
  });
}

/** A motif on nothing: transparent outside. */
function cutOut(ground: Ground): Float32Array {
  const all = places(ground, 'cut-out', 80);
  const plane = distancePlane(
    ground,
    all.map(({ x, y, r, k }) => flower(x, y, 24 + 12 * r, 4 + (k % 3), r)),
  );
  const samples = painted(ground, () => MADDER);
  for (let at = 0; at < plane.length; at++) samples[at * 4 + 3] = 255 * coverage(plane[at]);
  return samples;
}

export const KINDS: readonly Kind[] = [
  { name: 'clouds', draw: clouds(110, 2, [70, 104, 150], [236, 238, 240]) },
  { name: 'clouds of six octaves', draw: clouds(128, 6, [92, 70, 52], [206, 190, 160]) },
  { name: 'plaster with grain', draw: clouds(64, 6, [150, 140, 128], [214, 208, 198], 0.2, 4) },
  { name: 'rough stone', draw: clouds(20, 4, [60, 58, 56], [190, 184, 176], 0.3, 6) },
  { name: 'dark clouds', draw: clouds(90, 5, [6, 7, 10], [40, 36, 44]) },
  { name: 'pale paper', draw: clouds(30, 4, [238, 234, 226], [248, 246, 240], 0.3, 1) },
  { name: 'clouds of colour only', draw: clouds(70, 3, [196, 110, 120], [70, 146, 140]) },
  { name: 'ombre', draw: ombre(MADDER, WELD) },
  { name: 'dark ombre', draw: ombre([8, 8, 12], [44, 30, 52]) },
  { name: 'dots', draw: motifs(46, LINEN, [INDIGO], ({ x, y }) => disc(x, y, 15), 1, true) },
  {
    name: 'dots of many sizes',
    draw: motifs(40, COAL, [WELD, MADDER, SAGE], ({ x, y, r }) => disc(x, y, 4 + 14 * r), 1, true),
  },
  { name: 'small dots', draw: motifs(14, INDIGO, [LINEN], ({ x, y }) => disc(x, y, 3.2), 1, true) },
  {
    name: 'dots of colour only',
    draw: motifs(46, [196, 110, 120], [[70, 146, 140]], ({ x, y }) => disc(x, y, 15), 1, true),
  },
  { name: 'blobs', draw: blobs(60, [[0.3, INDIGO]], LINEN) },
  {
    name: 'blobs in layers',
    draw: blobs(
      70,
      [
        [-0.6, SAGE],
        [0.2, WELD],
        [0.9, MADDER],
      ],
      COAL,
    ),
  },
  { name: 'small blobs', draw: blobs(18, [[0.4, COAL]], WELD) },
  { name: 'soft blobs', draw: blobs(60, [[0.2, MADDER]], LINEN, 5) },
  { name: 'line drawing', draw: contours },
  { name: 'stripes across', draw: stripesAcross, cutHides: true },
  { name: 'stripes down', draw: stripesDown, cutHides: true },
  { name: 'diagonals', draw: diagonals, unreflected: true },
  { name: 'checks', draw: checks, cutHides: true },
  { name: 'plaid', draw: plaid, cutHides: true },
  { name: 'woven, even', draw: woven(8, 0), cutHides: true },
  { name: 'woven, uneven', draw: woven(6, 8), cutHides: true },
  { name: 'planks', draw: streaks(240, 10, 0, [170, 124, 82], [112, 72, 42]), cutHides: true },
  { name: 'streaks upright', draw: streaks(200, 6, 90, [120, 130, 140], [186, 190, 188]), cutHides: true },
  { name: 'rings', draw: rings },
  { name: 'one motif within', draw: lonely(0.5, 0.5) },
  { name: 'one motif over the corner', draw: lonely(0.04, 0.07) },
  { name: 'one motif over an edge', draw: lonely(0.02, 0.45) },
  { name: 'tossed flowers', draw: tossedFlowers },
  {
    name: 'leaves',
    draw: motifs(44, [226, 232, 214], [SAGE, [64, 92, 66]], ({ x, y, r }) => leaf(x, y, 26, 9 * r)),
  },
  {
    name: 'leaves without anti-aliasing',
    draw: motifs(44, LINEN, [SAGE, COAL], ({ x, y, r }) => leaf(x, y, 26, 9 * r), 1e-3),
  },
  {
    name: 'rectangles',
    draw: motifs(60, LINEN, [MADDER, SAGE], ({ x, y, r }) => rectangle(x, y, 8 + 20 * r, 30 - 20 * r)),
  },
  {
    name: 'tilted rectangles',
    draw: motifs(60, SAGE, [LINEN, COAL], ({ x, y, r, k }) => rectangle(x, y, 20, 8 + 6 * r, k)),
  },
  { name: 'brush marks', draw: strokes },
  { name: 'scales', draw: scales, unreflected: true },
  { name: 'speckle', draw: speckle, cutHides: true },
  { name: 'watercolour', draw: watercolour },
  { name: 'cut-out motifs', draw: cutOut, transparent: true },
];
