import { describe, expect, it } from 'vitest';
import { encodeSrgb } from '../colour/srgb.ts';
import { gridOfPixels } from '../repeat/grid.ts';
import { wrapPoint } from '../repeat/lattice.ts';
import { parseLayout } from '../repeat/layout.ts';
import { artworkInks } from './artwork-inks.ts';
import type { Ink, ShadeCard } from './card.ts';
import type { DotField } from './dots.ts';
import { pressCurve } from './press.ts';
import { createRuledDots } from './ruled-dots.ts';
import { createScatteredDots } from './scattered-dots.ts';
import { screenColours, type TextureWay } from './screen-colours.ts';
import { openScreening } from './screening.ts';
import { mergesTo, requireScreens } from './too-many-inks.ts';

const ink = (name: string, colour: Ink['colour'], covers = true): Ink => ({
  name,
  kind: name === 'ground' ? 'ground' : 'ink',
  colour,
  covers,
  note: '',
});
const CARD: ShadeCard = {
  name: 'test',
  inks: [
    ink('ground', [240, 230, 215]),
    ink('shade', [120, 120, 125], false),
    ink('leaf', [60, 110, 80]),
    ink('rust', [190, 90, 60]),
  ],
};
const [WIDTH, HEIGHT] = [120, 90];

/** Two discs and a stripe with soft edges on the ground, closing over the lattice. */
function artworkAt(card: ShadeCard, x: number, y: number): number[] {
  const share = Math.min(1, Math.max(0, 20.5 - Math.hypot(x - 40, y - 45)));
  const other = Math.min(1, Math.max(0, 15.5 - Math.hypot(x - 90, y - 45)));
  const [ground, , leaf, rust] = card.inks.map(({ colour }) => colour);
  return ground.map((value, channel) =>
    Math.round(value + share * (leaf[channel] - value) + other * (rust[channel] - value)),
  );
}

interface Trial {
  readonly layout?: string;
  readonly way?: TextureWay;
  readonly texture?: readonly number[];
  /** Light that returns at a place, 1 for all. */
  readonly shade?: (x: number, y: number) => number;
  readonly dots?: (grid: ReturnType<typeof gridOfPixels>) => DotField;
  readonly leastTone?: number;
  readonly rows?: number;
  readonly press?: Parameters<typeof pressCurve>[0];
}

function screened({ layout = 'straight', way = 'own', texture = [1], rows = 24, ...trial }: Trial) {
  const { shade = (x: number) => 0.6 + 0.4 * Math.cos((2 * Math.PI * x) / 12) } = trial;
  const size = { width: WIDTH / 10, height: HEIGHT / 10 };
  const grid = gridOfPixels({ layout: parseLayout(layout), ...size }, WIDTH, HEIGHT);
  const artwork = new Uint8Array(4 * WIDTH * HEIGHT);
  const result = new Uint8Array(4 * WIDTH * HEIGHT);
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) {
      const at = 4 * (y * WIDTH + x);
      const colour = artworkAt(CARD, x, y);
      artwork.set([...colour, 255], at);
      const laid = colour.map((value) => {
        const encoded = value / 255;
        const linear = encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;
        return Math.round(255 * encodeSrgb(Math.min(1, linear * shade(x, y))));
      });
      result.set([...laid, 255], at);
    }
  const {
    dots = ({ lattice }) => createScatteredDots({ lattice, side: 32, leastDot: { across: 2, down: 2 } }),
  } = trial;
  const colours = screenColours(CARD, way, way === 'own' ? texture : []);
  const field = dots(grid);
  const plan = {
    ...{
      card: CARD,
      flats: artworkInks(CARD, artwork, WIDTH),
      colours,
      dots: field,
      leastTone: trial.leastTone ?? 0,
    },
    ...{ press: pressCurve(trial.press), washes: 'hard' as const },
  };
  const screening = openScreening(plan, WIDTH, HEIGHT);
  const codes = new Uint8Array(WIDTH * HEIGHT);
  for (let y = 0; y < HEIGHT; ) {
    const end = screening.endOf(y, rows);
    const part = (samples: Uint8Array) => samples.subarray(4 * y * WIDTH, 4 * end * WIDTH);
    screening.screen(y, part(artwork), part(result), codes.subarray(y * WIDTH, end * WIDTH));
    y = end;
  }
  return { codes, colours, grid, changed: screening.changed() };
}

const shares = (codes: Uint8Array, wanted: (code: number) => boolean) =>
  codes.reduce((sum, code) => sum + Number(wanted(code)), 0) / codes.length;

describe('a texture within counted inks', () => {
  it.each(['own', 'bare', 'there'] as const)(
    '%s has the colours of the card and its overprints, no others',
    (way) => {
      const { codes, colours } = screened({ way });
      const used = new Set(codes);
      expect(used.size).toBeGreaterThan(2);
      expect(Math.max(...used)).toBeLessThan(colours.colours.length);
      const single = colours.colours.filter(({ inks }) => inks.length === 1);
      expect(single.map(({ colour }) => colour)).toEqual(CARD.inks.map(({ colour }) => colour));
      for (const { inks } of colours.colours) expect(inks.length).toBeLessThanOrEqual(2);
    },
  );
  it('leaves artwork that nothing is laid over flat: as many colours as it has inks, edges cut where inks are equal', () => {
    for (const way of ['own', 'bare', 'there'] as const) {
      const { codes, changed } = screened({ way, shade: () => 1 });
      expect(changed).toBe(0);
      expect([...new Set(codes)].sort()).toEqual([0, 2, 3]);
      expect(shares(codes, (code) => code === 2)).toBeCloseTo((Math.PI * 20 ** 2) / (WIDTH * HEIGHT), 2);
    }
  });
  it('makes no row of dots along a soft edge, only those of the texture', () => {
    const flat = screened({ shade: () => 1 }).codes;
    // All light returns in the left half: nothing may stand there, edges of the disc included.
    const { codes } = screened({ shade: (x) => (x < 62 ? 1 : 0.5) });
    for (let y = 0; y < HEIGHT; y++)
      for (let x = 0; x < 60; x++)
        if (codes[y * WIDTH + x] !== flat[y * WIDTH + x]) expect([x, y]).toEqual([]);
  });
  it('prints tones that come to the light that was laid', () => {
    const wanted = 0.7;
    const { codes, colours } = screened({ shade: () => wanted });
    const { lights } = colours;
    const dot = colours.choices[0][0];
    const share =
      shares(codes, (code) => code === dot.code) / shares(codes, (code) => code === dot.code || code === 0);
    const light = lights[0][1] * (1 - share) + dot.light[1] * share;
    expect(light / lights[0][1]).toBeCloseTo(wanted, 1);
    const gained = screened({ shade: () => wanted, press: { table: [[40, 60]] } });
    expect(shares(gained.codes, (code) => code === dot.code)).toBeLessThan(
      0.8 * shares(codes, (code) => code === dot.code),
    );
  });
  it('opens to the ground where bare, and darkens nothing', () => {
    const { codes } = screened({ way: 'bare', shade: (x) => (x % 24 < 12 ? 2.5 : 1) });
    const flat = screened({ way: 'bare', shade: () => 1 }).codes;
    const became = new Set(codes.filter((code, at) => code !== flat[at]));
    expect([...became]).toEqual([0]);
  });
  it.each(['straight', 'drop:1/2', 'drop:1/3', 'drop:2/5', 'brick:1/2', 'brick:2/5'])(
    'closes over %s by plain comparison with a screen of a period moved along the lattice',
    (layout) => {
      // One tone all over: what differs between copies can only be the dots, read where the plane is wrapped.
      const { codes, grid } = screened({ layout, shade: () => 0.75 });
      const field = createScatteredDots({
        lattice: grid.lattice,
        side: 32,
        leastDot: { across: 2, down: 2 },
      });
      expect(field.lattice).toEqual(grid.lattice);
      // A dot is never cut by the period's edge: every cell of it is whole within the period.
      const stands = (x: number, y: number) => {
        const [u, v] = wrapPoint(grid.lattice, x, y);
        return codes[v * WIDTH + u] === 0 ? 0 : 1;
      };
      let runs = 0;
      for (let y = 0; y < 12; y++) {
        let length = 1;
        for (let x = -12; x < 26; x++) {
          if (stands(x, y) === stands(x - 1, y)) length++;
          else {
            if (x > -10 && layout.startsWith('straight')) expect(length).toBeGreaterThanOrEqual(2);
            length = 1;
            runs++;
          }
        }
      }
      expect(runs).toBeGreaterThan(20);
    },
  );
  it('is the same for bands of any height', () => {
    const whole = screened({ rows: HEIGHT }).codes;
    for (const rows of [1, 7, 50]) expect(screened({ rows }).codes).toEqual(whole);
  });
});

/** What an opening by a square of `side` takes away of a mask that repeats straight. */
function lostByOpening(mask: Uint8Array, side: number): number {
  const kept = new Uint8Array(mask.length);
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) {
      const places: number[] = [];
      for (let v = 0; v < side; v++)
        for (let u = 0; u < side; u++) places.push(((y + v) % HEIGHT) * WIDTH + ((x + u) % WIDTH));
      if (places.every((place) => mask[place])) for (const place of places) kept[place] = 1;
    }
  return mask.reduce((sum, one, place) => sum + Number(one !== kept[place]), 0);
}

describe('the least dot', () => {
  const dots = ({ lattice }: ReturnType<typeof gridOfPixels>) =>
    createScatteredDots({ lattice, side: 30, leastDot: { across: 3, down: 3 } });
  it('opening and closing by a square of it change nothing in scattered dots of a texture', () => {
    for (const texture of [[1], [3]]) {
      const { codes, colours } = screened({
        dots,
        texture,
        shade: (x, y) => 0.6 + 0.35 * Math.cos(x / 7 + y / 5),
      });
      const plate = Uint8Array.from(codes, (code) =>
        colours.colours[code].inks.includes(texture[0]) ? 1 : 0,
      );
      // Where the texture has an ink of the artwork, the artwork's own edges are as they were drawn.
      const soft = texture[0] === 3 ? 0.02 * plate.length : 0;
      expect(lostByOpening(plate, 3)).toBeLessThanOrEqual(soft);
      expect(
        lostByOpening(
          plate.map((one) => 1 - one),
          3,
        ),
      ).toBeLessThanOrEqual(soft);
    }
  });
  it('is what a ruled tone begins with, or none', () => {
    const ruled = (grid: ReturnType<typeof gridOfPixels>) =>
      createRuledDots({ grid, shape: 'lines', perCm: 10, angle: 90 });
    // Lines of 3 px of 10: a tone of 0.1 is none of it, one of 0.2 becomes 0.3.
    const share = (shade: number) => {
      const { codes, colours } = screened({ dots: ruled, shade: () => shade, leastTone: 0.3 });
      return shares(codes, (code) => colours.colours[code].inks.includes(1));
    };
    expect(share(0.93)).toBe(0);
    expect(share(0.8)).toBeCloseTo(0.3, 1);
  });
});

describe('more inks than screens', () => {
  const many: ShadeCard = {
    name: 'many',
    inks: [...CARD.inks, ink('moss', [64, 112, 84]), ink('brick', [180, 84, 60])],
  };
  it('are merged the nearest first, and each costs what CIEDE2000 says', () => {
    const merges = mergesTo(many, 3);
    expect(merges.map(({ from, into }) => `${from} > ${into}`)).toEqual(['leaf > moss', 'rust > brick']);
    expect(merges[0].cost).toBeLessThan(merges[1].cost);
  });
  it('are refused with those words', () => {
    expect(() => requireScreens(many, 3)).toThrow(
      /at most 3 inks for 3 screens but received 5 .*leaf into moss \(CIEDE2000 [\d.]+\), rust into brick/,
    );
    expect(() => requireScreens(many, 5)).not.toThrow();
    expect(() => requireScreens({ name: 'bare', inks: [CARD.inks[0]] }, 5)).toThrow(/at least one ink/);
  });
});
