import {
  type Band,
  choice,
  colour,
  defineEffect,
  type HomePart,
  homeParts,
  type Lattice,
  numeric,
  parseHex,
  poissonPoints,
  visitCopies,
} from 'tenter';

/** What `prepare` works out once for `paint`: plain data, in mm, and not a word of pixels. */
interface Model {
  readonly lattice: Lattice;
  readonly petals: readonly Petal[];
  /** How much of the light the fold takes and gives, 0..1. */
  readonly fold: number;
  /** True for round ends, false for pointed ones. */
  readonly round: boolean;
}

interface Petal {
  readonly x: number;
  readonly y: number;
  /** The direction it points in, as a unit vector. */
  readonly dx: number;
  readonly dy: number;
  /** Half its length and half its breadth. */
  readonly long: number;
  readonly wide: number;
  readonly red: number;
  readonly green: number;
  readonly blue: number;
}

export default defineEffect({
  apiVersion: 1,
  name: 'petal-fall',
  version: '0.1.0',
  summary: 'Fallen petals, each folded along its middle, strewn without clumps.',
  parameters: {
    spacing: numeric({
      unit: 'mm',
      min: 6,
      max: 60,
      default: 9,
      help: 'The least way from one petal to the next.',
    }),
    length: numeric({ unit: 'mm', min: 3, max: 30, default: 13, help: 'How long the petals are.' }),
    breadth: numeric({
      unit: 'ratio',
      min: 0.1,
      max: 1,
      default: 0.42,
      help: 'How broad, for their length.',
    }),
    wind: numeric({
      unit: 'deg',
      min: 0,
      max: 360,
      default: 35,
      help: 'Which way they point, clockwise from the right.',
    }),
    turn: numeric({ unit: 'deg', min: 0, max: 180, default: 70, help: 'How far each may turn from that.' }),
    fold: numeric({
      unit: 'ratio',
      min: 0,
      max: 0.6,
      default: 0.22,
      help: 'How strongly the fold catches the light.',
    }),
    ends: choice({ options: ['pointed', 'round'], default: 'pointed', help: 'How the petals end.' }),
    light: colour({ default: '#f2cdbd', help: 'The palest petals.' }),
    deep: colour({ default: '#b4544f', help: 'The deepest petals.' }),
  },
  // Whoever sets them reads this: each value stands where its name is, with its unit.
  sentences: [
    'Petals {length} long, {ends: pointed | round} at their ends, lie {spacing} apart and point to {wind}.',
    'They shade from {light} to {deep}.',
  ],
  planes: ['tint', 'shade'],

  prepare({ parameters, box, random, report }): Model {
    const { spacing, length, breadth, wind, turn, fold, ends } = parameters;
    // One stream per purpose: another draw for the colours then moves no petal.
    const places = poissonPoints(box, spacing, random('places'));
    const turns = random('turns');
    const sizes = random('sizes');
    const tones = random('tones');
    const light = parseHex(parameters.light);
    const deep = parseHex(parameters.deep);
    const petals = Array.from(places.x, (x, index): Petal => {
      const angle = ((wind + turns.between(-turn, turn)) * Math.PI) / 180;
      const long = (length / 2) * sizes.between(0.7, 1);
      const tone = tones.next();
      const [red, green, blue] = light.map((value, channel) => value + tone * (deep[channel] - value));
      const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
      return { x, y: places.y[index], dx, dy, long, wide: long * breadth, red, green, blue };
    });
    report({ name: 'petals', value: petals.length, unit: 'count' });
    return { lattice: box.lattice, petals, fold, round: ends === 'round' };
  },

  paint(model, band, layer) {
    // A band may lie anywhere on the cloth; a home part is the piece of it within one copy of the repeat.
    for (const part of homeParts(band, model.lattice)) {
      for (const petal of model.petals) {
        visitCopies(model.lattice, petal.x, petal.y, reachOf(petal, part, band), (x, y) =>
          stamp(model, petal, x, y, part, band, layer),
        );
      }
    }
  },
});

/** Where a petal's middle may lie for any of it to show in this part; its edge fades over a pixel more. */
function reachOf({ long }: Petal, part: HomePart, { mmPerPixelX, mmPerPixelY }: Band) {
  const reach = long + mmPerPixelX;
  return {
    left: part.x * mmPerPixelX - reach,
    right: (part.x + part.width) * mmPerPixelX + reach,
    top: part.y * mmPerPixelY - reach,
    bottom: (part.y + part.height) * mmPerPixelY + reach,
  };
}

/** Lays one petal, its middle at (x, y) mm, over what is there already. */
function stamp(
  { fold, round }: Model,
  petal: Petal,
  x: number,
  y: number,
  part: HomePart,
  { width, mmPerPixelX, mmPerPixelY }: Band,
  { tint, shade }: { readonly tint: Float32Array; readonly shade: Float32Array },
): void {
  const { dx, dy, long, wide, red, green, blue } = petal;
  const reach = long + mmPerPixelX;
  const firstRow = Math.max(0, Math.floor((y - reach) / mmPerPixelY) - part.y);
  const lastRow = Math.min(part.height - 1, Math.ceil((y + reach) / mmPerPixelY) - part.y);
  const firstColumn = Math.max(0, Math.floor((x - reach) / mmPerPixelX) - part.x);
  const lastColumn = Math.min(part.width - 1, Math.ceil((x + reach) / mmPerPixelX) - part.x);
  for (let row = firstRow; row <= lastRow; row++) {
    for (let column = firstColumn; column <= lastColumn; column++) {
      const toX = (part.x + column + 0.5) * mmPerPixelX - x;
      const toY = (part.y + row + 0.5) * mmPerPixelY - y;
      const along = (toX * dx + toY * dy) / long;
      const across = (toY * dx - toX * dy) / wide;
      if (along * along >= 1) continue;
      const edge = round ? Math.sqrt(1 - along * along) : 1 - along * along;
      // The edge takes one pixel to fade, whatever the density: then 75 dpi looks like 300 from afar.
      const cover = clamp(((edge - Math.abs(across)) * wide) / mmPerPixelX + 0.5);
      if (cover <= 0) continue;
      const k = part.at + row * width + column;
      const below = tint[4 * k + 3] * (1 - cover);
      const alpha = cover + below;
      tint[4 * k] = (red * cover + tint[4 * k] * below) / alpha;
      tint[4 * k + 1] = (green * cover + tint[4 * k + 1] * below) / alpha;
      tint[4 * k + 2] = (blue * cover + tint[4 * k + 2] * below) / alpha;
      tint[4 * k + 3] = alpha;
      // One half faces the light and the other turns away; the fold itself is the step between them.
      const slope = Math.max(-1, Math.min(1, (across * wide) / mmPerPixelX));
      shade[k] += cover * (1 + fold * slope * (1 - Math.abs(across)) - shade[k]);
    }
  }
}

function clamp(value: number): number {
  return Math.max(0, Math.min(1, value));
}
