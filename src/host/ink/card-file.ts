import { z } from 'zod';
import { bytesOfHex, hexOfBytes } from '../../colour/hex.ts';
import { type Ink, inkKey, MOST_INKS, type ShadeCard } from '../../ink/index.ts';
import { isObjectWith, type Mistaken, readJsonFile } from '../files/json-file.ts';

const LONGEST_NAME = 40;

const name = z
  .string()
  .trim()
  .min(1)
  .max(LONGEST_NAME)
  // A name goes into plates, tables and file names: one line of text.
  .regex(/^[^\p{C}]*$/u, 'a name without line breaks or control characters');

const inkSchema = z.strictObject({
  name: name.describe('What it is called, 1 to 40 characters; no two of a card alike, whatever their case.'),
  kind: z
    .enum(['ground', 'ink'])
    .describe('ground: the cloth or paper itself, one at the most. ink: what a screen prints.'),
  colour: z
    .string()
    .regex(/^#[0-9a-f]{6}$/i, 'a colour written #rrggbb')
    .describe('Its colour at full strength on the ground.'),
  covers: z
    .boolean()
    .optional()
    .describe('False for a dye that lets through what lies under it; true where absent.'),
  note: z.string().optional().describe("What there is to say of it, e.g. the mill's own number."),
});

/** The shape of a shade card file. */
export const cardSchema = z.strictObject({
  $schema: z.string().optional(),
  card: name.describe("What the card is called, e.g. the design's name."),
  inks: z
    .array(inkSchema)
    .min(1)
    .max(MOST_INKS)
    .describe('In the order of printing: the ground first, then each ink over those before it.'),
});

const CARD = {
  what: 'a shade card',
  schema: cardSchema,
  missing: '"tenter inks TILE" finds the inks of a tile and writes its card.',
  remedy: 'presets/card.schema.json says what may stand where.',
  mistaken: (value: unknown): Mistaken | undefined => {
    if (isObjectWith(value, 'inks')) return undefined;
    if (isObjectWith(value, 'steps'))
      return { received: 'a recipe', remedy: 'Give the shade card that "tenter inks" wrote.' };
    if (isObjectWith(value, 'colourways'))
      return { received: 'a colourway file', remedy: 'Give the shade card that stands in it as "card".' };
    if (isObjectWith(value, 'effect'))
      return { received: 'a preset', remedy: 'Give the shade card that "tenter inks" wrote.' };
    return undefined;
  },
};

/**
 * Reads a shade card; comments and trailing commas are allowed.
 *
 * @throws Fault (input) that lists all that is wrong with it, each with its line.
 */
export async function readCard(path: string): Promise<ShadeCard> {
  const { value, findings } = await readJsonFile(path, CARD);
  const seen = new Map<string, string>();
  let ground: string | undefined;
  value.inks.forEach((ink, index) => {
    const key = inkKey(ink.name);
    const other = seen.get(key);
    if (other !== undefined)
      findings.add(['inks', index, 'name'], `"${ink.name}" is the name of another ink too. Give it its own.`);
    seen.set(key, ink.name);
    if (ink.kind !== 'ground') return;
    if (ground !== undefined)
      findings.add(['inks', index, 'kind'], `"${ground}" is the ground already; a card has one at the most`);
    else if (index > 0)
      findings.add(['inks', index, 'kind'], 'the ground lies under all inks: it stands first in the list');
    ground = ink.name;
  });
  findings.throwIfAny();
  return {
    name: value.card,
    inks: value.inks.map(
      ({ name, kind, colour, covers = true, note = '' }): Ink => ({
        ...{ name, kind, colour: bytesOfHex(colour), covers, note },
      }),
    ),
  };
}

/** A card as its file says it. */
export function cardText({ name, inks }: ShadeCard): string {
  const lines = inks.map(({ name, kind, colour, covers, note }) => {
    const said = {
      ...{ name, kind, colour: hexOfBytes(colour) },
      ...(covers ? {} : { covers }),
      ...(note === '' ? {} : { note }),
    };
    const fields = Object.entries(said).map(([key, value]) => `"${key}": ${JSON.stringify(value)}`);
    return `    { ${fields.join(', ')} }`;
  });
  return `{\n  "card": ${JSON.stringify(name)},\n  "inks": [\n${lines.join(',\n')}\n  ]\n}\n`;
}
