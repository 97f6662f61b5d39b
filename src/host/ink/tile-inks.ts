import { writeFile } from 'node:fs/promises';
import { basename, extname } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { bytesOfHex, type RgbBytes } from '../../colour/hex.ts';
import { labOfBytes } from '../../colour/lab.ts';
import { cancelled } from '../../effect/setting.ts';
import { cardOf, judgeFlat } from '../../ink/flat-inks.ts';
import { groundOf } from '../../ink/ground.ts';
import { groundColour, type Ink, type NearPair, type ShadeCard } from '../../ink/index.ts';
import { type CardError, type CardMeasure, measureCard } from '../../ink/measure-card.ts';
import { namesOfColours } from '../../ink/names.ts';
import { reduceInks } from '../../ink/reduce-inks.ts';
import { type Tally, tallyColours } from '../../ink/tally.ts';
import { differenceOf, nearPairs, TOO_NEAR } from '../../ink/vision.ts';
import { refuseTaken, writeBeside } from '../../picture/beside.ts';
import {
  type Picture,
  readPicture,
  refuseInputs,
  refuseOverwrite,
  refuseTwins,
  type WritablePicture,
  writePictures,
} from '../../picture/index.ts';
import { requireWritable } from '../../picture/writable.ts';
import { type SizeSource, sizeOfTile } from '../../render/tile-grid.ts';
import { boxCount } from '../../repeat/lattice.ts';
import type { Layout } from '../../repeat/layout.ts';
import type { Size } from '../../repeat/length.ts';
import { cardText, readCard } from './card-file.ts';
import { errorPicture } from './error-picture.ts';

const WHITE: RgbBytes = [255, 255, 255];
/** So many inks a painted design is reduced to at most. */
export const MOST_REDUCED = 16;

export interface InksRequest {
  readonly picture: string;
  readonly layout: Layout;
  /** mm, as the user says. */
  readonly size?: Size;
  /** Pixels per mm, as the user says. */
  readonly density?: number;
  /** The colour of the ground, #rrggbb; found where absent. */
  readonly ground?: string;
  /** How many colours the card is to have, the ground among them; found or suggested where absent. */
  readonly count?: number;
  /** A card to measure the picture by instead of finding its inks. */
  readonly card?: string;
  /** Where to write the card; none is written where a card was given. */
  readonly out: string;
  readonly draw?: string;
  readonly curve?: string;
  readonly show?: string;
  readonly overwrite?: boolean;
}

/** One ink and how much of it there is. */
export interface InkArea {
  readonly ink: Ink;
  /** Of the area, 0..1. */
  readonly share: number;
  /** Per repeat; none where nothing tells the size. */
  readonly cm2?: number;
}

/** What a number of inks comes to. */
export interface CurvePoint {
  readonly count: number;
  readonly error: CardError;
}

export interface InksReport {
  readonly card: ShadeCard;
  /** True where the card was given. */
  readonly isGiven: boolean;
  readonly judgement: string;
  /** Why the card has as many inks as it has; none where that is plain. */
  readonly choice?: string;
  readonly areas: readonly InkArea[];
  readonly error: CardError;
  readonly curve: readonly CurvePoint[];
  readonly near: readonly NearPair[];
  /** px */
  readonly width: number;
  readonly height: number;
  /** mm of the tile; none where nothing tells it. */
  readonly size?: Size;
  readonly sizeFrom?: SizeSource;
  readonly out?: string;
  readonly draw?: string;
  readonly curvePicture?: string;
  readonly show?: string;
  readonly notes: readonly string[];
}

/** What draws with letters, which the host has none of. */
export interface InksDrawings {
  card(report: InksReport): WritablePicture;
  curve(report: InksReport): WritablePicture;
}

export interface InksProgress {
  readonly onProgress?: (done: number, what: string) => void;
  readonly signal?: AbortSignal;
}

/**
 * Finds the inks of a picture, or measures it by a card, and writes the card and what is to be drawn.
 *
 * @throws Fault of any kind; nothing is then written.
 */
export async function inksOfTile(
  request: InksRequest,
  drawings: InksDrawings,
  { onProgress = () => {}, signal }: InksProgress = {},
): Promise<InksReport> {
  const { draw, curve, show, overwrite } = request;
  const out = request.card === undefined ? request.out : undefined;
  await refuseOuts(request, out);
  const turn = async (done: number, what: string) => {
    onProgress(done, what);
    await setImmediate();
    if (signal?.aborted) throw cancelled();
  };
  await turn(0, 'reading');
  const given = request.card === undefined ? undefined : await readCard(request.card);
  const picture = await readPicture(request.picture);
  await turn(0.2, 'counting colours');
  const paper = saidGround(request) ?? (given ? groundColour(given) : WHITE);
  const tally = tallyColours(picture, paper);
  await turn(0.4, given ? 'measuring' : 'finding inks');
  const found = given
    ? { card: given, judgement: `measured by the card "${given.name}"`, curve: [] }
    : findCard(request, picture, tally);
  await turn(0.8, 'measuring');
  const measure = measureCard(found.card, tally);
  const report: InksReport = {
    ...{ ...found, isGiven: given !== undefined, error: measure.error },
    ...factsOf(request, picture, found.card, measure),
    near: nearPairs(found.card.inks),
    ...{ out, draw, show, curvePicture: curve, notes: picture.notes },
  };
  await turn(0.9, 'writing');
  const pictures = [
    ...(draw === undefined ? [] : [{ path: draw, picture: drawings.card(report) }]),
    ...(curve === undefined ? [] : [{ path: curve, picture: drawings.curve(report) }]),
    ...(show === undefined
      ? []
      : [{ path: show, picture: errorPicture(picture, paper, tally, measure.errors) }]),
  ];
  if (pictures.length > 0) await writePictures(pictures, { overwrite, signal });
  if (out !== undefined) await writeCard(out, found.card, { overwrite, signal });
  return report;
}

async function refuseOuts(request: InksRequest, out: string | undefined): Promise<void> {
  const { picture, card, draw, curve, show, overwrite } = request;
  const outs = [out, draw, curve, show].filter((path) => path !== undefined);
  await refuseTwins(outs);
  for (const path of outs) {
    await refuseInputs(path, [picture, ...(card === undefined ? [] : [card])]);
    if (path === out) await refuseTaken(path, overwrite ?? false);
    else await refuseOverwrite(path, overwrite);
  }
  if (out !== undefined) await requireWritable(out);
}

/** Writes a card so that it is there whole or not at all. */
async function writeCard(
  path: string,
  card: ShadeCard,
  place: { readonly overwrite?: boolean; readonly signal?: AbortSignal },
): Promise<void> {
  await writeBeside(path, place, (beside) => writeFile(beside, cardText(card)));
}

interface FoundCard {
  readonly card: ShadeCard;
  readonly judgement: string;
  readonly choice?: string;
  readonly curve: readonly CurvePoint[];
}

function findCard(request: InksRequest, picture: Picture, tally: Tally): FoundCard {
  const { count } = request;
  const flat = judgeFlat(tally);
  const said = saidGround(request);
  const wantsCurve = request.curve !== undefined;
  if (flat.isFlat && !wantsCurve && (count === undefined || count >= flat.colours.length)) {
    const colours = withGround(flat.colours, said);
    const choice =
      count !== undefined && count > colours.length
        ? `it has ${colours.length} and no more, though ${count} were asked for`
        : undefined;
    return { card: cardFor(request, picture, colours, said), judgement: flat.reason, choice, curve: [] };
  }
  const most = Math.min(MOST_REDUCED, wantsCurve ? MOST_REDUCED : (count ?? MOST_REDUCED));
  const sets = reduceInks(tally, most, said ? [said] : []);
  const curve = sets
    .filter(({ length }) => length >= 2)
    .map((colours) => ({ count: colours.length, error: measureCard(cardOf(colours), tally).error }));
  const chosen = count === undefined ? suggest(curve) : { count, choice: undefined };
  const colours = sets.findLast(({ length }) => length <= chosen.count) ?? sets[0];
  const fewer =
    count !== undefined && colours.length < count
      ? `${colours.length} do: more than these are of no use, though ${count} were asked for`
      : chosen.choice;
  return { card: cardFor(request, picture, colours, said), judgement: flat.reason, choice: fewer, curve };
}

/** CIEDE2000 at which mixes of inks are near enough: mean, and of 95 in 100 pixels. */
const NEAR_MEAN = 2.2;
const NEAR_MOST = 5;

/** The fewest inks that come near enough; where none do, those after which one more is of least use. */
function suggest(curve: readonly CurvePoint[]): { count: number; choice?: string } {
  if (curve.length === 0) return { count: 1 };
  const enough = curve.find(({ error }) => error.mean <= NEAR_MEAN && error.p95 <= NEAR_MOST);
  if (enough)
    return {
      count: enough.count,
      choice: `${enough.count} suggested: the fewest whose mixes are off by ${NEAR_MEAN} at most on average and by ${NEAR_MOST} at most in 95 of 100 pixels`,
    };
  const last = curve[curve.length - 1];
  const knee =
    curve.find(({ error }, at) => at + 1 < curve.length && error.mean - curve[at + 1].error.mean < 0.15) ??
    last;
  return {
    count: knee.count,
    choice: `${knee.count} suggested: one more makes it better by less than 0.15 on average`,
  };
}

/** The inks of a flat design with the ground that was said among them. */
function withGround(colours: readonly Ink['colour'][], said: Ink['colour'] | undefined): Ink['colour'][] {
  if (!said || colours.some((colour) => differenceOf(colour, said) < TOO_NEAR)) return [...colours];
  return [...colours, said];
}

/** A card of some colours: the ground first, then the light inks before the dark ones that lie over them. */
function cardFor(
  { picture: path }: InksRequest,
  picture: Picture,
  colours: readonly Ink['colour'][],
  said: Ink['colour'] | undefined,
): ShadeCard {
  const ground = said
    ? colours.reduce((best, one) => (differenceOf(one, said) < differenceOf(best, said) ? one : best))
    : colours[groundOf(picture, cardOf(colours))];
  const lightness = (colour: Ink['colour']) => labOfBytes(colour).L;
  const others = colours.filter((colour) => colour !== ground).sort((a, b) => lightness(b) - lightness(a));
  const names = namesOfColours(others, ['ground']);
  const name = [...basename(path, extname(path)).replaceAll(/\p{C}/gu, '')].slice(0, 40).join('').trim();
  return {
    name: name || 'card',
    inks: [
      { name: 'ground', kind: 'ground', colour: ground, covers: true, note: '' },
      ...others.map(
        (colour, index): Ink => ({ name: names[index], kind: 'ink', colour, covers: true, note: '' }),
      ),
    ],
  };
}

function factsOf(request: InksRequest, picture: Picture, card: ShadeCard, measure: CardMeasure) {
  const { size, density, layout } = request;
  const sized = sizeOfTile(picture, { size, density, fileDensity: picture.pixelsPerMm });
  const { across, down } = boxCount(layout);
  const cm2 = sized && (sized.size.width * sized.size.height * across * down) / 100;
  return {
    ...{ width: picture.width, height: picture.height, size: sized?.size, sizeFrom: sized?.from },
    areas: card.inks.map((ink, index): InkArea => {
      const share = measure.areas[index];
      return { ink, share, ...(cm2 === undefined ? {} : { cm2: share * cm2 }) };
    }),
  };
}

function saidGround({ ground }: InksRequest): RgbBytes | undefined {
  return ground === undefined ? undefined : bytesOfHex(ground, '--ground');
}
