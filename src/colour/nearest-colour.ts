import { Fault } from '../fault.ts';
import { colourDifference, leastDifference } from './difference.ts';
import { parseHex } from './hex.ts';
import { type Lab, labOfLinear, labOfSrgb } from './lab.ts';
import { clampToUnit, decodeByTable } from './srgb.ts';

/** The index of the nearest colour to an encoded sRGB colour, each channel 0..1 and clamped. */
export type ColourLookup = (red: number, green: number, blue: number) => number;

/**
 * Prepares a lookup of the nearest of some colours by CIEDE2000; of colours that are equally near the first. Each
 * is held off by a bound that costs a tenth, so that a pixel takes a few full differences at most: about a microsecond
 * for eight colours, and nothing where a colour follows itself. (A table of the cube of colours would be faster and
 * wrong: CIEDE2000 jumps where two hues are half a turn apart.)
 * It is a function and no plain data: make it in `paint`, once for a band, and keep the colours in the model.
 *
 * @param colours Each `#rrggbb`; a palette's value as it is.
 * @throws Fault (usage) where there is none, or a text is no colour.
 */
export function nearestColour(colours: readonly string[]): ColourLookup {
  if (colours.length === 0) throw noColours();
  const labs = colours.map((colour) => labOfSrgb(parseHex(colour)));
  const bounds = new Float64Array(labs.length);
  const before = { red: Number.NaN, green: 0, blue: 0, nearest: 0 };
  return (red, green, blue) => {
    if (red === before.red && green === before.green && blue === before.blue) return before.nearest;
    const nearest = nearestOf(labs, labOfLinear(linear(red), linear(green), linear(blue)), bounds);
    Object.assign(before, { red, green, blue, nearest });
    return nearest;
  };
}

function linear(encoded: number): number {
  return decodeByTable(clampToUnit(encoded));
}

function nearestOf(labs: readonly Lab[], lab: Lab, bounds: Float64Array): number {
  let likely = 0;
  for (let index = 0; index < labs.length; index++) {
    bounds[index] = leastDifference(labs[index], lab);
    if (bounds[index] < bounds[likely]) likely = index;
  }
  let [nearest, away] = [likely, colourDifference(labs[likely], lab)];
  for (let index = 0; index < labs.length; index++) {
    if (index === likely || bounds[index] > away) continue;
    const difference = colourDifference(labs[index], lab);
    if (difference > away || (difference === away && index > nearest)) continue;
    [nearest, away] = [index, difference];
  }
  return nearest;
}

function noColours(): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'one colour or more',
    subject: 'nearestColour',
    received: 'an empty list',
  });
}
