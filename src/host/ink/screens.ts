import { Fault } from '../../fault.ts';
import {
  createRuledDots,
  createScatteredDots,
  type DotField,
  findInk,
  pressCurve,
  printedInks,
  requireScreens,
  type ShadeCard,
} from '../../ink/index.ts';
import { nearestName } from '../../nearest.ts';
import type { Grid } from '../../repeat/grid.ts';
import { readCard } from './card-file.ts';
import type { InksInForce } from './inks-in-force.ts';
import type { ScreensWish } from './screens-wish.ts';

/** A wish with its card read and its names looked up. */
export interface Screens {
  readonly wish: ScreensWish;
  readonly card: ShadeCard;
  /** Places of the texture's own inks in the card; none where they are to be found. */
  readonly texture?: readonly number[];
}

/** mm, where the mill says nothing: what a common rotary screen holds open. */
export const LEAST_DOT = 0.2;

/**
 * Reads the card of a wish and checks all of it that can be before anything is rendered.
 *
 * @throws Fault (input) for a card that cannot be read; (usage) for more inks than screens, an unknown ink, or a
 *   press that cannot be.
 */
export async function openScreens(wish: ScreensWish): Promise<Screens> {
  const card = await readCard(wish.card);
  requireScreens(card, wish.count);
  pressCurve(wish.press?.gain);
  const { way = 'there', inks } = wish;
  if (inks === undefined) return { wish, card };
  if (way !== 'own')
    throw new Fault({
      kind: 'usage',
      expected: 'inks of the texture only where it has its own screen',
      subject: 'the screens',
      received: `${inks.join(' and ')} with the way "${way}"`,
      remedy: 'Leave the inks out, or take the way "own".',
    });
  return { wish, card, texture: inks.map((name) => placeOf(card, name)) };
}

/** The same in a colourway, where the artwork is recoloured to one: what is printed are its colours. */
export function inColourway(
  screens: Screens | undefined,
  inks: InksInForce | undefined,
): Screens | undefined {
  return screens && { ...screens, card: cardInColourway(screens.card, inks) };
}

/** A card as it is printed in a colourway: its inks have the colours of those of the same name. */
export function cardInColourway(card: ShadeCard, inks: InksInForce | undefined): ShadeCard {
  const colourway = inks?.colourway;
  if (!inks || !colourway) return card;
  const ownInks = card.inks.map((ink) => {
    const place = findInk(inks.card, ink.name);
    return place < 0 ? ink : { ...ink, colour: colourway.colours[place] };
  });
  return { ...card, inks: ownInks };
}

/** @throws Fault (usage) where the dots do not fit the grid. */
export function dotsOf(
  { wish }: Screens,
  grid: Grid,
): { readonly field: DotField; readonly leastTone: number } {
  const { dots = 'scattered', press: { leastDot = LEAST_DOT } = {} } = wish;
  if (dots === 'scattered') {
    const pixels = (mm: number) => Math.max(1, Math.ceil(leastDot / mm - 1e-6));
    const least = { across: pixels(grid.mmPerPixelX), down: pixels(grid.mmPerPixelY) };
    return { field: createScatteredDots({ lattice: grid.lattice, leastDot: least }), leastTone: 0 };
  }
  const { shape, ruling, angle = 45 } = dots;
  const field = createRuledDots({ grid, shape, perCm: ruling, angle, leastDot });
  // Lines cover their width, round dots their disc, of what lies from one to the next.
  const line = (leastDot * field.snapped.perCm) / 10;
  return { field, leastTone: Math.min(0.5, shape === 'lines' ? line : (Math.PI / 4) * line * line) };
}

function placeOf(card: ShadeCard, name: string): number {
  const place = findInk(card, name);
  if (card.inks[place]?.kind === 'ink') return place;
  const names = printedInks(card).map((ink) => ink.name);
  const near = nearestName(name, names);
  throw new Fault({
    kind: 'usage',
    expected: `one of the inks ${names.join(', ')}`,
    subject: "the texture's own screen",
    received: `"${name}"`,
    remedy: near ? `Did you mean "${near}"?` : `Add it to the shade card "${card.name}".`,
  });
}
