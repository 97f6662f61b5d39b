import { farthestCorner, fractalNoise, parseHex, type RandomStream, type Rgb, type Setting } from 'tenter';
import { breakChips, type Chip, sidesOf } from './chips.ts';
import { strewGrit } from './grit.ts';
import { PER_STONE, type Stones, type TerrazzoModel } from './model.ts';
import type { PARAMETERS, TerrazzoValues } from './parameters.ts';

/** How far edges waver, mm, over features of so many mm. */
const WAVER = 0.07;
const WAVES = 1.6;
/** mm of the clouds in the stone: broad ones, and grain. */
const BROAD = 7;
const GRAIN = 0.9;

export function prepareTerrazzo(setting: Setting<typeof PARAMETERS>): TerrazzoModel {
  const { parameters: values, box, random, report, progress } = setting;
  const { walls, chips } = breakChips(box, values, random);
  progress(0.6);
  const grit = strewGrit(box, walls, chips, values, random('grit'));
  progress(0.95);
  const whole = chips.filter((chip) => chip !== undefined);
  const covered = whole.reduce((sum, { area }) => sum + area, 0) / (box.width * box.height);
  report({ name: 'chips', value: whole.length, unit: 'count' });
  report({ name: 'cover', value: Math.round(100 * covered), unit: 'percent', asked: values.cover });
  const noise = (name: string, size: number, octaves: number, deviation: number) =>
    fractalNoise(box.lattice, { along: size, across: size }, { octaves, gain: 0.6, deviation }, random(name));
  return {
    lattice: box.lattice,
    stones: gather([...whole, ...grit], whole.length, values, random('colours')),
    waver: noise('waver', WAVES, 2, WAVER),
    clouds: [noise('broad', BROAD, 3, 1), noise('grain', GRAIN, 2, 1)],
    bed: values.bed === 'colour' ? parseHex(values.bedColour) : undefined,
    bedCloud: 0.018 * values.cloud,
    strength: values.strength / 100,
  };
}

function gather(
  stones: readonly Chip[],
  chips: number,
  values: TerrazzoValues,
  random: RandomStream,
): Stones {
  const palette = [values.first, values.second, values.third, values.fourth].map((colour) =>
    parseHex(colour),
  );
  const striking = strikingOf(palette);
  const large = LARGE * stones.reduce((most, { area }) => Math.max(most, area), 0);
  const numbers = new Float64Array(stones.length * PER_STONE);
  const starts = new Int32Array(stones.length + 1);
  const sides: number[] = [];
  stones.forEach(({ x, y, corners, area }, k) => {
    const radius = Math.sqrt(area / Math.PI);
    let colour = pickColour(random);
    // The largest in the colour that stands out most would be counted in the repeat.
    while (area > large && colour === striking) colour = pickColour(random);
    const [red, green, blue] = toned(palette[colour], values.cloud, random);
    const cloud = values.cloud * (k < chips ? 1 : 0.5);
    const round = radius * (0.02 + 0.24 * values.wear);
    const clouds = [
      0.035 * cloud * Math.max(-1.5, Math.min(1.5, random.normal())),
      0.022 * cloud * random.between(0.2, 1),
    ];
    numbers.set([x, y, farthestCorner(corners), radius, red, green, blue, ...clouds, round], k * PER_STONE);
    for (const side of sidesOf(corners)) sides.push(side.x, side.y, side.half);
    starts[k + 1] = sides.length / 3;
  });
  return { numbers, starts, sides: Float64Array.from(sides) };
}

/** Of the largest area: chips above it are large. */
const LARGE = 0.3;

/** The colour that is farthest from the mean of all. */
function strikingOf(palette: readonly Rgb[]): number {
  const mean = [0, 1, 2].map((c) => palette.reduce((sum, colour) => sum + colour[c], 0) / palette.length);
  const away = palette.map((colour) => Math.hypot(...mean.map((value, c) => value - colour[c])));
  return away.indexOf(Math.max(...away));
}

/** The first colours are the more frequent. */
const SHARES = [0.34, 0.62, 0.82];

function pickColour(random: RandomStream): number {
  const at = random.next();
  return SHARES.filter((share) => at >= share).length;
}

/** No two chips of a quarry are quite alike. */
function toned(colour: Rgb, cloud: number, random: RandomStream): number[] {
  // Dark stone differs less than pale stone does.
  const light = 0.3 + 0.7 * Math.max(...colour);
  const lighter = 0.07 * cloud * light * random.normal();
  const warmer = 0.012 * cloud * light * random.normal();
  return [warmer, 0, -warmer].map((shift, c) => Math.min(1, Math.max(0, colour[c] + lighter + shift)));
}
