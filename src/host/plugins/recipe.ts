import { dirname, resolve } from 'node:path';
import { z } from 'zod';
import { BLEND_MODES } from '../../colour/blend.ts';
import { LIGHT_RANGES } from '../../composite/light.ts';
import type { Findings } from '../files/findings.ts';
import { isObjectWith, type Mistaken, readJsonFile } from '../files/json-file.ts';
import { placedWish } from '../ink/inks-in-force.ts';
import { screensSchema } from '../ink/screens-wish.ts';
import { parameterValues } from './preset.ts';

/** A colour, or what can only be the name of an ink; whether the card has it is seen when the steps are resolved. */
export const colourText = z
  .string()
  .regex(
    /^(#[0-9a-f]{6}|(?!\s*([0-9a-f]{3}|[0-9a-f]{6})\s*$)\s*[^#\s].{0,60})$/i,
    'a colour written #rrggbb',
  );

const maskSchema = z
  .strictObject({
    colours: z
      .array(colourText)
      .min(1)
      .optional()
      .describe(
        'Colours of the artwork that the step applies to; or inks, by the names of the card in force.',
      ),
    tolerance: z
      .number()
      .min(0)
      .max(100)
      .optional()
      .describe('CIEDE2000 up to which a colour counts; default 5.'),
    softness: z
      .number()
      .min(0)
      .max(100)
      .optional()
      .describe('CIEDE2000 over which it fades out beyond; default 3.'),
    picture: z
      .string()
      .optional()
      .describe('A grey picture the size of the tile: white applies, black spares.'),
    spare: z.boolean().optional().describe('True to apply everywhere but there.'),
  })
  .refine(({ colours, picture }) => (colours === undefined) !== (picture === undefined), {
    message: 'either colours or a picture',
  });
export type MaskRecipe = z.infer<typeof maskSchema>;

const stepSchema = z.strictObject({
  effect: z.string().describe('The effect, by name.'),
  preset: z.string().optional().describe('A preset of it to start from.'),
  parameters: parameterValues.optional(),
  seed: z.string().optional().describe('Its own seed; by default it follows from that of the render.'),
  blend: z.enum(BLEND_MODES).optional(),
  opacity: z.number().min(0).max(1).optional(),
  paper: colourText
    .optional()
    .describe('The colour under the paint, for effects that thin it; default #ffffff.'),
  mask: maskSchema.optional(),
});
export type RecipeStep = z.infer<typeof stepSchema>;

const from = ([low, high]: readonly [number, number]) => z.number().min(low).max(high).optional();

/** The shape of a light, all of its numbers optional. */
export const lightSchema = z
  .strictObject({
    direction: from(LIGHT_RANGES.direction).describe(
      'Where it comes from, degrees: 0 the right, 90 below, 180 the left, 270 above; default 225.',
    ),
    elevation: from(LIGHT_RANGES.elevation).describe(
      'How high it stands over the cloth, degrees: the lower, the more every unevenness shows; default 20.',
    ),
    gloss: from(LIGHT_RANGES.gloss).describe(
      'How much the flanks that face it gleam, 0 chalk to 1 satin; default 0.',
    ),
  })
  .describe('The one light that all raised surfaces of its steps stand in.');

/** Which colourway a recipe is laid in. */
export const colourwayWish = z
  .strictObject({
    ways: z.string().min(1).optional().describe('The colourway file, from the folder of this file.'),
    name: z.string().min(1).optional().describe('Which of its colourways; --colourway names another.'),
    card: z
      .string()
      .min(1)
      .optional()
      .describe(
        'The shade card of the artwork, where the colourway file names none or there is none: names of inks then stand for its own colours.',
      ),
  })
  .describe(
    'The artwork is recoloured before anything is laid, and names of inks stand for the colours that they have in it.',
  );

/** The shape of a recipe file: an ordered list of effects for one tile. */
export const recipeSchema = z.strictObject({
  $schema: z.string().optional(),
  summary: z.string().min(1).describe('One line: what it looks like.'),
  follow: z.enum(['cloth', 'artwork']).optional(),
  light: lightSchema.optional(),
  screens: screensSchema.optional(),
  colourway: colourwayWish.optional(),
  steps: z.array(stepSchema).min(1).max(32),
});
export type Recipe = z.infer<typeof recipeSchema>;

const RECIPE = {
  what: 'a recipe',
  schema: recipeSchema,
  remedy: 'Nothing was made. presets/recipe.schema.json says what may stand where.',
  missing: 'Check the path; "tenter start my-recipe.json --effect linen-weave" writes one.',
  mistaken,
};

function mistaken(value: unknown): Mistaken | undefined {
  if (isObjectWith(value, 'steps')) return undefined;
  if (isObjectWith(value, 'tiles'))
    return { received: 'a collection', remedy: 'Run it with "tenter collect run".' };
  const effect = isObjectWith(value, 'effect') && (value as { effect: unknown }).effect;
  if (typeof effect !== 'string') return undefined;
  return {
    received: `a preset of ${effect}`,
    remedy: `Lay the effect with --preset, or write a recipe: { "summary": "...", "steps": [{ "effect": "${effect}", "preset": "..." }] }.`,
  };
}

/**
 * Reads a recipe; comments and trailing commas are allowed, and paths of mask pictures and of the
 * shade card in it are relative to its own folder.
 *
 * @throws Fault (input) that lists all that is wrong with its shape.
 */
export async function readRecipe(path: string): Promise<Recipe> {
  return (await readRecipeFile(path)).recipe;
}

/** The same, with a place for whatever else turns out to be wrong with the file. */
export async function readRecipeFile(path: string): Promise<{ recipe: Recipe; findings: Findings }> {
  const { value, findings } = await readJsonFile(path, RECIPE);
  const steps = value.steps.map((step) => ({ ...step, mask: placeMask(step.mask, dirname(path)) }));
  const folder = dirname(path);
  const screens = value.screens && { ...value.screens, card: resolve(folder, value.screens.card) };
  const colourway = value.colourway && placedWish(value.colourway, folder);
  return {
    recipe: { ...value, ...(screens && { screens }), ...(colourway && { colourway }), steps },
    findings,
  };
}

function placeMask(mask: MaskRecipe | undefined, folder: string): MaskRecipe | undefined {
  return mask?.picture === undefined ? mask : { ...mask, picture: resolve(folder, mask.picture) };
}
