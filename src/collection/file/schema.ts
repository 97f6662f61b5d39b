import { z } from 'zod';
import { BLEND_MODES } from '../../colour/blend.ts';
import { screensSchema } from '../../host/ink/screens-wish.ts';
import { parameterValue } from '../../host/plugins/preset.ts';
import { colourwayWish, recipeSchema as hostRecipeSchema, lightSchema } from '../../host/plugins/recipe.ts';

const stepSchema = hostRecipeSchema.shape.steps.element;

const scalar = z.union([z.number(), z.string(), z.boolean()], { error: 'a number, a text, true or false' });
const density = z.union([z.number(), z.string()], { error: 'a density such as 300 or "118px/cm"' });

const axisSchema = z
  .union(
    [
      z.array(parameterValue).min(1),
      z.strictObject({ from: z.number(), to: z.number(), step: z.number() }),
      z.strictObject({ from: z.number(), to: z.number(), count: z.int() }),
      z.strictObject({ count: z.int(), from: z.int().optional() }),
    ],
    { error: 'a list of values, a range {"from", "to", "step" or "count"}, or a number of seeds {"count"}' },
  )
  .describe(
    'A list of values, a range (from and to, with a step or a count), or a count of seeds: {"count": 4} is "1" to "4". A parameter that is a list takes a list of lists.',
  );
/** The values of one axis, as they are written. */
export type AxisEntry = z.infer<typeof axisSchema>;

const varySchema = z
  .record(z.string(), axisSchema)
  .describe(
    'What to vary, by axis: seed, opacity (times that of each step), blend, size (of one tile), scale (times the size of each tile), dpi (the tile is resampled), quality, colourway (as the file of the tile names them), or a parameter as "effect.parameter".',
  );

const tileSchema = z.strictObject({
  picture: z
    .union([z.string(), z.array(z.string()).min(1)], { error: 'a path or pattern, or a list of them' })
    .describe('Paths or patterns such as "artwork/*.png", from the folder of this file.'),
  name: z
    .string()
    .min(1)
    .optional()
    .describe('Its name in file names and on sheets; that of its file where absent.'),
  layout: z
    .string()
    .optional()
    .describe(
      'straight (where absent), half-drop or drop:1/2, brick or brick:1/3, mirror-x, mirror-y, mirror-xy or turn; fractions are free.',
    ),
  size: z
    .string()
    .optional()
    .describe('Size of one tile, e.g. "320x320mm"; where absent it follows from the density.'),
  dpi: density
    .optional()
    .describe('Density of the picture, where its file does not state it and no size is given.'),
  fit: z.boolean().optional().describe('Take the nearest whole pixels where the repeat misses them.'),
  follow: z
    .enum(['cloth', 'artwork'])
    .optional()
    .describe(
      'For reflected layouts: whether the texture follows the cloth or is reflected with the artwork.',
    ),
  ways: z
    .string()
    .min(1)
    .optional()
    .describe('The file with its colourways; "colourway" in vary says which are made.'),
  card: z
    .string()
    .min(1)
    .optional()
    .describe('Its shade card, where the colourway file names none or there is none.'),
});
export type TileEntry = z.infer<typeof tileSchema>;

const recipeSchema = z.strictObject({
  name: z.string().min(1).optional().describe('Its name in file names and on sheets.'),
  effect: z.string().optional().describe('An effect by name; or give recipe or steps instead.'),
  preset: z.string().optional().describe('A preset of the effect.'),
  presets: z
    .array(z.string())
    .min(1)
    .optional()
    .describe('Several presets of the effect: a recipe for each.'),
  parameters: z
    .record(z.string(), parameterValue)
    .optional()
    .describe('Values of the effect that differ from the preset.'),
  blend: z.enum(BLEND_MODES).optional(),
  opacity: z.number().min(0).max(1).optional(),
  paper: stepSchema.shape.paper,
  mask: stepSchema.shape.mask,
  recipe: z.string().optional().describe('A recipe by name, or the path of a recipe file.'),
  steps: z.array(stepSchema).min(1).max(32).optional().describe('Steps as in a recipe file.'),
  light: lightSchema.optional(),
  screens: screensSchema.optional(),
  colourway: colourwayWish.optional(),
  vary: varySchema.optional().describe('Axes of this recipe alone; they replace those of the collection.'),
});
export type RecipeEntry = z.infer<typeof recipeSchema>;

const ruleSchema = z
  .record(
    z.string(),
    z.union([scalar, z.array(parameterValue).min(1)], { error: 'a value or a list of values' }),
  )
  .describe(
    'By axis, or by tile or recipe (with * for any letters): a combination that fits all of it is left out.',
  );
export type ExceptRule = z.infer<typeof ruleSchema>;

/** The shape of a collection file. */
export const collectionSchema = z.strictObject({
  $schema: z.string().optional(),
  summary: z.string().min(1).describe('One line: what it is for.'),
  output: z
    .strictObject({
      folder: z
        .string()
        .min(1)
        .optional()
        .describe('Where the pictures go, from the folder of this file; "made" where absent.'),
      name: z
        .string()
        .min(1)
        .optional()
        .describe(
          'How they are named: words in braces are tile, recipe, hash and every axis; "/" makes folders.',
        ),
      format: z.enum(['png', 'tif']).optional().describe('png where absent.'),
    })
    .optional(),
  tiles: z.array(tileSchema).min(1),
  recipes: z.array(recipeSchema).min(1),
  vary: varySchema.optional(),
  except: z.array(ruleSchema).optional().describe('Combinations to leave out.'),
});
/** A collection file as it is written. */
export type CollectionFile = z.infer<typeof collectionSchema>;

/** The published JSON Schema of a collection file, by its file in presets/. */
export function publishedSchemas(): Record<string, unknown> {
  return { 'collection.schema.json': z.toJSONSchema(collectionSchema) };
}
