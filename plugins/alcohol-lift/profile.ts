import { levelFilm } from 'tenter';

/**
 * How the paint lies round a drop, against part = radius / radius of the opening. `depth` is the paint
 * per area (1 = undisturbed), `source` the share of the way in to where it came from: paint that now
 * stands at r came from r * source. Both for a rim at its strongest and at its weakest.
 *
 * Every profile keeps its paint: part^2 * source^2 is twice the integral of depth * part.
 */
export interface Profile {
  readonly strong: Float32Array;
  readonly weak: Float32Array;
  readonly strongSource: Float32Array;
  readonly weakSource: Float32Array;
}

/** Beyond this many radii of the opening a drop moves nothing. */
export const REACH = 2;
/** Rings from the centre to there; a table has one value more, at the faces between them. */
export const RINGS = 256;
const RING_WIDTH = REACH / RINGS;

export interface ProfileShape {
  /** How often spirit fed the opening, as a power: source = part^feed; 1 is the similarity solution. */
  readonly feed: number;
  /** How long the rim levelled, in the units of `levelFilm`. */
  readonly levelling: number;
  /** How much levelled back into the opening, 0..1. */
  readonly closing: number;
  /** How much paint gathers at the edge while it dries, and how wide that is in radii. */
  readonly crest: number;
  readonly crestWidth: number;
  /** Paint that ran back to the middle as the spirit went off, 0..1. */
  readonly eye: number;
  /** Paint that a second wave of the film carried back in as far as an inner edge, 0..1. */
  readonly backrun: number;
  /** Paint that flowed back over the middle, 0..1, and how far, in radii. */
  readonly returned: number;
  readonly returnedTo: number;
  /** How far the edge diffused while wet, in radii (standard deviation), where the rim is strong and where weak. */
  readonly blur: readonly [strong: number, weak: number];
}

/** The profile of a shape. */
export function profileOf(shape: ProfileShape): Profile {
  return finish(shape, filmOf(shape, 1), filmOf(shape, WEAKER));
}

/** How much longer a rim has levelled where it is weakest. */
const WEAKER = 4;

/** @param strong Film levelled for as long as the shape says; left as it is. */
function finish(shape: ProfileShape, strong: Float64Array, weak: Float64Array): Profile {
  const films = [strong.slice(), weak.slice()];
  gatherCrest(films[0], shape);
  for (const film of films) {
    runBack(film, shape.eye, eyeAt);
    runBack(film, shape.backrun, backrunAt);
    runBack(film, shape.returned, (part) => returnedAt(part, shape.returnedTo));
  }
  for (const [k, film] of films.entries()) diffuse(film, shape.blur[k]);
  return {
    strong: atFaces(films[0]),
    weak: atFaces(films[1]),
    strongSource: sourceOf(films[0]),
    weakSource: sourceOf(films[1]),
  };
}

/**
 * The composed similarity law, levelled. One drop gives the depth 2 part^2 of Jensen and Grotberg's
 * solution: source = part. A second drop on the first, as wide, gives source = part^3, and so on: with
 * source = part^feed the depth is (1 + feed) part^(2 feed), flat and empty in the middle for an opening
 * that was fed for long. The front stands where the depth passes 1 at part 1.
 */
function filmOf({ feed, closing, levelling }: ProfileShape, times: number): Float64Array {
  const front = ((1 + feed) / WALL) ** (1 / (2 * feed));
  const within = (part: number) =>
    part < front ? front * front * (part / front) ** (2 * feed + 2) : part * part;
  const height = new Float64Array(RINGS);
  for (let i = 0; i < RINGS; i++) {
    const inner = i * RING_WIDTH;
    const outer = inner + RING_WIDTH;
    height[i] = (within(outer) - within(inner)) / (outer * outer - inner * inner);
  }
  levelFilm(
    { ringWidth: RING_WIDTH, height },
    { duration: levelling * times, steps: 24, heldAt: 1, passing: closing },
  );
  endAtReach(height);
  return height;
}

/** Depth at which an opening ends. */
const WALL = 0.3;

/** Draws what levelled out in from the end of the reach, where the sheet lies as it was. */
function endAtReach(height: Float64Array): void {
  let before = 0;
  let after = 0;
  const share = new Float64Array(RINGS);
  for (let i = Math.ceil(1 / RING_WIDTH); i < RINGS; i++) {
    const part = (i + 0.5) * RING_WIDTH;
    const t = Math.max(0, (part - 1) / (REACH - 1));
    share[i] = (height[i] - 1) * (1 - t ** 2.5);
    before += part * (height[i] - 1);
    after += part * share[i];
  }
  for (let i = Math.ceil(1 / RING_WIDTH); i < RINGS; i++) height[i] = 1 + (share[i] * before) / after;
}

/** Radii from which the crest still draws paint. */
const FARTHEST = 1.8;

/** Takes paint from the slope outside and lays it along the edge, as a drying edge does (Deegan et al. 1997). */
function gatherCrest(height: Float64Array, { crest, crestWidth }: ProfileShape): void {
  const wall = wallOf(height);
  // Taken only where there is paint to take: outside the crest, up to well within the reach.
  const foot = wall + crestWidth;
  const hump = (part: number, width: number) => {
    const z = (part - wall) / width;
    return z > -0.5 && z < 2 ? Math.max(0, z + 0.5) * (2 - z) ** 2 : 0;
  };
  move(
    height,
    (part) => crest * hump(part, crestWidth),
    (part) => (part > foot && part < FARTHEST ? (part - foot) * (FARTHEST - part) ** 2 : 0),
  );
}

/** Where the bare middle ends: the outermost place inside the opening with less paint than this. */
function wallOf(height: Float64Array): number {
  let ring = Math.round(1.02 / RING_WIDTH);
  while (ring > 0 && height[ring] > 0.7) ring--;
  return (ring + 1) * RING_WIDTH;
}

/** A dark dot with a soft halo. */
function eyeAt(part: number): number {
  return 0.8 * Math.exp(-((part / 0.17) ** 2)) + 0.3 * Math.exp(-((part / 0.42) ** 2));
}

/** An inner edge, steep on its inner side, with paint thinning out behind it as far as the wall. */
function backrunAt(part: number): number {
  const past = part - INNER_EDGE;
  return past < 0 ? 0.75 * Math.exp(-((past / 0.035) ** 2)) : 0.5 * Math.exp(-past / 0.04) + 0.25;
}

/** Deepest in the middle, a slope, and a soft front. */
function returnedAt(part: number, to: number): number {
  const dome = 0.6 + 0.4 * Math.exp(-((part / (0.55 * to)) ** 2));
  return dome / (1 + Math.exp((part - to) / 0.055));
}

/** Where a back-run ends, in radii. */
const INNER_EDGE = 0.6;

/** Takes paint from the slope outside and lays it inside. */
function runBack(height: Float64Array, amount: number, form: (part: number) => number): void {
  if (amount === 0) return;
  move(
    height,
    (part) => (part < 1 ? amount * form(part) : 0),
    (part) => Math.max(0, 1 - ((part - 1.2) / 0.35) ** 2),
  );
}

/** Adds `to`, and takes as much away in the form of `from`: never below a third of what is there. */
function move(height: Float64Array, to: (part: number) => number, from: (part: number) => number): void {
  let gained = 0;
  let lost = 0;
  for (let i = 0; i < RINGS; i++) {
    const part = (i + 0.5) * RING_WIDTH;
    gained += part * to(part);
    lost += part * from(part);
  }
  const share = gained / lost;
  let allowed = 1;
  for (let i = 0; i < RINGS; i++) {
    const part = (i + 0.5) * RING_WIDTH;
    const change = to(part) - share * from(part);
    if (change < 0) allowed = Math.min(allowed, (0.66 * height[i]) / -change);
  }
  for (let i = 0; i < RINGS; i++) {
    const part = (i + 0.5) * RING_WIDTH;
    height[i] += allowed * (to(part) - share * from(part));
  }
}

/** Lets paint diffuse along the radius: h_t = (1/r) (r h_r)_r, each ring's loss its neighbour's gain. */
function diffuse(height: Float64Array, deviation: number): void {
  const share = 0.5 * (deviation / RING_WIDTH) ** 2;
  const steps = Math.ceil(share / 0.4);
  const rate = steps > 0 ? share / steps : 0;
  for (let step = 0; step < steps; step++) {
    let inflow = 0;
    for (let i = 0; i < RINGS; i++) {
      const outflow = i + 1 < RINGS ? rate * (i + 1) * (height[i] - height[i + 1]) : 0;
      height[i] += (inflow - outflow) / (i + 0.5);
      inflow = outflow;
    }
  }
}

function atFaces(height: Float64Array): Float32Array {
  const table = new Float32Array(RINGS + 1);
  table[0] = height[0];
  for (let i = 1; i < RINGS; i++) table[i] = 0.5 * (height[i - 1] + height[i]);
  table[RINGS] = 1;
  return table;
}

function sourceOf(height: Float64Array): Float32Array {
  const table = new Float32Array(RINGS + 1);
  table[0] = Math.sqrt(height[0]);
  let within = 0;
  for (let i = 1; i <= RINGS; i++) {
    within += (2 * i - 1) * height[i - 1];
    table[i] = Math.sqrt(within) / i;
  }
  return table;
}

/**
 * What an opening is like inside: swept flat, paling toward its middle, with an eye, with a back-run, or with paint that
 * returned as the spirit went off, to half of it or to all but a pale ring.
 */
export const FORMS = ['flat', 'graded', 'eye', 'backrun', 'returned', 'filled'] as const;
export type Form = (typeof FORMS)[number];

/** How soft a drop may be, and how thin its crest, in steps: a bank of profiles serves all drops. */
const SOFTNESSES = 6;
const CREST_WIDTHS = [0.016, 0.034, 0.07, 0.14, 0.26];

/** All profiles, in the order of `profileKind`. */
export function profileBank(rim: number): Profile[] {
  const bank: Profile[] = [];
  for (const form of FORMS)
    for (let softness = 0; softness < SOFTNESSES; softness++) {
      const soft = softness / (SOFTNESSES - 1);
      const shape: ProfileShape = {
        feed: form === 'graded' ? 3 - 0.8 * soft : 9 - 5 * soft,
        levelling: 0.05 * 5 ** soft * (1.75 - 1.5 * rim),
        closing: soft < 0.5 ? 0 : soft < 0.7 ? 0.2 : 1,
        crest: 1.7 * rim * (1 - 0.8 * soft),
        crestWidth: 0,
        blur: [0, 0],
        eye: form === 'eye' ? 0.8 - 0.2 * soft : 0,
        backrun: form === 'backrun' ? 0.55 - 0.2 * soft : 0,
        returned: form === 'returned' ? 0.62 : form === 'filled' ? 0.5 : 0,
        returnedTo: form === 'filled' ? 0.72 : 0.46,
      };
      const strong = filmOf(shape, 1);
      const weak = filmOf(shape, WEAKER);
      for (const crestWidth of CREST_WIDTHS)
        bank.push(finish({ ...shape, crestWidth, blur: blurOf(soft, crestWidth) }, strong, weak));
    }
  return bank;
}

/** The shoulder of an edge is about as wide as its crest; small openings, wide for what they are, have no more than that. */
function blurOf(soft: number, crestWidth: number): [strong: number, weak: number] {
  return [
    Math.max(0.006 + 0.05 * soft ** 2, 0.65 * crestWidth),
    Math.max(0.02 + 0.12 * soft, 1.1 * crestWidth),
  ];
}

/**
 * Which profile of the bank a drop has.
 *
 * @param softness 0 crisp to 1 ghostly.
 * @param crest    Wanted width of its crest in radii.
 */
export function profileKind(form: Form, softness: number, crest: number): number {
  const soft = Math.round(Math.min(1, Math.max(0, softness)) * (SOFTNESSES - 1));
  let thin = 0;
  while (thin + 1 < CREST_WIDTHS.length && crest > Math.sqrt(CREST_WIDTHS[thin] * CREST_WIDTHS[thin + 1]))
    thin++;
  return (FORMS.indexOf(form) * SOFTNESSES + soft) * CREST_WIDTHS.length + thin;
}
