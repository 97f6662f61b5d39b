import { Fault } from '../fault.ts';
import { suggestName } from '../nearest.ts';
import type { Ink, ShadeCard } from './card.ts';

/** Other colours for the inks of a card. */
export interface Colourway {
  readonly name: string;
  /** One for each ink, in the order of the card: sRGB bytes, 0..255. */
  readonly colours: readonly Ink['colour'][];
}

/** The card's own colours as a colourway. */
export function ownColourway({ name, inks }: ShadeCard): Colourway {
  return { name, colours: inks.map(({ colour }) => colour) };
}

/** Names of inks that are alike in this are the same name. */
export function inkKey(name: string): string {
  return name.trim().normalize('NFC').toLowerCase();
}

/** The place of an ink of that name in its card; -1 where there is none. */
export function findInk({ inks }: ShadeCard, name: string): number {
  const key = inkKey(name);
  return inks.findIndex((ink) => inkKey(ink.name) === key);
}

/**
 * The place of an ink in its card.
 *
 * @throws Fault (usage) where the card has none of that name; the nearest is offered.
 */
export function inkPlace(card: ShadeCard, name: string, subject: string): number {
  const place = findInk(card, name);
  if (place >= 0) return place;
  throw new Fault({
    kind: 'usage',
    expected: `the name of an ink of the card "${card.name}"`,
    subject,
    received: `"${name}"`,
    remedy: suggestName(
      name.trim(),
      card.inks.map((ink) => ink.name),
    ),
  });
}
