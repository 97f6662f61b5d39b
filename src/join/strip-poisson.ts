import { lineTransform } from '../field/fourier-line.ts';

/** How a strip ends along: `open` freely; `cyclic` on its own beginning. */
export type StripEnds = 'open' | 'cyclic';

/**
 * Solves Poisson's equation on strips of one size, exactly but for rounding: for each cell the sum of what it
 * lies above its neighbours is given; beyond both long sides is 0. By the sine transform across and, for each wave,
 * three-term recurrences along (R. W. Hockney, *A fast direct solution of Poisson's equation using Fourier
 * analysis*, Journal of the ACM 12 (1965)).
 */
export class StripPoisson {
  private readonly transform;
  /** Of Thomas's elimination: what each row leaves of the next. */
  private readonly factors: Float64Array;
  /** How a strip that closes round answers to its own ends (J. Sherman, W. J. Morrison, 1950); none for an open one. */
  private readonly answer?: Float64Array;
  private readonly shares?: Float64Array;
  private readonly diagonal: Float64Array;

  constructor(
    private readonly across: number,
    private readonly along: number,
    private readonly ends: StripEnds,
  ) {
    this.transform = lineTransform(2 * (across + 1));
    this.diagonal = Float64Array.from(
      { length: across },
      (_, k) => 4 - 2 * Math.cos((Math.PI * (k + 1)) / (across + 1)),
    );
    this.factors = new Float64Array(across * along);
    for (let k = 0; k < across; k++) {
      let before = 0;
      for (let j = 0; j < along; j++) {
        before = 1 / (this.diagonalAt(j, k) - before);
        this.factors[j * across + k] = before;
      }
    }
    if (ends === 'open' || along < 3) return;
    // The matrix is that of an open chain plus a product of two vectors, each of the ends alone.
    const answer = new Float64Array(across * along);
    answer.fill(1, 0, across);
    answer.fill(1, across * (along - 1));
    this.sweep(answer);
    this.answer = answer;
    this.shares = Float64Array.from(
      { length: across },
      (_, k) => 1 / (1 - (answer[k] + answer[across * (along - 1) + k])),
    );
  }

  /** Along, an open chain's ends have one neighbour; a cyclic one's keep one of two, and gain 1 for the product. */
  private diagonalAt(j: number, k: number): number {
    const { along, diagonal } = this;
    if (along < 3 && this.ends === 'cyclic') return along === 1 ? diagonal[k] - 2 : diagonal[k];
    const isEnd = (j === 0 ? 1 : 0) + (j === along - 1 ? 1 : 0);
    return this.ends === 'open' ? diagonal[k] - isEnd : diagonal[k] + isEnd;
  }

  /** @param field Holds the sums, cell (i, j) at i + j * across; the solution when it returns. */
  solve(field: Float64Array): void {
    this.sines(field);
    if (this.along === 2 && this.ends === 'cyclic') this.solveTwo(field);
    else this.sweep(field);
    const { across, along, answer, shares } = this;
    if (answer && shares) {
      const times = new Float64Array(across);
      for (let k = 0; k < across; k++) times[k] = shares[k] * (field[k] + field[across * (along - 1) + k]);
      for (let j = 0, at = 0; j < along; j++)
        for (let k = 0; k < across; k++, at++) field[at] += times[k] * answer[at];
    }
    this.sines(field);
    const scale = 2 / (across + 1);
    for (let at = 0; at < field.length; at++) field[at] *= scale;
  }

  /** Thomas's elimination along the strip, for all waves side by side. */
  private sweep(field: Float64Array): void {
    const { across, along, factors } = this;
    for (let k = 0; k < across; k++) field[k] *= factors[k];
    for (let at = across; at < across * along; at++)
      field[at] = (field[at] + field[at - across]) * factors[at];
    for (let at = across * (along - 1) - 1; at >= 0; at--) field[at] += factors[at] * field[at + across];
  }

  /** Two rows that are each other's neighbours twice. */
  private solveTwo(field: Float64Array): void {
    const { across, diagonal } = this;
    for (let k = 0; k < across; k++) {
      const sum = (field[k] + field[across + k]) / (diagonal[k] - 2);
      const difference = (field[k] - field[across + k]) / (diagonal[k] + 2);
      field[k] = (sum + difference) / 2;
      field[across + k] = (sum - difference) / 2;
    }
  }

  /** The sine transform of each row: two rows in one complex line of the odd continuation. */
  private sines(field: Float64Array): void {
    const { across, along } = this;
    const size = 2 * (across + 1);
    const line = new Float64Array(2 * size);
    for (let j = 0; j < along; j += 2) {
      const one = j * across;
      const other = j + 1 < along ? one + across : one;
      line.fill(0);
      for (let i = 0; i < across; i++) {
        line[2 * (i + 1)] = field[one + i];
        line[2 * (i + 1) + 1] = field[other + i];
        line[2 * (size - 1 - i)] = -field[one + i];
        line[2 * (size - 1 - i) + 1] = -field[other + i];
      }
      this.transform(line);
      for (let k = 0; k < across; k++) {
        field[one + k] = -line[2 * (k + 1) + 1] / 2;
        field[other + k] = line[2 * (k + 1)] / 2;
      }
    }
  }
}
