import type { Samples } from '../colour/frame.ts';
import { linearTable } from '../colour/samples.ts';
import type { ShadeCard } from './card.ts';
import { type DotField, openDots } from './dots.ts';
import { blankMixture, MIXED_INKS, type Mixture, WHOLE } from './mixture.ts';
import type { PressCurve } from './press.ts';
import { cellsOf } from './scattered-rows.ts';
import type { ScreenColours } from './screen-colours.ts';
import { openToneFinder } from './tone-finder.ts';
import { createUnmixer } from './unmix.ts';

/** How a picture is taken apart into dots. */
export interface ScreeningPlan {
  readonly card: ShadeCard;
  /** Places of the inks that the artwork is made of: no edge between two of them is taken for a third. */
  readonly flats: readonly number[];
  readonly colours: ScreenColours;
  readonly dots: DotField;
  readonly press: PressCurve;
  /** The least tone that the dots can stand for, 0..0.5: what is less is none of it or this, whichever is nearer. */
  readonly leastTone: number;
  /** Whether a wash between two inks of the artwork is cut where they are equal, or printed in dots. */
  readonly washes: 'hard' | 'dots';
}

/** Turns bands of a picture into places among the plan's colours. */
export interface OpenScreening {
  /** The row where a band that begins at `y` and has about `rows` rows may end: cells are not cut. */
  endOf(y: number, rows: number): number;
  /**
   * @param y First row of the band: 0, or what `endOf` gave.
   * @param artwork Straight RGBA of the artwork's rows, and `result` what was laid over them.
   * @param codes One place among the colours per pixel.
   */
  screen(y: number, artwork: Samples, result: Samples, codes: Uint8Array): void;
  /** Pixels so far that a dot has changed. */
  changed(): number;
}

/** The flats of one cell, and what the texture makes of each on average. */
interface CellFlats {
  count: number;
  readonly flat: Int32Array;
  readonly pixels: Int32Array;
  readonly light: Float64Array;
}

/**
 * Every pixel of the artwork becomes the ink that it has most of, so that flats stay flat and their edges
 * crisp, soft ones too. Then dots of the texture fall on the flats: a cell of the dots is printed whole or not at
 * all, by the mean of what was laid over its pixels. What was laid is counted from the artwork, not from the flat, so that
 * a soft edge makes no dots.
 */
export function openScreening(plan: ScreeningPlan, width: number, height: number): OpenScreening {
  const { card, flats, colours, dots, press, leastTone, washes } = plan;
  const unmixer = createUnmixer({ ...card, inks: flats.map((ink) => card.inks[ink]) });
  const reader = openDots(dots);
  const finder = openToneFinder(colours);
  const lefts = startsOf(width, columnsOf(dots));
  const tops = startsOf(height, rowsOf(dots));
  const thresholds = new Uint16Array(width);
  const cell: CellFlats = {
    count: 0,
    flat: new Int32Array(card.inks.length),
    pixels: new Int32Array(card.inks.length),
    light: new Float64Array(3 * card.inks.length),
  };
  const chosen = new Int32Array(card.inks.length);
  const { lights } = colours;
  let changed = 0;

  function screen(y: number, artwork: Samples, result: Samples, codes: Uint8Array): void {
    const pixels = codes.length;
    const mixture = blankMixture(pixels);
    unmixer.unmix(artwork, mixture);
    const linear = linearTable(artwork);
    const laid = linearTable(result);
    const end = y + pixels / width;
    for (let row = tops.indexOf(y); tops[row] < end; row++) {
      const [top, bottom] = [tops[row] - y, tops[row + 1] - y];
      reader.row(0, tops[row], width, thresholds);
      for (let column = 0; column + 1 < lefts.length; column++) {
        const [left, right] = [lefts[column], lefts[column + 1]];
        const threshold = thresholds[left];
        cell.count = 0;
        for (let v = top; v < bottom; v++)
          for (let u = left; u < right; u++) {
            const at = v * width + u;
            const flat = flats[flatOf(mixture, MIXED_INKS * at, washes, threshold)];
            codes[at] = flat;
            const slot = slotOf(cell, flat);
            const own = lights[flat];
            for (let channel = 0; channel < 3; channel++)
              cell.light[3 * slot + channel] += carriedOver(
                own[channel],
                linear[artwork[4 * at + channel]],
                laid[result[4 * at + channel]],
              );
          }
        if (!stands(threshold)) continue;
        for (let v = top; v < bottom; v++)
          for (let u = left; u < right; u++) {
            const at = v * width + u;
            if (chosen[codes[at]] !== codes[at]) changed++;
            codes[at] = chosen[codes[at]];
          }
      }
    }
  }

  /** Whether the cell's dot stands; `chosen` then says what each flat becomes. */
  function stands(threshold: number): boolean {
    let tone = 0;
    let pixels = 0;
    for (let slot = 0; slot < cell.count; slot++) {
      const [flat, count] = [cell.flat[slot], cell.pixels[slot]];
      const at = 3 * slot;
      const { light } = cell;
      const found = finder.find(flat, light[at] / count, light[at + 1] / count, light[at + 2] / count);
      chosen[flat] = finder.code();
      tone += found * count;
      pixels += count;
    }
    const asked = settled(press(tone / pixels), leastTone);
    return asked * WHOLE > threshold;
  }

  return {
    endOf(y, rows) {
      for (const top of tops) if (top >= y + rows) return top;
      return height;
    },
    screen,
    changed: () => changed,
  };
}

/**
 * What was laid over a pixel of the artwork, laid over the flat that stands for it: as a share of its light where it
 * was darkened, of what it lacked of white where it was lightened.
 */
export function carriedOver(flat: number, before: number, after: number): number {
  if (after <= before) return before > 0 ? (flat * after) / before : flat;
  return 1 - ((1 - flat) * (1 - after)) / (1 - before);
}

function flatOf({ inks, amounts }: Mixture, at: number, washes: 'hard' | 'dots', threshold: number): number {
  if (washes === 'hard' || amounts[at] === WHOLE) return inks[at];
  // Turned round, so that the dots of a wash and those of the texture do not fall together.
  const height = WHOLE - 1 - threshold;
  if (height < amounts[at]) return inks[at];
  return height < amounts[at] + amounts[at + 1] ? inks[at + 1] : inks[at + 2];
}

function slotOf(cell: CellFlats, flat: number): number {
  for (let slot = 0; slot < cell.count; slot++) {
    if (cell.flat[slot] !== flat) continue;
    cell.pixels[slot]++;
    return slot;
  }
  const slot = cell.count++;
  cell.flat[slot] = flat;
  cell.pixels[slot] = 1;
  cell.light.fill(0, 3 * slot, 3 * slot + 3);
  return slot;
}

/** A tone that dots can stand for. */
function settled(tone: number, least: number): number {
  if (tone < least) return tone < least / 2 ? 0 : least;
  if (tone > 1 - least) return tone > 1 - least / 2 ? 1 : 1 - least;
  return tone;
}

/** Where cells begin along a side, and the side's end. */
function startsOf(pixels: number, cells: number): number[] {
  const starts = [0];
  const cell = cellsOf(pixels, cells);
  for (let pixel = 1; pixel < pixels; pixel++) if (cell[pixel] !== cell[pixel - 1]) starts.push(pixel);
  return [...starts, pixels];
}

/** Ruled dots are decided pixel by pixel. */
function columnsOf(dots: DotField): number {
  if (dots.kind === 'ruled') return dots.lattice.ax;
  return dots.isBrick ? dots.down : dots.across;
}

function rowsOf(dots: DotField): number {
  if (dots.kind === 'ruled') return dots.lattice.by;
  return dots.isBrick ? dots.across : dots.down;
}
