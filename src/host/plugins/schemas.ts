import { z } from 'zod';
import { presetSchema } from './preset.ts';
import { recipeSchema } from './recipe.ts';

/** The published JSON Schemas, by their file in presets/. */
export function publishedSchemas(): Record<string, unknown> {
  return {
    'preset.schema.json': z.toJSONSchema(presetSchema),
    'recipe.schema.json': z.toJSONSchema(recipeSchema),
  };
}
