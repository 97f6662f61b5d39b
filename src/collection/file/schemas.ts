import { z } from 'zod';
import { collectionSchema } from './schema.ts';

/** The published JSON Schema of a collection file, by its file in presets/. */
export function publishedSchemas(): Record<string, unknown> {
  return { 'collection.schema.json': z.toJSONSchema(collectionSchema) };
}
