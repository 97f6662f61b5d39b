import type { Samples } from '../colour/frame.ts';
import { linearTable, sampleOfLinear, shareBlank } from '../colour/samples.ts';
import { Fault } from '../fault.ts';
import { BLUE, GREEN, type LightCells, type LightKind, LUMINANCE, lightCells, RED } from './light-cells.ts';
import { type LitPicture, requireLitPicture } from './lit-picture.ts';
import { fitSurface, polynomials, slowTerms, type Term } from './slow-surface.ts';

/** What is taken for slow, and for light. */
export interface SlowLightOptions {
  /**
   * mm: what changes within less than this is the picture's own and is left alone. Where absent, the longer
   * side of the picture: a light that falls off from one side, or towards the corners.
   */
  readonly length?: number;
  /**
   * `common`: one field, of luminance, for all three channels, so that no colour turns. `each`: one for red,
   * green and blue each, where the light's colour is uneven too. `common` where absent.
   */
  readonly channels?: 'common' | 'each';
}

/** The uneven light of a scan: a slow field over the whole picture. Plain data. */
export interface SlowLight {
  /** True where nothing slow stands out; dividing it out then changes nothing. */
  readonly isEven: boolean;
  /** The terms that it is made of. */
  readonly terms: readonly Term[];
  /** One field for all channels, or one each: the amount of each term, in natural logarithms of linear light. */
  readonly amounts: readonly Float64Array[];
  /** Of each field what its logarithm is counted from, so that the picture's mean light stays. */
  readonly means: readonly number[];
  /** How many times as bright as the darkest the brightest light is, 1 for an even one; of the most uneven channel. */
  readonly range: number;
}

/** Cells along the longer side: so many at least, and so many for each `length`. */
const FEWEST_CELLS = 48;
const CELLS_PER_LENGTH = 8;
const MOST_CELLS = 128;
/** Polynomials of a higher degree would follow the picture's own tones. */
const HIGHEST_DEGREE = 12;

/**
 * Finds the uneven light of a scan: as a smooth surface in the logarithm of linear light, for light
 * multiplies. Motifs do not mislead it as long as a good part of the picture, a third or so, is of the same
 * ground (`fitSurface`). What the painter meant, a wash that grows darker from top to bottom, looks the same as
 * light that falls off: it is for the user to say.
 *
 * @throws Fault (input) where the samples do not fit the size; (usage) where `length` is not above 0.
 */
export function slowLight(picture: LitPicture, options: SlowLightOptions = {}): SlowLight {
  requireLitPicture(picture);
  const wide = picture.width * picture.mmPerPixelX;
  const tall = picture.height * picture.mmPerPixelY;
  const { length = Math.max(wide, tall), channels = 'common' } = options;
  requireLength(length);
  // A polynomial of degree n turns once over pi / n of the side's half, in its middle.
  const degree = (side: number) => Math.min(HIGHEST_DEGREE, (Math.PI * side) / length);
  const terms = slowTerms(degree(wide), degree(tall));
  const perLength = (CELLS_PER_LENGTH * Math.max(wide, tall)) / length;
  const most = Math.round(Math.min(MOST_CELLS, Math.max(FEWEST_CELLS, perLength)));
  const kinds: readonly LightKind[] = channels === 'each' ? [RED, GREEN, BLUE] : [LUMINANCE];
  const cells = lightCells(picture, kinds, most);
  const found = cells.map((of) => fitSurface(of, terms));
  if (found.every((amounts) => amounts === undefined)) return evenLight();
  const amounts = found.map((of) => of ?? new Float64Array(terms.length));
  const fields = amounts.map((of, k) => fieldOn(cells[k], terms, of));
  return {
    isEven: false,
    terms,
    amounts,
    means: fields.map((field, k) => meanOf(cells[k], field)),
    range: Math.max(...fields.map((field) => Math.exp(maximum(field) + maximum(field.map((v) => -v))))),
  };
}

function evenLight(): SlowLight {
  return { isEven: true, terms: [], amounts: [], means: [], range: 1 };
}

function requireLength(length: number): void {
  if (length > 0) return;
  throw new Fault({
    kind: 'usage',
    expected: 'a length above 0 mm',
    subject: 'the length below which light is left alone',
    received: String(length),
    remedy: 'Give for example half the width of the picture.',
  });
}

function fieldOn({ across, down }: LightCells, terms: readonly Term[], amounts: Float64Array): Float64Array {
  const rows = rowFields(terms, amounts, across, down);
  const field = new Float64Array(across * down);
  for (let y = 0; y < down; y++) field.set(rows(y), y * across);
  return field;
}

/** The field along any row of pixels (or cells), from one row of terms: valid until the next call. */
function rowFields(
  terms: readonly Term[],
  amounts: Float64Array,
  across: number,
  down: number,
): (y: number) => Float64Array {
  const most = Math.max(1, ...terms.flatMap(({ i, j }) => [i, j]));
  const [columns, rows] = [polynomials(across, most), polynomials(down, most)];
  const row = new Float64Array(across);
  return (y) => {
    row.fill(0);
    for (let i = 0; i <= most; i++) {
      let amount = 0;
      for (const [k, term] of terms.entries()) if (term.i === i) amount += amounts[k] * rows[term.j][y];
      if (amount === 0) continue;
      for (let x = 0; x < across; x++) row[x] += amount * columns[i][x];
    }
    return row;
  };
}

/** The level of the field that leaves the sum of light as it is. */
function meanOf({ levels }: LightCells, field: Float64Array): number {
  let [before, after] = [0, 0];
  for (const [cell, level] of levels.entries()) {
    if (Number.isNaN(level)) continue;
    before += Math.exp(level);
    after += Math.exp(level - field[cell]);
  }
  return Math.log(before / after);
}

function maximum(values: Float64Array): number {
  return values.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY);
}

/**
 * The picture as an even light would show it, with the same mean light; the very same samples where the light
 * is even. Alpha stays. What would become brighter than white is white.
 *
 * @returns Samples in memory that workers share.
 * @throws Fault (input) where the samples do not fit the size.
 */
export function divideLight(picture: LitPicture, light: SlowLight): Samples {
  requireLitPicture(picture);
  if (light.isEven) return picture.samples;
  const { width, height, samples } = picture;
  const evened = shareBlank(samples);
  const linear = linearTable(samples);
  const encode = sampleOfLinear(samples);
  const fields = light.amounts.map((amounts) => rowFields(light.terms, amounts, width, height));
  const factors = fields.map(() => new Float64Array(width));
  for (let y = 0; y < height; y++) {
    for (const [k, field] of fields.entries()) {
      const [row, mean] = [field(y), light.means[k]];
      for (let x = 0; x < width; x++) factors[k][x] = Math.exp(mean - row[x]);
    }
    const [red, green = red, blue = red] = factors;
    for (let x = 0, at = 4 * y * width; x < width; x++, at += 4) {
      evened[at] = encode(linear[samples[at]] * red[x]);
      evened[at + 1] = encode(linear[samples[at + 1]] * green[x]);
      evened[at + 2] = encode(linear[samples[at + 2]] * blue[x]);
      evened[at + 3] = samples[at + 3];
    }
  }
  return evened;
}
