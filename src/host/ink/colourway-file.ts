import { dirname, resolve } from 'node:path';
import { z } from 'zod';
import { bytesOfHex } from '../../colour/hex.ts';
import { Fault } from '../../fault.ts';
import { type Colourway, type Ink, inkKey, inkPlace, type ShadeCard } from '../../ink/index.ts';
import { suggestName } from '../../nearest.ts';
import type { Findings } from '../files/findings.ts';
import { isObjectWith, type Mistaken, readJsonFile } from '../files/json-file.ts';
import { readCard } from './card-file.ts';

/** What stands beside the inks of a colourway that leaves some of them out. */
const REST = 'rest';
const AS_ON_CARD = 'as on the card';

const colourwaySchema = z
  .record(
    z.string(),
    z
      .string()
      .refine((text) => text === AS_ON_CARD || /^#[0-9a-f]{6}$/i.test(text), 'a colour written #rrggbb'),
  )
  .describe(
    'Of each ink of the card its colour, by its name. With "rest": "as on the card" those that are not named keep their own.',
  );

/** The shape of a colourway file. */
export const colourwayFileSchema = z.strictObject({
  $schema: z.string().optional(),
  card: z
    .string()
    .min(1)
    .optional()
    .describe('The shade card whose inks are named, from the folder of this file.'),
  colourways: z
    .record(z.string().min(1).max(40), colourwaySchema)
    .refine((ways) => Object.keys(ways).length > 0, 'one colourway at least')
    .describe('The colourways by their names, 1 to 40 characters; no two alike, whatever their case.'),
});

/** Colourways of one card. */
export interface ColourwayFile {
  readonly path: string;
  readonly card: ShadeCard;
  readonly cardPath: string;
  /** In the order of the file; one at least. */
  readonly colourways: readonly Colourway[];
}

const COLOURWAYS = {
  what: 'a colourway file',
  schema: colourwayFileSchema,
  missing:
    'Check the path; it is written by hand: { "card": "sprigs.card.json", "colourways": { "dusk": { "ground": "#2b2f45" } } }.',
  remedy: 'presets/colourways.schema.json says what may stand where.',
  mistaken: (value: unknown): Mistaken | undefined => {
    if (isObjectWith(value, 'colourways')) return undefined;
    if (isObjectWith(value, 'inks'))
      return {
        received: 'a shade card',
        remedy: 'Give it with --card; the colourways stand in another file.',
      };
    return isObjectWith(value, 'steps')
      ? { received: 'a recipe', remedy: 'Give the file with the colourways.' }
      : undefined;
  },
};

/**
 * Reads a colourway file and the card that it is for; comments and trailing commas are allowed.
 *
 * @param card The path of a card to take in place of the one that the file names.
 * @throws Fault (input) that lists all inks that are missing, unknown or named twice, each with its line;
 *   Fault (usage) where nobody names a card.
 */
export async function readColourways(path: string, card?: string): Promise<ColourwayFile> {
  const { value, findings } = await readJsonFile(path, COLOURWAYS);
  const cardPath = card ?? (value.card === undefined ? undefined : resolve(dirname(path), value.card));
  if (cardPath === undefined) throw cardMissing(path);
  const shades = await readCard(cardPath);
  const names = new Map<string, string>();
  for (const name of Object.keys(value.colourways)) {
    const other = names.get(inkKey(name));
    if (other !== undefined)
      findings.add(['colourways'], `"${other}" and "${name}" are the same name; give one another`, name);
    names.set(inkKey(name), name);
  }
  const colourways = Object.entries(value.colourways).map(([name, inks]) =>
    readColourway(name, inks, shades, findings),
  );
  findings.throwIfAny();
  return { path, card: shades, cardPath, colourways };
}

function readColourway(
  name: string,
  entry: Readonly<Record<string, string>>,
  card: ShadeCard,
  findings: Findings,
): Colourway {
  const place = ['colourways', name];
  const given = new Map<number, { readonly as: string; readonly colour: Ink['colour'] }>();
  let keepsRest = false;
  for (const [ink, text] of Object.entries(entry)) {
    if (text === AS_ON_CARD) {
      if (ink === REST) keepsRest = true;
      else findings.add([...place, ink], `"${AS_ON_CARD}" may stand at "${REST}" alone`);
      continue;
    }
    const at = findings.try([...place, ink], () => inkPlace(card, ink, `the colourway "${name}"`));
    if (at === undefined) continue;
    const other = given.get(at)?.as;
    if (other !== undefined) findings.add([...place, ink], `"${other}" is the same ink; leave out one`);
    given.set(at, { as: ink, colour: bytesOfHex(text) });
  }
  const missing = card.inks.filter((_, at) => !given.has(at)).map((ink) => `"${ink.name}"`);
  if (missing.length > 0 && !keepsRest)
    findings.add(
      place,
      `it has no colour for ${missing.join(', ')} of the card "${card.name}"; name ${missing.length > 1 ? 'them' : 'it'}, or write "${REST}": "${AS_ON_CARD}"`,
    );
  return { name, colours: card.inks.map(({ colour }, at) => given.get(at)?.colour ?? colour) };
}

/** The colourway of that name. @throws Fault (usage) with the nearest where there is none. */
export function colourwayNamed({ path, colourways }: ColourwayFile, name: string): Colourway {
  const found = colourways.find((one) => inkKey(one.name) === inkKey(name));
  if (found) return found;
  throw new Fault({
    kind: 'usage',
    expected: 'the name of a colourway',
    subject: path,
    received: `"${name}"`,
    remedy: suggestName(
      name,
      colourways.map((one) => one.name),
    ),
    saying: `No colourway in ${path} is called "${name}".`,
  });
}

function cardMissing(path: string): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'the shade card whose inks the colourways name',
    subject: path,
    received: 'none: the file has no "card"',
    remedy: 'Give it with --card, or write "card": "NAME.card.json" into the file.',
  });
}
