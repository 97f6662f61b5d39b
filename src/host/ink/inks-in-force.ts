import { resolve } from 'node:path';
import { hexOfBytes } from '../../colour/hex.ts';
import { Fault } from '../../fault.ts';
import { type Colourway, inkPlace, ownColourway, type ShadeCard } from '../../ink/index.ts';
import { readCard } from './card-file.ts';
import { colourwayNamed, readColourways } from './colourway-file.ts';

/** Which card and colourway a render goes by, as a recipe writes it. Paths are absolute, or from the working folder. */
export interface ColourwayWish {
  /** Of the card file; that which the colourway file names where absent. */
  readonly card?: string;
  /** Of the colourway file. */
  readonly ways?: string;
  /** Of the colourway; the card's own colours where absent. */
  readonly name?: string;
}

/** The inks that names stand for, and what the artwork is to be recoloured to. */
export interface InksInForce {
  readonly card: ShadeCard;
  /** Of the card's file, where it was read for a command. */
  readonly cardPath?: string;
  /** None where the artwork stays as it is. */
  readonly colourway?: Colourway;
  /** The files that this was read from; none of them is ever written over. */
  readonly sources: readonly string[];
}

/** Stands for inks that are not known yet: every name is right, and of no colour in particular. */
export const ANY_INKS = 'any';
/** What names of inks are looked up in. */
export type InkNames = InksInForce | typeof ANY_INKS;

/** The first of several wishes that says something counts, part by part. */
export function wishOf(...wishes: readonly (ColourwayWish | undefined)[]): ColourwayWish {
  const first = (part: keyof ColourwayWish) =>
    wishes.map((wish) => wish?.[part]).find((one) => one !== undefined);
  return { card: first('card'), ways: first('ways'), name: first('name') };
}

/** The same with the paths from a folder on. */
export function placedWish<Wish extends ColourwayWish>(wish: Wish, folder: string): Wish {
  const placed = (path: string | undefined) => (path === undefined ? undefined : resolve(folder, path));
  return { ...wish, card: placed(wish.card), ways: placed(wish.ways) };
}

/**
 * Reads the card and the colourway that are asked for.
 *
 * @returns Nothing where none is.
 * @throws Fault (input) for files that are not right; Fault (usage) for a colourway of no file, or of another name.
 */
export async function readInksInForce({ card, ways, name }: ColourwayWish): Promise<InksInForce | undefined> {
  if (ways === undefined) {
    if (name !== undefined) throw fileMissing(name);
    if (card === undefined) return undefined;
    return { card: await readCard(card), cardPath: resolve(card), sources: [resolve(card)] };
  }
  const file = await readColourways(ways, card);
  if (name === undefined) throw nameMissing(ways, file.colourways);
  return {
    card: file.card,
    cardPath: resolve(file.cardPath),
    colourway: colourwayNamed(file, name),
    sources: [resolve(ways), resolve(file.cardPath)],
  };
}

/**
 * The colour that an ink has at the time, `#rrggbb`.
 *
 * @param subject What it is for, for messages.
 * @throws Fault (usage) where the card has no such ink, or none is in force.
 */
export function colourOfInk(inks: InkNames | undefined, name: string, subject: string): string {
  if (inks === ANY_INKS) return '#808080';
  if (!inks) throw cardMissing(name, subject);
  const { card, colourway = ownColourway(card) } = inks;
  return hexOfBytes(colourway.colours[inkPlace(card, name, subject)]);
}

function cardMissing(name: string, subject: string): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'a colour written #rrggbb, or the name of an ink of a shade card',
    subject,
    received: `"${name}", and no card is in force`,
    remedy:
      'Write the colour as #rrggbb, or say what the names stand for: --card CARD, or --ways FILE with --colourway NAME; in a recipe, "colourway".',
  });
}

function fileMissing(name: string): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'the file that the colourway stands in',
    subject: '--colourway',
    received: `"${name}" alone`,
    remedy: 'Add --ways FILE.',
  });
}

function nameMissing(ways: string, colourways: readonly Colourway[]): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'the name of one of its colourways',
    subject: ways,
    received: 'none',
    remedy: `Add --colourway with one of ${colourways.map(({ name }) => `"${name}"`).join(', ')}.`,
  });
}
