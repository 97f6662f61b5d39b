import { z } from 'zod';
import { cardSchema } from '../ink/card-file.ts';
import { colourwayFileSchema } from '../ink/colourway-file.ts';
import { presetSchema } from './preset.ts';
import { recipeSchema } from './recipe.ts';

/** The published JSON Schemas, by their file in presets/. */
export function publishedSchemas(): Record<string, unknown> {
  return {
    'colourways.schema.json': z.toJSONSchema(colourwayFileSchema),
    'card.schema.json': z.toJSONSchema(cardSchema),
    'preset.schema.json': z.toJSONSchema(presetSchema),
    'recipe.schema.json': z.toJSONSchema(recipeSchema),
  };
}
